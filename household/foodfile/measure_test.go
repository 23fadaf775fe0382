package foodfile

import (
	"math"
	"testing"

	"bowlwright/nutrients"
)

func TestMeasures(t *testing.T) {
	f := &nutrients.Food{ID: "own", Group: "grain", Measures: []nutrients.Measure{{Name: "1 cup, cooked", Grams: 160}, {Name: "2 tbsp", Grams: 20}, {Name: "1 cup, dry", Grams: 90}}}
	for s, want := range map[string]float64{"1.5 cup, cooked": 240, "3 tbsp": 30, "100 g": 100, "1 oz": 28.349523125} {
		if got, err := foodAmount(s, f); err != nil || math.Abs(got-want) > 1e-9 {
			t.Errorf("%q: %g, %v", s, got, err)
		}
	}
	if g, err := foodAmount("1 cup", f); err == nil {
		t.Errorf("an unclear cup weighs %g g", g)
	}
	f.Group = "supplement"
	if g, err := foodAmount("2 tbsp", f); err == nil {
		t.Errorf("a spoon of a supplement weighs %g g", g)
	}
}
