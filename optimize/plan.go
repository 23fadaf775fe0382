package optimize

import (
	"context"

	"bowlwright/household"
)

// Request asks for the plan of one pet.
type Request struct {
	Household *household.Household
	Pet       *household.Pet
	Today     household.Date
	// Version of the program, for the record.
	Version string
	// Previous is the plan in use, nil for none; `closest` stays near it.
	Previous *household.Plan
}

// Solve computes a plan. What the data make impossible is a plan with the status
// short, over or impossible, never an error; an error means that no verified
// answer was found.
func Solve(ctx context.Context, req Request) (*household.Plan, error) {
	panic("optimize: Solve is being built")
}

// Verify recomputes a plan from the catalogue and the printed amounts, in code
// that shares nothing with the formulation, and returns what does not agree.
func Verify(plan *household.Plan, h *household.Household, pet *household.Pet) []household.Finding {
	panic("optimize: Verify is being built")
}
