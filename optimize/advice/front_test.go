package advice

import (
	"context"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize"
)

func solve(t testing.TB, h *household.Household, pet *household.Pet) *household.Plan {
	t.Helper()
	plan, err := optimize.Solve(context.Background(), optimize.Request{Household: h, Pet: pet, Today: household.DateOf(sample.Day), Version: "test"})
	if err != nil {
		t.Fatalf("%s: %v", pet.Name, err)
	}
	return plan
}
