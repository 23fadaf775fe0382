package optimize

import (
	"encoding/json"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/verify"
	"bowlwright/optimize/weighing"
)

// Every limit of every pet of the example, worked out here from the record alone.
func TestDemoKeepsItsLimits(t *testing.T) {
	h := sample.QuinceLane(t)
	for i := range h.Pets {
		plan := solve(t, h, &h.Pets[i])
		p := plan.Pet
		if !p.Status.Printable() {
			t.Fatalf("%s: %s %v", p.Pet, p.Status, p.Conflict)
		}
		if off := p.PlannedKcal/p.EnergyKcal - 1; off > h.Kitchen.EnergySlack || off < -h.Kitchen.EnergySlack {
			t.Errorf("%s: energy off by %g", p.Pet, off)
		}
		for _, n := range p.Nutrients {
			if n.Amount == nil {
				continue
			}
			if sum := n.From.Base + n.From.Addons + n.From.Extras; sum < *n.Amount*(1-1e-9) || sum > *n.Amount*(1+1e-9) {
				t.Errorf("%s %s: parts add up to %g, not %g", p.Pet, n.ID, sum, *n.Amount)
			}
			if n.Upper != nil && *n.Amount > *n.Upper*(1+1e-9) {
				t.Errorf("%s %s is over its upper limit", p.Pet, n.ID)
			}
			if p.Status == household.Met && n.Lower != nil && *n.Amount < *n.Lower*(1-1e-9) {
				t.Errorf("%s %s is under its lower limit", p.Pet, n.ID)
			}
		}
		if len(p.Cautions) < 2 || p.ShelfDigest == "" || p.WeighAgainBy.IsZero() {
			t.Errorf("%s: the record is not complete", p.Pet)
		}
	}
}

func TestSameHouseholdSamePlan(t *testing.T) {
	h := sample.QuinceLane(t)
	for i := range h.Pets {
		a, _ := json.Marshal(solve(t, h, &h.Pets[i]))
		b, _ := json.Marshal(solve(t, h, &h.Pets[i]))
		if string(a) != string(b) {
			t.Errorf("%s: two runs differ", h.Pets[i].Name)
		}
	}
}

// A plan that was tampered with must not pass.
func TestVerifyFindsPlantedFaults(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := sample.PetNamed(t, h, "Marlow")
	faults := map[string]func(p *household.Plan){
		"amount":      func(p *household.Plan) { p.Pet.Addons[0].G *= 1.01 },
		"base":        func(p *household.Plan) { p.Pet.BaseG += 1 },
		"base energy": func(p *household.Plan) { p.Pet.BaseG += 40 },
		"unit":        func(p *household.Plan) { p.Pet.Nutrients[3].Unit = "mg" },
		"lower limit": func(p *household.Plan) { v := *p.Pet.Nutrients[0].Lower * 0.9; p.Pet.Nutrients[0].Lower = &v },
		"upper limit": func(p *household.Plan) {
			for i := range p.Pet.Nutrients {
				if u := p.Pet.Nutrients[i].Upper; u != nil {
					v := *u * 1.1
					p.Pet.Nutrients[i].Upper = &v
					return
				}
			}
		},
		"state":        func(p *household.Plan) { p.Pet.Nutrients[0].State = household.StateLow },
		"status":       func(p *household.Plan) { p.Pet.Status = household.Short },
		"coverage":     func(p *household.Plan) { p.Pet.Nutrients[0].Coverage = 0.5 },
		"other recipe": func(p *household.Plan) { p.Base.RecipeDigest = "sha256:00" },
		"figures":      func(p *household.Plan) { p.Pet.Addons[0].Digest = "sha256:00" },
		"left out":     func(p *household.Plan) { p.Pet.Addons = p.Pet.Addons[1:] },
		"not on shelf": func(p *household.Plan) { p.Pet.Addons[0].Food = "no-such-food" },
		"premix":       func(p *household.Plan) { p.Pet.Premix.Items[0].G += 0.01 },
		"serving":      func(p *household.Plan) { p.Pet.Premix.ServeG += 0.01 },
		"energy need":  func(p *household.Plan) { p.Pet.EnergyKcal++ },
		"ratio":        func(p *household.Plan) { v := *p.Pet.Ratios[0].Amount + 0.1; p.Pet.Ratios[0].Amount = &v },
		"row missing":  func(p *household.Plan) { p.Pet.Nutrients = p.Pet.Nutrients[1:] },
	}
	if found := verify.Verify(solve(t, h, pet), h, pet); len(found) > 0 {
		t.Fatalf("a sound plan does not pass: %v", found)
	}
	for name, plant := range faults {
		plan := solve(t, h, pet)
		plant(plan)
		if len(verify.Verify(plan, h, pet)) == 0 {
			t.Errorf("%s: not found", name)
		}
	}
}

func TestOtherPetsAddonIsFound(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := sample.PetNamed(t, h, "Pip")
	plan := solve(t, h, pet)
	for i := range h.Addons {
		h.Addons[i].Pets = []string{"Juno"}
	}
	if len(verify.Verify(plan, h, pet)) == 0 {
		t.Error("add-ons of another pet pass")
	}
}

func TestEmptyShelfIsShort(t *testing.T) {
	h := sample.QuinceLane(t)
	h.Addons = nil
	for i := range h.Pets {
		plan := solve(t, h, &h.Pets[i])
		if plan.Pet.Status != household.Short || plan.Pet.BaseG == 0 || len(plan.Pet.Addons) != 0 {
			t.Errorf("%s: %s with %g g", plan.Pet.Pet, plan.Pet.Status, plan.Pet.BaseG)
		}
	}
}

// A handful of liver a day is over the upper limit of vitamin A by itself.
func TestExtrasOverALimit(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := sample.PetNamed(t, h, "Pip")
	liver, ok := nutrients.Default().Food("beef-liver-raw")
	if !ok {
		t.Fatal("no liver in the catalogue")
	}
	pet.Extras = []household.Portion{{Food: liver, Grams: 150}}
	p := solve(t, h, pet).Pet
	if p.Status != household.Over || p.BaseG != 0 || len(p.Addons) != 0 || len(p.Conflict) == 0 {
		t.Errorf("%s, %g g, %v", p.Status, p.BaseG, p.Conflict)
	}
	pet.Extras[0].Grams = 1000
	if p := solve(t, h, pet).Pet; p.Status != household.Over || len(p.Conflict) == 0 {
		t.Errorf("more energy than the day: %s %v", p.Status, p.Conflict)
	}
}

// Without a powder scale nothing may be printed that only such a scale weighs.
func TestNoFineScale(t *testing.T) {
	h := sample.QuinceLane(t)
	h.Kitchen.FineScaleG = 0
	for i := range h.Pets {
		p := solve(t, h, &h.Pets[i]).Pet
		if p.Premix != nil {
			t.Errorf("%s: a premix without a powder scale", p.Pet)
		}
		for _, a := range p.Addons {
			if a.G < weighing.StepsToWeigh*h.Kitchen.ScaleG {
				t.Errorf("%s: %g g of %s cannot be weighed", p.Pet, a.G, a.Food)
			}
		}
		if p.Status == household.Short && len(p.Notes) == 0 {
			t.Errorf("%s: short without a word on what cannot be weighed", p.Pet)
		}
	}
}
