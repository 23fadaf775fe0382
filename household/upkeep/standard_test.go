package upkeep

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"bowlwright/household"
)

// TestStandardOfTheHousehold: a changed cell of a standard of the household's own makes
// the plan out of date, a comment does not.
func TestStandardOfTheHousehold(t *testing.T) {
	text, err := os.ReadFile("../reading/testdata/standard/house-2025.toml")
	if err != nil {
		t.Fatal(err)
	}
	with := func(standard string) *household.Household {
		return mustLoad(t, folder(t, map[string]string{"standards/house-2025.toml": standard,
			"household.toml": strings.Replace(goodHousehold, "base = ", "standard = \"house-2025\"\nbase = ", 1) + "energy = \"1000 kcal\"\n"}))
	}
	h := with(string(text))
	plan := testPlan(h, "Marlow", 400)
	plan.Pet.StandardDigest, plan.Pet.EnergyKcal = h.Pets[0].Animal.StandardDigest(), 1000
	for now, stale := range map[string]bool{"# a comment\n" + string(text): false, strings.Replace(string(text), "18 mg", "18.5 mg", 1): true} {
		found := fmt.Sprint(codes(Check(with(now), map[string]*household.Plan{"Marlow": plan}, testDay)))
		if strings.Contains(found, "standard-changed") != stale {
			t.Errorf("stale %v: %s", stale, found)
		}
	}
}
