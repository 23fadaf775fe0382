package optimize

import (
	"slices"
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/verify"
	"bowlwright/optimize/weighing"
)

// A capsule of two grams is too much oil for a dog's day and is given every few days;
// Solve verifies the plan, and what breaks the helping is found.
func TestHelpingsForSeveralDays(t *testing.T) {
	h := sample.QuinceLane(t)
	const capsule = 2.0
	for i := range h.Addons {
		if a := &h.Addons[i]; a.Food.ID == "cod-liver-oil" {
			a.Unit, a.UnitGrams, a.StepG = "capsule", capsule, capsule
		}
	}
	pet := sample.PetNamed(t, h, "Marlow")
	plan := solve(t, h, pet)
	at := slices.IndexFunc(plan.Pet.Addons, func(a household.AddonAmount) bool { return a.EveryDays > 0 })
	if plan.Pet.Status != household.Met || at < 0 {
		t.Fatalf("%s, no helping for several days: %v", plan.Pet.Status, plan.Pet.Notes)
	}
	a := &plan.Pet.Addons[at]
	if helping := a.G * float64(a.EveryDays); helping < capsule*(1-diet.LimitTol) || !verify.WholeSteps(helping, capsule) {
		t.Errorf("%g g every %d days cannot be weighed", helping, a.EveryDays)
	}
	if !strings.Contains(a.Measure, weighing.EveryText(a.EveryDays)) || !strings.Contains(strings.Join(plan.Pet.Notes, "; "), weighing.EveryText(a.EveryDays)) {
		t.Errorf("%q and %q do not say how often", a.Measure, plan.Pet.Notes)
	}
	sound := *a
	for name, plant := range map[string]func(){
		"daily":   func() { a.EveryDays = 0 },
		"rhythm":  func() { a.EveryDays = 30 },
		"doubled": func() { a.G *= 2 },
		"premix":  func() { a.ServedAs = household.ServedPremix },
	} {
		plant()
		if len(verify.Verify(plan, h, pet)) == 0 {
			t.Errorf("the fault %q passes", name)
		}
		*a = sound
	}
}

// What a kitchen cannot give is said once, with what to buy.
func TestWhatToBuy(t *testing.T) {
	h := sample.QuinceLane(t)
	h.Kitchen.FineScaleG = 0
	plan := solve(t, h, sample.PetNamed(t, h, "Tansy"))
	if notes := strings.Join(plan.Pet.Notes, "; "); plan.Pet.Status != household.Short || strings.Count(notes, "To buy: a powder scale") != 1 {
		t.Errorf("%s: %s", plan.Pet.Status, notes)
	}
}
