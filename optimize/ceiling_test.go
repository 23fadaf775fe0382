package optimize

import (
	"math"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// swapped is the example with one food of the shelf in place of another.
func swapped(t *testing.T, pairs ...string) *household.Household {
	t.Helper()
	h := demo(t)
	for i := 0; i < len(pairs); i += 2 {
		for k := range h.Addons {
			if h.Addons[k].Food.ID == pairs[i] {
				f, ok := nutrients.Default().Food(pairs[i+1])
				if !ok {
					t.Fatalf("no food %s", pairs[i+1])
				}
				h.Addons[k] = household.Addon{Food: f}
			}
		}
	}
	return h
}

// mostTimes returns by how many times its lower limit one supplement alone brings a
// mineral, an amino acid or choline that has no upper limit, worked out from the figures.
func mostTimes(h *household.Household, plan *household.Plan, id nutrients.ID) float64 {
	most := 0.0
	for _, n := range plan.Pet.Nutrients {
		if n.ID != id || n.Upper != nil {
			continue
		}
		for _, a := range plan.Pet.Addons {
			for _, x := range h.Addons {
				if x.Food.ID == a.Food && x.Food.Supplement() {
					most = max(most, a.G/100*x.Food.Per100g[id].Hi / *n.Lower)
				}
			}
		}
	}
	return most
}

// Iodide is a source of potassium and selenite one of sodium; where the standard
// prints no upper limit for iodine or selenium, grams of them would meet every limit
// and kill the animal. A kitchen scale alone weighs nothing under twenty grams.
func TestNoUpperLimitIsNoLicence(t *testing.T) {
	coarse := func(h *household.Household) *household.Household {
		h.Kitchen.FineScaleG = 0
		return h
	}
	for name, h := range map[string]*household.Household{
		"iodide for potassium": swapped(t, "potassium-chloride", "potassium-iodide"),
		"selenite for sodium":  swapped(t, "salt-iodized-us", "sodium-selenite"),
		"no fine scale":        coarse(swapped(t)),
		"no fine scale, tight": coarse(swapped(t, "yeast-bakers-active-dry", "folic-acid", "mussel-blue-cooked", "cyanocobalamin")),
	} {
		for i := range h.Pets {
			for _, prefer := range []string{"least", "fewest"} {
				pet := &h.Pets[i]
				pet.Prefer = prefer
				plan := solve(t, h, pet)
				for _, id := range []nutrients.ID{nutrients.Iodine, nutrients.Selenium, nutrients.Iron, nutrients.Copper, nutrients.Zinc,
					nutrients.Manganese, nutrients.Potassium, nutrients.Magnesium, nutrients.Choline, nutrients.Methionine} {
					if times := mostTimes(h, plan, id); times > 5*(1+limitTol) {
						t.Errorf("%s, %s, %s: one add-on brings %s %.4g times", name, pet.Name, prefer, id, times)
					}
				}
				if times := mostTimes(h, plan, nutrients.Folate); times > 20*(1+limitTol) {
					t.Errorf("%s, %s: folate %.4g times", name, pet.Name, times)
				}
			}
		}
	}
}

// What the search keeps, the recomputation asks for as well.
func TestVerifyRefusesOpenOverdose(t *testing.T) {
	h := swapped(t, "potassium-chloride", "potassium-iodide")
	pet := petNamed(t, h, "Pip")
	plan := solve(t, h, pet)
	iodide, _ := nutrients.Default().Food("potassium-iodide")
	plan.Pet.Addons = append(plan.Pet.Addons, household.AddonAmount{Food: iodide.ID, G: 1, StepG: 0.01, ServedAs: weighed, Digest: iodide.Digest()})
	for _, f := range Verify(plan, h, pet) {
		if f.Code == "verify-open" && strings.Contains(f.Message, "Iodine") {
			return
		}
	}
	t.Error("a gram of iodide a day passes")
}

// A week's iron at once is refused though its average is not; a week's vitamin E is given.
func TestCeilingAtOnce(t *testing.T) {
	h := demo(t)
	limits := targetsOf(t, h, petNamed(t, h, "Marlow")).Limits
	for id, want := range map[string]float64{"ferrous-bisglycinate": 2, "vitamin-e-d-alpha-tocopherol": 7, "copper-gluconate": 2, "folic-acid": 7} {
		f, ok := nutrients.Default().Food(id)
		if !ok {
			t.Fatalf("no food %s", id)
		}
		per := perGram(&f.Per100g, nutrients.Dog)
		daily, atOnce := ceiling(f, &per, limits)
		if got := atOnce / daily; got < want*(1-limitTol) || got > want*(1+limitTol) {
			t.Errorf("%s: %g days at once, want %g", id, got, want)
		}
	}
	liver, _ := nutrients.Default().Food("beef-liver-raw")
	per := perGram(&liver.Per100g, nutrients.Dog)
	if daily, _ := ceiling(liver, &per, limits); !math.IsInf(daily, 1) {
		t.Errorf("liver is bounded at %g g", daily)
	}
}

// A household's own product is held to the same, whatever group it is given.
func TestOwnProductIsAConcentrate(t *testing.T) {
	iodide, _ := nutrients.Default().Food("potassium-iodide")
	for name, own := range map[string]nutrients.Food{
		"own":      {ID: "own-drops", Group: "other", State: "own", Per100g: iodide.Per100g},
		"imported": {ID: "own-drops", Group: "imported", Per100g: iodide.Per100g},
		"powder":   {ID: "own-drops", Group: "other", State: "dried", Powder: true, Per100g: iodide.Per100g},
		"units":    {ID: "own-drops", Group: "other", PerUnit: new(nutrients.Profile), UnitName: "capsule", UnitGrams: 1, Per100g: iodide.Per100g},
	} {
		h := swapped(t, "potassium-chloride", "potassium-iodide")
		for k := range h.Addons {
			if h.Addons[k].Food.ID == iodide.ID {
				h.Addons[k].Food = &own
			}
		}
		plan := solve(t, h, petNamed(t, h, "Pip"))
		for _, n := range plan.Pet.Nutrients {
			if n.ID == nutrients.Iodine && n.From.Addons > 10**n.Lower {
				t.Errorf("%s: the add-ons bring %g ug of iodine, at least %g are needed", name, n.From.Addons, *n.Lower)
			}
		}
	}
}
