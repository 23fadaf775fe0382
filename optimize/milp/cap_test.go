package milp

import (
	"math"
	"testing"
)

// A cap that is a whole number of steps but for the last bits counts as one: three
// steps of 0.1 g are 0.30000000000000004 g, and the search goes on to them.
func TestLastStepAtTheCap(t *testing.T) {
	cols := []Column{{Target: 100, Step: 1, Cap: 200, Weight: 1}, {Target: 0.25, Step: 0.1, Cap: 0.3 * (1 - 1e-12), Weight: 1, Spends: 1}}
	rows := []Row{
		{Name: "energy", A: []float64{1, 0}, Lower: 99, Upper: 101, Size: 100},
		{Name: "zinc lower", A: []float64{0, 1}, Lower: 0.21, Upper: math.Inf(1), Size: 0.21},
	}
	s, err := New(cols, rows, Goal{Distance: true, MaxSpent: math.Inf(1)})
	if err != nil {
		t.Fatal(err)
	}
	steps := s.Run(func(steps []float64) (float64, bool) { return math.Abs(steps[1]*0.1 - 0.25), steps[1] >= 3 })
	if steps == nil || steps[1] != 3 {
		t.Errorf("steps %v, want three of the add-on", steps)
	}
}
