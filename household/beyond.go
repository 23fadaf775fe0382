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

// noHarmTol is how far over the amount without harm a day may be before it is said: the
// rounding of adding up.
const noHarmTol = 1e-9

// BeyondNoHarm is the caution of a day that holds more of a nutrient than the amount up
// to which no harm was seen; empty for others. Food brings it, for add-ons may not.
func (n *NutrientLine) BeyondNoHarm() string {
	if n.NoHarm == nil || n.Amount == nil {
		return ""
	}
	most := *n.Amount
	if n.High != nil {
		most = *n.High
	}
	if most <= *n.NoHarm*(1+noHarmTol) {
		return ""
	}
	return fmt.Sprintf("%s: this day holds %s %s. No harm was seen up to %s %s, and nothing is known beyond: ask a veterinarian, or change the base.",
		n.Name, number.Short(most), n.Unit, number.Short(*n.NoHarm), n.Unit)
}

// OverKitchen is an add-on of which a day holds more than a kitchen gives.
type OverKitchen struct {
	Food string `json:"food"`
	Name string `json:"name"`
	// G is the daily amount, CapG what a kitchen gives.
	G    float64 `json:"g"`
	CapG float64 `json:"cap_g"`
	// What names the kind of food, Instead what to put on the shelf or into the pot.
	What    string `json:"what"`
	Instead string `json:"instead"`
}

// Caution says it in words.
func (o OverKitchen) Caution() string {
	return fmt.Sprintf("%s: %s g a day are more than the %s g that a kitchen gives of %s; with less, more would be missed. Instead: %s.",
		o.Name, number.Short(o.G), number.Short(o.CapG), o.What, o.Instead)
}
