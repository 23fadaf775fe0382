package optimize

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"bowlwright/household"
	"bowlwright/nutrients"
)

func TestCertificatesProveTheLeast(t *testing.T) {
	h := demo(t)
	for i := range h.Pets {
		plan := solve(t, h, &h.Pets[i])
		if err := VerifyCertificate(plan); err != nil {
			t.Errorf("%s: %v", plan.Pet.Pet, err)
		}
		if c := plan.Pet.Certificate; !c.WeighableProved || c.WeighableGap < 0 || c.WeighableGap > optimalityGap {
			t.Errorf("%s: the weighable amounts are within %g of the best, proved %v", plan.Pet.Pet, c.WeighableGap, c.WeighableProved)
		}
		plan.Pet.Certificate.LeastAddonG *= 1.001
		if VerifyCertificate(plan) == nil {
			t.Errorf("%s: a bound that is too high passes", plan.Pet.Pet)
		}
		plan.Pet.Certificate.LeastAddonG /= 1.001
		for _, r := range plan.Pet.Certificate.Program.Rows {
			if r.Limit == "zinc lower" {
				*r.Lower *= 1.2
			}
		}
		if VerifyCertificate(plan) == nil {
			t.Errorf("%s: a limit that is not the plan's passes", plan.Pet.Pet)
		}
	}
}

func TestExplainAddsUp(t *testing.T) {
	h := demo(t)
	for i := range h.Pets {
		e, err := Explain(context.Background(), Request{Household: h, Pet: &h.Pets[i], Today: household.DateOf(demoDay)})
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

// Without zinc and potassium on the shelf the explanation says what is missing, and
// the suggestion brings it back.
func TestMissingMineral(t *testing.T) {
	h := demo(t)
	pet := petNamed(t, h, "Pip")
	pet.Prefer = "least"
	var shelf []household.Addon
	for _, a := range h.Addons {
		if !strings.Contains(a.Food.ID, "potassium") && !strings.Contains(a.Food.ID, "zinc") {
			shelf = append(shelf, a)
		}
	}
	h.Addons = shelf
	req := Request{Household: h, Pet: pet, Today: household.DateOf(demoDay)}
	e, err := Explain(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	if e.Plan.Pet.Status != household.Short {
		t.Fatalf("status %s", e.Plan.Pet.Status)
	}
	t.Log(e.Conflict, e.Words, e.Relaxation)
	if len(e.Conflict) == 0 || len(e.Words) == 0 || len(e.Relaxation) == 0 {
		t.Errorf("short without an explanation: %v %v %v", e.Conflict, e.Words, e.Relaxation)
	}
	at := time.Now()
	list, err := Suggest(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	t.Log(time.Since(at), list)
	if len(list) == 0 || !list[0].Reaches {
		t.Fatalf("no suggestion: %v", list)
	}
	for _, a := range list[0].Additions {
		f, ok := h.Catalogue.Food(a.Food)
		if !ok {
			t.Fatalf("%s is not in the catalogue", a.Food)
		}
		h.Addons = append(h.Addons, household.Addon{Food: f})
	}
	if p := solve(t, h, pet).Pet; p.Status != household.Met {
		t.Errorf("with the suggestion the plan is %s: %v", p.Status, p.Notes)
	}
}

// Fewest needs no more items than least, and no subset of its shelf does with fewer.
func TestFewest(t *testing.T) {
	h := demo(t)
	for i := range h.Pets {
		pet := h.Pets[i]
		pet.Prefer = "least"
		least := solve(t, h, &pet).Pet
		pet.Prefer = "fewest"
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
	h := demo(t)
	pet := petNamed(t, h, "Marlow")
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
	h := demo(t)
	pet := petNamed(t, h, "Juno")
	a := solve(t, h, pet).Pet
	for i, j := 0, len(h.Addons)-1; i < j; i, j = i+1, j-1 {
		h.Addons[i], h.Addons[j] = h.Addons[j], h.Addons[i]
	}
	b := solve(t, h, pet).Pet
	if a.Status != b.Status || math.Abs(a.Certificate.LeastAddonG-b.Certificate.LeastAddonG) > 1e-9*a.Certificate.LeastAddonG {
		t.Errorf("%s %g, turned round %s %g", a.Status, a.Certificate.LeastAddonG, b.Status, b.Certificate.LeastAddonG)
	}
}

// What is put on the shelf is fed as it is: raw meat, offal, egg and fish are no
// suggestion, and raw leaves may be one.
func TestSuggestNothingToBeCooked(t *testing.T) {
	h := demo(t)
	all := candidates(h, petNamed(t, h, "Marlow"))
	leaves := false
	for _, a := range all {
		leaves = leaves || a.Food.ID == "parsley-raw" || a.Food.ID == "spinach-raw"
		switch f := a.Food; f.Group {
		case "poultry", "beef", "pork", "lamb", "veal", "game", "organ", "fish", "shellfish", "egg":
			if f.State == "raw" {
				t.Errorf("%s is suggested raw", f.ID)
			}
		}
	}
	if !leaves || len(all) < 100 {
		t.Errorf("%d candidates, raw leaves among them: %v", len(all), leaves)
	}
}

// A household's own raw food is known by its name, and what stands on the shelf stays.
func TestOwnRawFoodIsCookedFirst(t *testing.T) {
	for name, want := range map[string]bool{"Minced beef, raw": true, "Minced beef": false, "Courgette, raw": false} {
		state := "cooked"
		if strings.HasSuffix(name, "raw") {
			state = "raw"
		}
		f := &nutrients.Food{ID: "own", Name: name, Group: "other", State: state}
		if got := cookedFirst(f, nutrients.Dog); got != want {
			t.Errorf("%s: %v", name, got)
		}
	}
	h := demo(t)
	liver, _ := h.Catalogue.Food("lamb-liver-raw")
	h.Addons = append(h.Addons, household.Addon{Food: liver})
	p, err := formulate(h, petNamed(t, h, "Marlow"))
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(p.items, func(x item) bool { return x.id == liver.ID }) {
		t.Error("the liver on the shelf is gone")
	}
}

// Limits in words have their figures, those of a ratio too.
func TestLimitsInWords(t *testing.T) {
	h := demo(t)
	p, err := formulate(h, petNamed(t, h, "Pip"))
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, r := range p.rows {
		words := p.inWords(r)
		if !strings.ContainsAny(words, "0123456789") || strings.HasSuffix(words, " lower") || strings.HasSuffix(words, " upper") {
			t.Errorf("%s in words: %q", r.limit, words)
		}
		switch {
		case r.limit == "calcium-phosphorus lower" && words == "calcium : phosphorus at least 1", r.limit == "calcium-phosphorus upper" && words == "calcium : phosphorus at most 2":
			seen++
		}
	}
	if seen != 2 {
		t.Errorf("%d of the two limits of the ratio are said in words", seen)
	}
}
