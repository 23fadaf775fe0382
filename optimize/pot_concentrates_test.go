package optimize

import (
	"math"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
)

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
		after := outcome{open: exceeded(p, grams, &perGram)}
		got, ok := after.open["not more than 5 times the lower limit of iodine from concentrates"]
		if ok != c.over || ok && math.Abs(got-12.0/5) > 1e-3 {
			t.Errorf("%s: %v", name, after.open)
		}
		if worse := len(harmed([]outcome{{}}, []outcome{after})) > 0; worse != c.over {
			t.Errorf("%s: harms is %v", name, worse)
		}
	}
}
