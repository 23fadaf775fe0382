package optimize

import (
	"context"
	"testing"

	"bowlwright/household"
)

func solve(t testing.TB, h *household.Household, pet *household.Pet) *household.Plan {
	t.Helper()
	plan, err := Solve(context.Background(), Request{Household: h, Pet: pet, Today: household.DateOf(demoDay), Version: "test"})
	if err != nil {
		t.Fatalf("%s: %v", pet.Name, err)
	}
	return plan
}
