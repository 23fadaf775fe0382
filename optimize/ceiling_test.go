package optimize

import (
	"math/rand"
	"slices"
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/verify"
)

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
		"iodide for potassium": sample.Swapped(t, "potassium-chloride", "potassium-iodide"),
		"selenite for sodium":  sample.Swapped(t, "salt-iodized-us", "sodium-selenite"),
		"no fine scale":        coarse(sample.Swapped(t)),
		"no fine scale, tight": coarse(sample.Swapped(t, "yeast-bakers-active-dry", "folic-acid", "mussel-blue-cooked", "cyanocobalamin")),
	} {
		for i := range h.Pets {
			for _, prefer := range []household.Preference{household.PreferLeast, household.PreferFewest} {
				pet := &h.Pets[i]
				pet.Prefer = prefer
				plan := solve(t, h, pet)
				for _, id := range []nutrients.ID{nutrients.Iodine, nutrients.Selenium, nutrients.Iron, nutrients.Copper, nutrients.Zinc,
					nutrients.Manganese, nutrients.Potassium, nutrients.Magnesium, nutrients.Choline, nutrients.Methionine} {
					if times := mostTimes(h, plan, id); times > 5*(1+diet.LimitTol) {
						t.Errorf("%s, %s, %s: one add-on brings %s %.4g times", name, pet.Name, prefer, id, times)
					}
				}
				if times := mostTimes(h, plan, nutrients.Folate); times > 20*(1+diet.LimitTol) {
					t.Errorf("%s, %s: folate %.4g times", name, pet.Name, times)
				}
			}
		}
	}
}

// What the search keeps, the recomputation asks for as well.
func TestVerifyRefusesOpenOverdose(t *testing.T) {
	h := sample.Swapped(t, "potassium-chloride", "potassium-iodide")
	pet := sample.PetNamed(t, h, "Pip")
	plan := solve(t, h, pet)
	iodide, _ := nutrients.Default().Food("potassium-iodide")
	plan.Pet.Addons = append(plan.Pet.Addons, household.AddonAmount{Food: iodide.ID, G: 1, StepG: 0.01, ServedAs: household.ServedWeighed, Digest: iodide.Digest()})
	for _, f := range verify.Verify(plan, h, pet) {
		if f.Code == "verify-open" && strings.Contains(f.Message, "Iodine") {
			return
		}
	}
	t.Error("a gram of iodide a day passes")
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
		h := sample.Swapped(t, "potassium-chloride", "potassium-iodide")
		for k := range h.Addons {
			if h.Addons[k].Food.ID == iodide.ID {
				h.Addons[k].Food = &own
			}
		}
		plan := solve(t, h, sample.PetNamed(t, h, "Pip"))
		for _, n := range plan.Pet.Nutrients {
			if n.ID == nutrients.Iodine && n.From.Addons > 10**n.Lower {
				t.Errorf("%s: the add-ons bring %g ug of iodine, at least %g are needed", name, n.From.Addons, *n.Lower)
			}
		}
	}
}

// timesFrom is by how many times the lower limit all concentrates of a plan bring a
// nutrient without an upper limit, worked out from the figures.
func timesFrom(h *household.Household, plan *household.Plan, id nutrients.ID) float64 {
	got := 0.0
	for _, n := range plan.Pet.Nutrients {
		for _, a := range plan.Pet.Addons {
			for _, x := range h.Addons {
				if n.ID == id && n.Upper == nil && x.Food.ID == a.Food && (x.Food.Supplement() || x.Food.Group == "seaweed") {
					got += a.G / 100 * x.Food.Per100g[id].Hi / *n.Lower
				}
			}
		}
	}
	return got
}

// Two sources of a mineral, each under its own ceiling, could be up to ten times the
// need. On these shelves each limit is reached: without the row for both together
// they go over it.
func TestConcentratesTogether(t *testing.T) {
	r := rand.New(rand.NewSource(79))
	most := 0.0
	for k := 0; k < sample.Count(2, 8) || k < 60 && most < 0.98*5; k++ {
		h := sample.DrawStocked(r)
		pet := &h.Pets[0]
		for _, prefer := range []household.Preference{household.PreferLeast, household.PreferFewest}[:sample.Count(1, 2)] {
			pet.Prefer = prefer
			plan := solve(t, h, pet)
			for _, n := range plan.Pet.Nutrients {
				if daily, _ := nutrients.MostFromConcentrates(n.ID); daily == 5 {
					times := timesFrom(h, plan, n.ID)
					if times > 5*(1+diet.LimitTol) {
						t.Errorf("%s, %s: the concentrates bring %s %.5g times", pet.Name, prefer, n.ID, times)
					}
					most = max(most, times)
				}
			}
		}
	}
	if most < 0.98*5 {
		t.Errorf("nothing comes near its most: %.3g times", most)
	}
	t.Logf("at most %.4g times", most)
}

