package household

import (
	"fmt"
	"math"

	"bowlwright/household/diag"
)

// Assessment is what a pet eats now, held against its limits. It proposes nothing.
type Assessment struct {
	// Pet has the form of a pet's part of a plan: base, extras, nutrients, ratios,
	// status; what the plan in use prescribes stands there as it does in a plan.
	Pet PetPlan
	// Declared is true where the household says what is eaten; else it is the plan in
	// use, made on Made.
	Declared bool
	Made     Date
	// Eats lists what is eaten a day, in the order of the file.
	Eats []ExtraAmount
}

// EnergyShare is what is eaten of the energy that the pet needs, 1 for all of it;
// not a number where the energy of the food is not known.
func (a *Assessment) EnergyShare() float64 {
	if a.Pet.PlannedKcal <= 0 || a.Pet.EnergyKcal <= 0 {
		return math.NaN()
	}
	return a.Pet.PlannedKcal / a.Pet.EnergyKcal
}

// A NothingEatenError says that there is nothing to assess.
type NothingEatenError struct{ Pet string }

func (e *NothingEatenError) Error() string {
	return fmt.Sprintf("nothing says what %s eats: there is no [[pet.eats]] and no plan in use", e.Pet)
}

// ExitCode is that of bad input.
func (e *NothingEatenError) ExitCode() int { return diag.ExitInput }

// Hint says where to write it down.
func (e *NothingEatenError) Hint() diag.Hint {
	return diag.Hint{Text: "below the pet in household.toml write [[pet.eats]] with food = \"…\" (or base = \"…\") and amount = \"180 g\", once for each food of a day"}
}
