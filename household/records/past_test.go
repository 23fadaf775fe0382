package records

import (
	"encoding/json"
	"os"
	"testing"

	"bowlwright/household"
)

// TestPastSaysWhatTheRecordSays: of a record that is cut down before it is parsed every
// field is that of the whole, and each field of the animal that is kept has a value here,
// so that one that moved behind the amounts would be missed.
func TestPastSaysWhatTheRecordSays(t *testing.T) {
	dir := folder(t, map[string]string{"household.toml": twoPets})
	h := mustLoad(t, dir)
	plan := testPlan(h, "Marlow", 400)
	plan.Restored = testDay.AddDays(1)
	pet := &plan.Pet
	pet.Condition, pet.WeightDate, pet.ScoredKg, pet.ScoredOn, pet.Week = 7, testDay.AddDays(-3), 36, testDay.AddDays(-40), 4
	pet.StageSince, pet.SteadySince, pet.EnergyGiven = testDay.AddDays(-9), testDay.AddDays(-8), true
	r := Open(dir)
	saved, err := r.SavePlans([]*household.Plan{plan})
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(saved[0].Path)
	if err != nil {
		t.Fatal(err)
	}
	part := ofTheAnimal(text)
	if len(part) > len(text)/2 {
		t.Errorf("%d of %d bytes are left", len(part), len(text))
	}
	var whole, cut pastJSON
	if err := json.Unmarshal(text, &whole); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(part, &cut); err != nil || cut != whole {
		t.Errorf("%+v, not %+v (%v)", cut, whole, err)
	}
	past, err := r.Past("Marlow")
	want := household.PastPlan{Date: testDay.AddDays(1), Species: pet.Species, Stage: pet.Stage, Week: 4, Condition: 7, WeightKg: pet.WeightKg,
		WeightDate: pet.WeightDate, ScoredKg: 36, ScoredOn: pet.ScoredOn, StageSince: pet.StageSince, SteadySince: pet.SteadySince,
		Kcal: pet.PlannedKcal, Given: true}
	if err != nil || len(past) != 1 || past[0] != want {
		t.Errorf("%+v, %v", past, err)
	}
	// A record of another layout is read whole.
	if err := json.Unmarshal(ofTheAnimal([]byte(`{"pet":{"pet":"Marlow"},"date":"2026-11-25"}`)), &cut); err != nil || cut.Pet.Pet != "Marlow" || cut.Date != testDay {
		t.Errorf("%+v, %v", cut, err)
	}
}

// TestPastFollowsTheOrderOfTheRecords: a clock that was set back makes no earlier plan the
// later one, and a plan without amounts says nothing of energy.
func TestPastFollowsTheOrderOfTheRecords(t *testing.T) {
	dir := folder(t, map[string]string{"household.toml": twoPets})
	h := mustLoad(t, dir)
	r := Open(dir)
	for _, days := range []int{0, -5, 3} {
		plan := testPlan(h, "Marlow", 400)
		plan.Date = testDay.AddDays(days)
		if days == 3 {
			plan.Pet.Status, plan.Pet.BaseG, plan.Pet.PlannedKcal = household.Over, 0, 0
		}
		if _, err := r.SavePlans([]*household.Plan{plan}); err != nil {
			t.Fatal(err)
		}
	}
	if err := r.Remember(h); err != nil {
		t.Fatal(err)
	}
	pet, _ := h.Pet("Marlow")
	if len(pet.Past) != 3 || pet.Past[1].Date != testDay || pet.Past[2].Date != testDay.AddDays(3) || pet.Past[2].Kcal != 0 || pet.Past[1].Kcal == 0 {
		t.Errorf("%+v", pet.Past)
	}
	if err := r.Recall(h); err != nil || pet.Last.Date != testDay.AddDays(3) {
		t.Errorf("the last plan is of %s (%v)", pet.Last.Date, err)
	}
}
