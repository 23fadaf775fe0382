package optimize

import (
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/verify"
)

// A quotient over nothing is over every limit, and one over the unknown is not met:
// neither lets a plan be called met.
func TestRatioOverNothing(t *testing.T) {
	most, least := 30.0, 1.0
	r := nutrients.Ratio{Key: "omega6-omega3", Numerator: []nutrients.ID{nutrients.LinoleicAcid}, Denominator: []nutrients.ID{nutrients.EPA}, Upper: &most, Lower: &least}
	for name, c := range map[string]struct {
		num, den nutrients.Figure
		want     household.State
		amount   bool
	}{
		"inside":           {nutrients.Known(60), nutrients.Known(3), household.StateMet, true},
		"over":             {nutrients.Known(91), nutrients.Known(3), household.StateHigh, true},
		"under":            {nutrients.Known(2), nutrients.Known(3), household.StateLow, true},
		"over nothing":     {nutrients.Known(60), nutrients.Known(0), household.StateHigh, false},
		"unknown below":    {nutrients.Known(60), nutrients.Unknown, household.StateUnknown, false},
		"unknown above":    {nutrients.Unknown, nutrients.Known(3), household.StateUnknown, false},
		"nothing of both":  {nutrients.Known(0), nutrients.Known(0), household.StateMet, false},
		"between, too far": {nutrients.Between(60, 91), nutrients.Known(3), household.StateHigh, true},
	} {
		var total nutrients.Profile
		total[nutrients.LinoleicAcid], total[nutrients.EPA] = c.num, c.den
		got := ratioLine(r, &total)
		if got.State != c.want || (got.Amount != nil) != c.amount {
			t.Errorf("%s: %s, amount %v", name, got.State, got.Amount)
		}
	}
}

// A dog that gets fat without a trace of omega-3 is short by AAFCO, and the record says so.
func TestNoOmega3IsShort(t *testing.T) {
	plain := &nutrients.Food{ID: "plain", Name: "Plain", Group: "other"}
	for id := range plain.Per100g {
		plain.Per100g[id] = nutrients.Known(0)
	}
	for id, g := range map[nutrients.ID]float64{nutrients.Protein: 20, nutrients.Fat: 10, nutrients.LinoleicAcid: 4, nutrients.Calcium: 300, nutrients.Phosphorus: 250} {
		plain.Per100g[id] = nutrients.Known(g)
	}
	base := &household.Batch{File: "plain", Name: "Plain", Ingredients: []household.Ingredient{{Food: plain, Grams: 1000}}}
	h := sample.QuinceLane(t)
	h.Base, h.Addons = base, nil
	pet := sample.PetNamed(t, h, "Marlow")
	pet.Extras = nil
	pet.Animal.Standard = nutrients.AAFCO2016
	plan := solve(t, h, pet)
	for _, r := range plan.Pet.Ratios {
		if r.ID == "omega6-omega3" && r.State != household.StateHigh {
			t.Errorf("no omega-3 at all is called %s", r.State)
		}
	}
	if plan.Pet.Status != household.Short || len(verify.Verify(plan, h, pet)) > 0 {
		t.Errorf("%s: %v", plan.Pet.Status, verify.Verify(plan, h, pet))
	}
}
