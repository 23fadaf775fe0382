package optimize

import (
	"context"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize/diet"
)

func solve(t testing.TB, h *household.Household, pet *household.Pet) *household.Plan {
	t.Helper()
	plan, err := Solve(context.Background(), Request{Household: h, Pet: pet, Today: household.DateOf(sample.Day), Version: "test"})
	if err != nil {
		t.Fatalf("%s: %v", pet.Name, err)
	}
	return plan
}

// solved runs the stages of a program.
func solved(t testing.TB, p *diet.Program) *diet.Solution {
	t.Helper()
	s, err := p.Solve(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
