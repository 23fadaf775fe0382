package household

import (
	"fmt"

	"bowlwright/nutrients/number"
)

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
