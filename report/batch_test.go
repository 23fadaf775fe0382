package report

import (
	"testing"
)

// TestPotGramsOneForm: what a kitchen scale weighs stands in whole grams, "70 g" beside
// "130 g"; a pinch keeps its figures.
func TestPotGramsOneForm(t *testing.T) {
	for g, want := range map[float64]string{1700: "1700 g", 130: "130 g", 70: "70 g", 60.2: "60 g", 20: "20 g", 19.996: "20 g", 101735: "101.7 kg", 9999: "9999 g", 10.44: "10.44 g", 3: "3 g", 0.361: "0.36 g", 0.0412: "0.041 g", 0: "0 g"} {
		if got := PotGrams(g); got != want {
			t.Errorf("%g g is written %q, want %q", g, got, want)
		}
	}
}
