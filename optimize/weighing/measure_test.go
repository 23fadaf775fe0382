package weighing

import (
	"testing"

	"bowlwright/nutrients"
)

func TestKitchenMeasures(t *testing.T) {
	f := &nutrients.Food{ID: "yeast", Group: "grain", Measures: []nutrients.Measure{{Name: "1 tsp", Grams: 4}, {Name: "2 tablespoon", Grams: 24}, {Name: "egg", Grams: 50}}}
	for g, want := range map[float64]string{
		4: "about 1 tsp", 2.1: "about ½ tsp", 3: "about ¾ tsp", 6: "about 1½ tsp", 9: "about ¾ tbsp",
		1.02: "about ¼ tsp", 50: "about 1 egg", 0.4: "", 4.5: "", 900: "",
	} {
		if got := KitchenMeasure(f, g); got != want {
			t.Errorf("%g g: %q, want %q", g, got, want)
		}
	}
	// What stands in brackets is the same amount only for the number that is published.
	f.Measures = []nutrients.Measure{{Name: "2 tbsp (1/8 cup)", Grams: 10}, {Name: "1 small (2\" dia)", Grams: 40}}
	for g, want := range map[float64]string{5: "about 1 tbsp", 20: "about ½ small (2\" dia)"} {
		if got := KitchenMeasure(f, g); got != want {
			t.Errorf("%g g: %q, want %q", g, got, want)
		}
	}
	f.Group = "supplement"
	if KitchenMeasure(f, 4) != "" {
		t.Error("a supplement has a kitchen measure")
	}
}
