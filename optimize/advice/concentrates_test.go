package advice

import (
	"math"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
)

// What concentrates in the pot bring counts with those of the shelf when a change of
// the base is judged, nested batches included.
func TestConcentratesInThePot(t *testing.T) {
	h := sample.QuinceLane(t)
	p, err := diet.Formulate(h, sample.PetNamed(t, h, "Pip"))
	if err != nil {
		t.Fatal(err)
	}
	grams := make([]float64, len(p.Items))
	grams[0] = p.Items[0].Cap
	iodide, _ := nutrients.Default().Food("potassium-iodide")
	want := 12 * sample.MinimumOfIodine(t, h, p.Pet) / grams[0] // for a gram of base
	pot := h.Base.With(household.Change{Food: iodide, Grams: want * h.Base.CookedGrams() / iodide.Per100g[nutrients.Iodine].Hi * 100})
	nested := &household.Batch{Ingredients: []household.Ingredient{{Batch: pot, Grams: 100}}}
	for name, c := range map[string]struct {
		base *household.Batch
		over bool
	}{"as it is": {h.Base, false}, "with iodide": {pot, true}, "inside another": {nested, true}} {
		in := concentratesIn(c.base)
		perGram := diet.PerGram(&in, nutrients.Cat)
		after := outcome{overdoses: exceeded(p, grams, &perGram)}
		got, ok := after.overdoses["not more than 5 times the minimum of iodine from concentrates"]
		if ok != c.over || ok && math.Abs(got-12.0/5) > 1e-3 {
			t.Errorf("%s: %v", name, after.overdoses)
		}
		if worse := len(harmed([]outcome{{}}, []outcome{after})) > 0; worse != c.over {
			t.Errorf("%s: harms is %v", name, worse)
		}
	}
}
