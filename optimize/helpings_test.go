package optimize

import (
	"slices"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
)

func TestKitchenMeasures(t *testing.T) {
	f := &nutrients.Food{ID: "yeast", Group: "grain", Measures: []nutrients.Measure{{Name: "1 tsp", Grams: 4}, {Name: "2 tablespoon", Grams: 24}, {Name: "egg", Grams: 50}}}
	for g, want := range map[float64]string{
		4: "about 1 tsp", 2.1: "about ½ tsp", 3: "about ¾ tsp", 6: "about 1½ tsp", 9: "about ¾ tbsp",
		1.02: "about ¼ tsp", 50: "about 1 egg", 0.4: "", 4.5: "", 900: "",
	} {
		if got := kitchenMeasure(f, g); got != want {
			t.Errorf("%g g: %q, want %q", g, got, want)
		}
	}
	// What stands in brackets is the same amount only for the number that is published.
	f.Measures = []nutrients.Measure{{Name: "2 tbsp (1/8 cup)", Grams: 10}, {Name: "1 small (2\" dia)", Grams: 40}}
	for g, want := range map[float64]string{5: "about 1 tbsp", 20: "about ½ small (2\" dia)"} {
		if got := kitchenMeasure(f, g); got != want {
			t.Errorf("%g g: %q, want %q", g, got, want)
		}
	}
	f.Group = "supplement"
	if kitchenMeasure(f, 4) != "" {
		t.Error("a supplement has a kitchen measure")
	}
}

func TestSparseDoses(t *testing.T) {
	doses := []dose{{step: 1, servedAs: weighed}, {step: 0.01, least: 0.2, servedAs: weighed}, {step: 0.5, least: 0.5, servedAs: byUnit},
		{step: 0.01 / 28, least: 0.2 / 28, servedAs: inPremix}, {step: 0.01, least: 0.2, servedAs: weighed}, {step: 0.01, least: 0.2, servedAs: weighed}}
	p := &program{items: make([]item, len(doses))}
	for j := range p.items {
		p.items[j].cap, p.items[j].helping = 10, 10
	}
	got, much := p.sparse(doses, []float64{100, 0.11, 0.2, 0.001, 0.3, 0.01})
	for j, want := range []int{0, 2, 3, 0, 0, 0} {
		if got[j].every != want {
			t.Errorf("item %d every %d days, want %d", j, got[j].every, want)
		}
	}
	if !much {
		t.Error("0.5 g where 0.2 g are wanted is not much")
	}
	if _, much := p.sparse(doses, []float64{100, 0.11, 0, 0, 0, 0}); much {
		t.Error("0.2 g where 0.11 g are wanted is much")
	}
	if d, _ := p.sparse(doses, []float64{100, 0.3, 1, 1, 0.3, 0}); d != nil {
		t.Error("helpings for several days where none are needed")
	}
	p.items[1].helping = 0.15
	if d, _ := p.sparse(doses, []float64{100, 0.11, 0, 0, 0, 0}); d != nil {
		t.Error("a helping over what is allowed in a day")
	}
}

// On a scale with steps of 0.03 g a cat's oil is too little for a day and is given
// every third day; Solve verifies the plan, and what breaks the helping is found.
func TestHelpingsForSeveralDays(t *testing.T) {
	h := demo(t)
	h.Kitchen.FineScaleG, h.Kitchen.PremixDays = 0.03, 56
	pet := petNamed(t, h, "Pip")
	plan := solve(t, h, pet)
	at := slices.IndexFunc(plan.Pet.Addons, func(a household.AddonAmount) bool { return a.EveryDays > 0 })
	if plan.Pet.Status != household.Met || at < 0 {
		t.Fatalf("%s, no helping for several days: %v", plan.Pet.Status, plan.Pet.Notes)
	}
	a := &plan.Pet.Addons[at]
	if helping := a.G * float64(a.EveryDays); helping < stepsToWeigh*h.Kitchen.FineScaleG*(1-limitTol) || !wholeSteps(helping, h.Kitchen.FineScaleG) {
		t.Errorf("%g g every %d days cannot be weighed", helping, a.EveryDays)
	}
	if !strings.Contains(a.Measure, everyText(a.EveryDays)) || !strings.Contains(strings.Join(plan.Pet.Notes, "; "), everyText(a.EveryDays)) {
		t.Errorf("%q and %q do not say how often", a.Measure, plan.Pet.Notes)
	}
	sound := *a
	for name, plant := range map[string]func(){
		"daily":   func() { a.EveryDays = 0 },
		"rhythm":  func() { a.EveryDays = 30 },
		"doubled": func() { a.G *= 2 },
		"premix":  func() { a.ServedAs = inPremix },
	} {
		plant()
		if len(Verify(plan, h, pet)) == 0 {
			t.Errorf("the fault %q passes", name)
		}
		*a = sound
	}
	// An upper limit between the average day and the day of the helping.
	v := verifier{plan: plan, h: h, pet: pet, targets: targetsOf(t, h, pet), digest: (*nutrients.Food).Digest}
	v.addUp()
	v.heaviestDay()
	if len(v.found) > 0 {
		t.Fatalf("a sound plan does not pass: %v", v.found)
	}
	for i, l := range v.targets.Limits {
		if l.Nutrient == nutrients.VitaminE {
			most := v.total(l.Nutrient).Hi * 1.0001
			v.targets.Limits[i].Upper = &most
		}
	}
	if v.heaviestDay(); len(v.found) == 0 {
		t.Error("the day of the helping is over a limit, and nobody says so")
	}
}

func targetsOf(t *testing.T, h *household.Household, pet *household.Pet) nutrients.Targets {
	t.Helper()
	animal := pet.Animal
	if animal.Standard == "" {
		animal.Standard = h.Standard
	}
	targets, err := nutrients.TargetsFor(animal)
	if err != nil {
		t.Fatal(err)
	}
	return targets
}

// What a kitchen cannot give is said once, with what to buy.
func TestWhatToBuy(t *testing.T) {
	h := demo(t)
	h.Kitchen.FineScaleG = 0
	plan := solve(t, h, petNamed(t, h, "Tansy"))
	if notes := strings.Join(plan.Pet.Notes, "; "); plan.Pet.Status != household.Short || strings.Count(notes, "To buy: a powder scale") != 1 {
		t.Errorf("%s: %s", plan.Pet.Status, notes)
	}
}
