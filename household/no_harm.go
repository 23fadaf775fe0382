package household

import (
	"fmt"

	"bowlwright/nutrients/number"
)

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
