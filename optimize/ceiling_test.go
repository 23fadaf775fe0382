package optimize

import (
	"math"
	"math/rand"
	"slices"
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

// withFoods puts foods of the catalogue on the shelf as well.
func withFoods(t *testing.T, h *household.Household, ids ...string) *household.Household {
	t.Helper()
	for _, id := range ids {
		f, ok := nutrients.Default().Food(id)
		if !ok {
			t.Fatalf("no food %s", id)
		}
		h.Addons = append(h.Addons, household.Addon{Food: f})
	}
	return h
}

// iodineOf is the lower limit of a pet's iodine.
func iodineOf(t *testing.T, h *household.Household, pet *household.Pet) float64 {
	t.Helper()
	for _, l := range targetsOf(t, h, pet).Limits {
		if l.Nutrient == nutrients.Iodine {
			return *l.Lower
		}
	}
	t.Fatal("no iodine")
	return 0
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
	for k := 0; k < 8 || k < 60 && most < 0.98*mostOfOpen; k++ {
		h := wellStocked(r)
		pet := &h.Pets[0]
		for _, prefer := range []string{"least", "fewest"} {
			pet.Prefer = prefer
			plan := solve(t, h, pet)
			for _, n := range plan.Pet.Nutrients {
				if daily, _ := openTimes(n.ID); daily == mostOfOpen {
					times := timesFrom(h, plan, n.ID)
					if times > mostOfOpen*(1+limitTol) {
						t.Errorf("%s, %s: the concentrates bring %s %.5g times", pet.Name, prefer, n.ID, times)
					}
					most = max(most, times)
				}
			}
		}
	}
	if most < 0.98*mostOfOpen {
		t.Errorf("nothing comes near its most: %.3g times", most)
	}
	t.Logf("at most %.4g times", most)
}

// Two concentrates under their own ceilings and over it together do not pass.
func TestVerifyAddsConcentratesUp(t *testing.T) {
	h := withFoods(t, demo(t), "potassium-iodide", "potassium-iodate")
	pet := petNamed(t, h, "Pip")
	plan := solve(t, h, pet)
	lower := iodineOf(t, h, pet)
	for _, a := range h.Addons[len(h.Addons)-2:] {
		g := 3 * lower / a.Food.Per100g[nutrients.Iodine].Hi * 100
		plan.Pet.Addons = append(plan.Pet.Addons, household.AddonAmount{Food: a.Food.ID, G: g, StepG: 0.01, ServedAs: weighed, Digest: a.Food.Digest()})
	}
	codes := map[string]int{}
	for _, f := range Verify(plan, h, pet) {
		codes[f.Code]++
	}
	if codes["verify-open-sum"] != 1 || codes["verify-open"] != 0 {
		t.Errorf("three times the iodine from each of two: %v", codes)
	}
}

// A limit that the concentrates reach together is said in words.
func TestTogetherInWords(t *testing.T) {
	h := withFoods(t, swapped(t, "potassium-chloride", "potassium-iodide"), "potassium-iodate")
	pet := petNamed(t, h, "Pip")
	p, err := formulate(h, pet)
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, r := range p.rows {
		if r.limit == "iodine from concentrates" {
			seen++
			if got := p.inWords(r); !strings.HasSuffix(got, "ug of iodine from all concentrates together, 5 times the lower limit") {
				t.Error(got)
			}
			if got := p.price(r, -0.5*r.size); got != "0.5 g of add-on per ug" {
				t.Error(got)
			}
		}
	}
	if seen != 1 {
		t.Errorf("%d rows for the iodine of concentrates", seen)
	}
}

// Seaweed every day as an extra is food, so the plan stands, with a caution that says
// how much too much it is; without it none does.
func TestDayOverAnOpenLimit(t *testing.T) {
	h := demo(t)
	pet := petNamed(t, h, "Pip")
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
	lower := iodineOf(t, h, pet)
	pet.Extras = append(pet.Extras, household.Portion{Food: kelp, Grams: 8 * lower / kelp.Per100g[nutrients.Iodine].Hi * 100})
	plan := solve(t, h, pet)
	got := said(plan)
	if len(got) != 1 || !strings.HasPrefix(got[0], "Iodine: this day holds up to 8.") && !strings.HasPrefix(got[0], "Iodine: this day holds up to 9") || !strings.Contains(got[0], "from the extras") {
		t.Errorf("eight times the iodine from seaweed: %v", got)
	}
	if !plan.Pet.Status.Printable() {
		t.Errorf("the plan is %s", plan.Pet.Status)
	}
	plan.Pet.Cautions = plan.Pet.Cautions[1:]
	if found := Verify(plan, h, pet); len(found) != 1 || found[0].Code != "verify-caution" {
		t.Errorf("without its caution: %v", found)
	}
}

// What concentrates in the pot bring counts with those of the shelf when a change of
// the base is judged, nested batches included.
func TestConcentratesInThePot(t *testing.T) {
	h := demo(t)
	p, err := formulate(h, petNamed(t, h, "Pip"))
	if err != nil {
		t.Fatal(err)
	}
	grams := make([]float64, len(p.items))
	grams[0] = p.items[0].cap
	iodide, _ := nutrients.Default().Food("potassium-iodide")
	want := 12 * iodineOf(t, h, p.pet) / grams[0] // for a gram of base
	pot := h.Base.With(household.Change{Food: iodide, Grams: want * h.Base.CookedGrams() / iodide.Per100g[nutrients.Iodine].Hi * 100})
	nested := &household.Batch{Ingredients: []household.Ingredient{{Batch: pot, Grams: 100}}}
	for name, c := range map[string]struct {
		base *household.Batch
		over bool
	}{"as it is": {h.Base, false}, "with iodide": {pot, true}, "inside another": {nested, true}} {
		in := concentratesIn(c.base)
		perGram := perGram(&in, nutrients.Cat)
		after := outcome{open: p.exceeded(grams, &perGram)}
		got, ok := after.open["not more than 5 times the lower limit of iodine from concentrates"]
		if ok != c.over || ok && math.Abs(got-12.0/5) > 1e-3 {
			t.Errorf("%s: %v", name, after.open)
		}
		if worse := len(harmed([]outcome{{}}, []outcome{after})) > 0; worse != c.over {
			t.Errorf("%s: harms is %v", name, worse)
		}
	}
}

// A helping for two days may bring at once what two days may have, and no more than one
// day's on average.
func TestTogetherOnAverageAndAtOnce(t *testing.T) {
	h := withFoods(t, swapped(t, "potassium-chloride", "potassium-iodide"), "potassium-iodate")
	p, err := formulate(h, petNamed(t, h, "Pip"))
	if err != nil {
		t.Fatal(err)
	}
	s := drawnStages(t, p)
	doses := dosesFor(p, s.x)
	iodide := slices.IndexFunc(p.items, func(x item) bool { return x.id == "potassium-iodide" })
	r := p.rows[slices.IndexFunc(p.rows, func(r row) bool { return r.limit == "iodine"+fromConcentrates })]
	for _, c := range []struct {
		every int
		share float64
		want  bool
	}{{1, 0.9, true}, {1, 1.1, false}, {2, 0.9, true}, {2, 1.1, false}, {3, 0.6, true}, {3, 0.7, false}} {
		doses[iodide] = dose{step: 1e-6, least: 1e-6, servedAs: weighed, every: c.every}
		w := p.weighing(s, doses, true)
		at := slices.Index(w.used, iodide)
		kept := true
		for _, x := range w.rows {
			if x.limit == r.limit {
				kept = kept && x.a[at]*c.share*r.upper/r.a[iodide] <= x.upper
			}
		}
		if kept != c.want {
			t.Errorf("%g of what a day may have, every %d days: kept is %v", c.share, c.every, kept)
		}
	}
}
