package optimize

import (
	"context"
	"slices"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
)

func TestDeepCheckOfSoundPlans(t *testing.T) {
	h := sample.QuinceLane(t)
	for i := range h.Pets {
		for _, f := range Deep(solve(t, h, &h.Pets[i]), Share(h), &h.Pets[i]) {
			if f.Severity != household.Notice {
				t.Errorf("%s: %s %s", f.Pet, f.Code, f.Message)
			}
			t.Log(f.Pet, f.Code, f.Message)
		}
	}
}

// A weaker certificate is still a proof, but of less than the plan says: the
// second solver sees it.
func TestDeepCheckFindsALowLeast(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := sample.PetNamed(t, h, "Juno")
	plan := solve(t, h, pet)
	plan.Pet.Certificate.LeastAddonG *= 0.9
	if VerifyCertificate(plan) == nil {
		t.Error("the duals prove more than is claimed, and nobody says so")
	}
	found := func(all []household.Finding, code string) bool {
		return slices.ContainsFunc(all, func(f household.Finding) bool { return f.Code == code })
	}
	if !found(Deep(plan, Share(h), pet), "certificate") {
		t.Error("a least that is too low is not found")
	}
	if all := SecondOpinion(plan); !found(all, "second-opinion") && !found(all, "no-second-opinion") {
		t.Error("another solver finds no fault in a least that is too low")
	}
}

// Close to the plan in use: a slightly heavier dog keeps its items, and its
// amounts move less than with a plan made from nothing.
func TestClosestStaysNear(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := *sample.PetNamed(t, h, "Marlow")
	pet.Prefer = household.PreferClosest
	before := solve(t, h, &pet)
	pet.Animal.EnergyKcal *= 1.01
	free := solve(t, h, &pet)
	near, err := Solve(context.Background(), Request{Household: h, Pet: &pet, Today: household.DateOf(sample.Day), Previous: before})
	if err != nil {
		t.Fatal(err)
	}
	if a, b := moved(before, near), moved(before, free); a > b {
		t.Errorf("moved by %.3g near the plan in use, by %.3g without it", a, b)
	}
}

// moved sums the relative changes of the add-ons.
func moved(a, b *household.Plan) float64 {
	grams := map[string][2]float64{}
	for _, x := range a.Pet.Addons {
		grams[x.Food] = [2]float64{x.G, 0}
	}
	for _, x := range b.Pet.Addons {
		grams[x.Food] = [2]float64{grams[x.Food][0], x.G}
	}
	sum := 0.0
	for _, g := range grams {
		sum += (g[0] - g[1]) * (g[0] - g[1]) / ((g[0] + g[1]) * (g[0] + g[1]))
	}
	return sum
}

// With prices, the cheapest plan costs no more than the one with the least add-on, but
// for the tenth that whole steps nearer to its aims may cost.
func TestCheapest(t *testing.T) {
	h := sample.QuinceLane(t)
	for i := range h.Addons {
		h.Addons[i].PricePerG = 0.01 * float64(1+(i*7)%5)
	}
	cost := func(p *household.Plan) (sum float64) {
		for _, a := range p.Pet.Addons {
			sum += a.Price
		}
		return sum
	}
	for i := range h.Pets {
		pet := h.Pets[i]
		pet.Prefer = household.PreferLeast
		least := solve(t, h, &pet)
		pet.Prefer = household.PreferCheapest
		cheap := solve(t, h, &pet)
		if least.Pet.Status == household.Met && cost(cheap) > cost(least)*1.1 {
			t.Errorf("%s: %.3f, with the least add-on %.3f", pet.Name, cost(cheap), cost(least))
		}
	}
}

// A record whose program counts a gram of an add-on for more than a gram proves another
// least, and is found.
func TestCertificateCountsGrams(t *testing.T) {
	h := sample.QuinceLane(t)
	plan := solve(t, h, sample.PetNamed(t, h, "Marlow"))
	if err := VerifyCertificate(plan); err != nil {
		t.Fatal(err)
	}
	for j := range plan.Pet.Certificate.Program.Columns {
		c := &plan.Pet.Certificate.Program.Columns[j]
		was := c.Cost
		if c.Cost++; VerifyCertificate(plan) == nil {
			t.Errorf("%s for %g a gram is not found", c.Food, c.Cost)
		}
		c.Cost = was
	}
}

// What only the household knows, the deep check compares with it: a cap, the share of
// the add-ons and the sums of a ratio.
func TestDeepCheckComparesTheHousehold(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := sample.PetNamed(t, h, "Marlow")
	sound := solve(t, h, pet)
	rowOf := func(p *household.Program, limit nutrients.LimitID) *household.ProgramRow {
		for i := range p.Rows {
			if p.Rows[i].Limit == limit {
				return &p.Rows[i]
			}
		}
		t.Fatalf("no row %s", limit)
		return nil
	}
	for name, fault := range map[string]func(p *household.Program){
		"cap":   func(p *household.Program) { *p.Columns[1].Cap *= 1.01 },
		"share": func(p *household.Program) { *rowOf(p, nutrients.EnergyOfAddons).Upper *= 1.01 },
		"ratio": func(p *household.Program) {
			rowOf(p, nutrients.RatioLimit("calcium-phosphorus", nutrients.Minimum)).A.Terms[0].Value *= 1.01
		},
	} {
		bent := copyPlan(t, sound)
		fault(bent.Pet.Certificate.Program)
		if VerifyCertificate(bent) != nil {
			t.Logf("%s: the record alone shows it", name)
		}
		found := false
		for _, f := range Deep(bent, Share(h), pet) {
			found = found || f.Code == "certificate" && f.Severity == household.Problem
		}
		if !found {
			t.Errorf("%s: not found", name)
		}
	}
}
