package household

import (
	"fmt"

	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// Excess is an element of which a day, food and all, holds more than concentrates may
// bring of it, though the standard prints no maximum. Food brings it, so it is a caution
// and no reason to refuse the day.
type Excess struct {
	ID nutrients.ID `json:"id"`
	// Times is what the day holds at most, in minimums.
	Times float64 `json:"times"`
	// From is where the largest part comes from: "base", "extras" or "addons".
	From string `json:"from"`
}

// Caution says the excess in words, as it stands on every document.
func (e Excess) Caution() string {
	from := map[string]string{"base": "the base", "extras": "the extras", "addons": "the add-ons"}[e.From]
	return fmt.Sprintf("%s: this day holds up to %s times the minimum, most of it from %s. The standard prints no maximum, and much more than is needed can harm: ask a veterinarian, or change what brings it.",
		e.ID.Info().Name, number.Short(e.Times), from)
}
