package optimize

import (
	"context"
	"math"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/milp"
)

func TestCertificatesProveTheLeast(t *testing.T) {
	h := sample.QuinceLane(t)
	for i := range h.Pets {
		plan := solve(t, h, &h.Pets[i])
		if err := VerifyCertificate(plan); err != nil {
			t.Errorf("%s: %v", plan.Pet.Pet, err)
		}
		if c := plan.Pet.Certificate; !c.WeighableProved || c.WeighableGap < 0 || c.WeighableGap > milp.OptimalityGap {
			t.Errorf("%s: the weighable amounts are within %g of the best, proved %v", plan.Pet.Pet, c.WeighableGap, c.WeighableProved)
		}
		plan.Pet.Certificate.LeastAddonG *= 1.001
		if VerifyCertificate(plan) == nil {
			t.Errorf("%s: a bound that is too high passes", plan.Pet.Pet)
		}
		plan.Pet.Certificate.LeastAddonG /= 1.001
		for _, r := range plan.Pet.Certificate.Program.Rows {
			if r.Limit == nutrients.MinimumOf(nutrients.Zinc) {
				*r.Lower *= 1.2
			}
		}
		if VerifyCertificate(plan) == nil {
			t.Errorf("%s: a limit that is not the plan's passes", plan.Pet.Pet)
		}
	}
}

func TestExplainAddsUp(t *testing.T) {
	h := sample.QuinceLane(t)
	for i := range h.Pets {
		e, err := Explain(context.Background(), Request{Household: h, Pet: &h.Pets[i], Today: household.DateOf(sample.Day)})
		if err != nil {
			t.Fatal(err)
		}
		for k, n := range e.Plan.Pet.Nutrients {
			sum := 0.0
			for _, part := range e.Sources[k].Parts {
				sum += part.Amount
			}
			if n.Amount != nil && math.Abs(sum-*n.Amount) > 1e-9**n.Amount {
				t.Errorf("%s %s: parts add up to %g of %g", h.Pets[i].Name, n.ID, sum, *n.Amount)
			}
		}
		if len(e.Limits) == 0 {
			t.Errorf("%s: nothing decides the add-on", h.Pets[i].Name)
		}
	}
}

// Fewest needs no more items than least, and no subset of its shelf does with fewer.
func TestFewest(t *testing.T) {
	h := sample.QuinceLane(t)
	for i := range h.Pets {
		pet := h.Pets[i]
		pet.Prefer = household.PreferLeast
		least := solve(t, h, &pet).Pet
		pet.Prefer = household.PreferFewest
		few := solve(t, h, &pet).Pet
		if few.Status != least.Status || least.Status == household.Met && len(few.Addons) > len(least.Addons) {
			t.Errorf("%s: %d items %s, least add-on has %d %s", pet.Name, len(few.Addons), few.Status, len(least.Addons), least.Status)
		}
		t.Log(pet.Name, len(least.Addons), len(few.Addons), few.Notes)
		if few.Certificate.LeastAddonG != least.Certificate.LeastAddonG {
			t.Errorf("%s: the certificate depends on the preference", pet.Name)
		}
	}
}

// Taking an item from the shelf never lowers the least add-on.
func TestRemovalNeverHelps(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := sample.PetNamed(t, h, "Marlow")
	all := solve(t, h, pet).Pet
	shelf := h.Addons
	for k := range shelf {
		h.Addons = append(append([]household.Addon(nil), shelf[:k]...), shelf[k+1:]...)
		p := solve(t, h, pet).Pet
		if p.Status == household.Met && p.Certificate.LeastAddonG < all.Certificate.LeastAddonG*(1-1e-9) {
			t.Errorf("without %s: %g g, with it %g g", shelf[k].Food.ID, p.Certificate.LeastAddonG, all.Certificate.LeastAddonG)
		}
	}
}

// The order of the shelf changes nothing but the order of the list.
func TestShelfOrder(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := sample.PetNamed(t, h, "Juno")
	a := solve(t, h, pet).Pet
	for i, j := 0, len(h.Addons)-1; i < j; i, j = i+1, j-1 {
		h.Addons[i], h.Addons[j] = h.Addons[j], h.Addons[i]
	}
	b := solve(t, h, pet).Pet
	if a.Status != b.Status || math.Abs(a.Certificate.LeastAddonG-b.Certificate.LeastAddonG) > 1e-9*a.Certificate.LeastAddonG {
		t.Errorf("%s %g, turned round %s %g", a.Status, a.Certificate.LeastAddonG, b.Status, b.Certificate.LeastAddonG)
	}
}
