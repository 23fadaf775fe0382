package verify_test

import (
	"context"
	"math"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize"
	"bowlwright/optimize/verify"
)

func planOf(t *testing.T, h *household.Household, name string) (*household.Plan, *household.Pet) {
	t.Helper()
	pet := sample.PetNamed(t, h, name)
	plan, err := optimize.Solve(context.Background(), optimize.Request{Household: h, Pet: pet, Today: household.DateOf(sample.Day), Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	if found := verify.Verify(plan, h, pet); len(found) > 0 {
		t.Fatalf("a sound plan does not pass: %v", found)
	}
	return plan, pet
}

func has(found []household.Finding, code string) bool {
	for _, f := range found {
		if f.Code == code {
			return true
		}
	}
	return false
}

// A day one per cent above a maximum does not pass, one a per cent under it does. The
// maximums go by the energy really given, so the energy moves them to where they bite.
func TestMaximumsAreNotLax(t *testing.T) {
	h := sample.QuinceLane(t)
	for _, name := range []string{"Marlow", "Tansy", "Pip"} {
		plan, pet := planOf(t, h, name)
		nearest := math.Inf(1)
		for _, n := range plan.Pet.Nutrients {
			if n.Upper != nil && n.Amount != nil {
				high := *n.Amount
				if n.High != nil {
					high = *n.High
				}
				nearest = min(nearest, *n.Upper/high)
			}
		}
		for over, want := range map[float64]bool{1.01: true, 0.99: false} {
			changed := *pet
			changed.Animal.EnergyKcal = plan.Pet.EnergyKcal / nearest / over
			if got := has(verify.Verify(plan, h, &changed), "verify-upper"); got != want {
				t.Errorf("%s at %g of a maximum: found is %v", name, over, got)
			}
		}
	}
}

// A premix is for the days of the kitchen: 28 days' weights in a kitchen of 27 are not.
func TestPremixDaysAreTheKitchens(t *testing.T) {
	h := sample.QuinceLane(t)
	plan, pet := planOf(t, h, "Pip")
	if plan.Pet.Premix == nil {
		t.Fatal("no premix")
	}
	h.Kitchen.PremixDays = plan.Pet.Premix.Days - 1
	if !has(verify.Verify(plan, h, pet), "verify-premix") {
		t.Errorf("a premix for %d days passes in a kitchen of %d", plan.Pet.Premix.Days, h.Kitchen.PremixDays)
	}
}
