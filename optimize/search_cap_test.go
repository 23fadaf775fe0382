package optimize

import (
	"math"
	"testing"
)

// A cap that is a whole number of steps but for the last bits counts as one: three
// steps of 0.1 g are 0.30000000000000004 g, and the search goes on to them.
func TestLastStepAtTheCap(t *testing.T) {
	cols := []searchColumn{{target: 100, step: 1, cap: 200, weight: 1}, {target: 0.25, step: 0.1, cap: 0.3 * (1 - 1e-12), weight: 1, spends: 1}}
	rows := []searchRow{
		{name: "energy", a: []float64{1, 0}, lower: 99, upper: 101, size: 100},
		{name: "zinc lower", a: []float64{0, 1}, lower: 0.21, upper: math.Inf(1), size: 0.21},
	}
	s, err := newSearch(cols, rows, aim{distance: true, maxSpent: math.Inf(1)})
	if err != nil {
		t.Fatal(err)
	}
	steps := s.run(func(steps []float64) (float64, bool) { return math.Abs(steps[1]*0.1 - 0.25), steps[1] >= 3 })
	if steps == nil || steps[1] != 3 {
		t.Errorf("steps %v, want three of the add-on", steps)
	}
}