// Two concentrates under their own ceilings and over it together do not pass.
func TestVerifyAddsConcentratesUp(t *testing.T) {
	h := sample.WithFoods(t, sample.QuinceLane(t), "potassium-iodide", "potassium-iodate")
	pet := sample.PetNamed(t, h, "Pip")
	plan := solve(t, h, pet)
	lower := sample.MinimumOfIodine(t, h, pet)
	for _, a := range h.Addons[len(h.Addons)-2:] {
		g := 3 * lower / a.Food.Per100g[nutrients.Iodine].Hi * 100
		plan.Pet.Addons = append(plan.Pet.Addons, household.AddonAmount{Food: a.Food.ID, G: g, StepG: 0.01, ServedAs: household.ServedWeighed, Digest: a.Food.Digest()})
	}
	codes := map[string]int{}
	for _, f := range verify.Verify(plan, h, pet) {
		codes[f.Code]++
	}
	if codes["verify-open-sum"] != 1 || codes["verify-open"] != 0 {
		t.Errorf("three times the iodine from each of two: %v", codes)
	}
}

// Seaweed every day as an extra is food, so the plan stands, with a caution that says
// how much too much it is; without it none does.
func TestDayOverAnOpenLimit(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := sample.PetNamed(t, h, "Pip")
	said := func(plan *household.Plan) (all []string) {
		for _, c := range plan.Pet.Cautions {
			if strings.Contains(c, "this day holds") {
				all = append(all, c)
			}
		}
		return all
	}
	if got := said(solve(t, h, pet)); len(got) > 0 {
		t.Errorf("the example: %v", got)
	}
	kelp, ok := nutrients.Default().Food("kelp-powder-laminaria")
	if !ok {
		t.Fatal("no kelp")
	}
	lower := sample.MinimumOfIodine(t, h, pet)
	pet.Extras = append(pet.Extras, household.Portion{Food: kelp, Grams: 8 * lower / kelp.Per100g[nutrients.Iodine].Hi * 100})
	plan := solve(t, h, pet)
	got := said(plan)
	if len(got) != 1 || !strings.HasPrefix(got[0], "Iodine: this day holds up to 8.") && !strings.HasPrefix(got[0], "Iodine: this day holds up to 9") || !strings.Contains(got[0], "from the extras") {
		t.Errorf("eight times the iodine from seaweed: %v", got)
	}
	if !plan.Pet.Status.Printable() {
		t.Errorf("the plan is %s", plan.Pet.Status)
	}
	sound, excess := plan.Pet.Cautions, plan.Pet.Excess[0]
	for name, plant := range map[string]func(){
		"without its caution": func() { plan.Pet.Cautions = sound[1:] },
		"without its data":    func() { plan.Pet.Excess = []household.Excess{} },
		"half as much":        func() { plan.Pet.Excess[0].Times /= 2; plan.Pet.Cautions[0] = plan.Pet.Excess[0].Caution() },
		"one too many": func() {
			plan.Pet.Excess = append(plan.Pet.Excess, household.Excess{ID: nutrients.Zinc, Times: 6, From: "base"})
			plan.Pet.Cautions = append(plan.Pet.Cautions, plan.Pet.Excess[1].Caution())
		},
	} {
		plan.Pet.Cautions, plan.Pet.Excess = slices.Clone(sound), []household.Excess{excess}
		if found := verify.Verify(plan, h, pet); len(found) > 0 {
			t.Fatalf("a sound plan: %v", found)
		}
		plant()
		if found := verify.Verify(plan, h, pet); len(found) != 1 || found[0].Code != "verify-caution" {
			t.Errorf("%s: %v", name, found)
		}
	}
	plan.Pet.Excess, plan.Pet.Cautions = nil, sound[1:]
	if found := verify.Verify(plan, h, pet); len(found) > 0 {
		t.Errorf("a record from before the data: %v", found)
	}
}
