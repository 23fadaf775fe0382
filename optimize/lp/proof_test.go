package lp

import (
	"math"
	"testing"
)

// A proof of infeasibility must prove one: x + y >= 3 with x, y <= 1 cannot hold,
// x + y >= 1.5 can, and no multipliers may say otherwise.
func TestProofs(t *testing.T) {
	at := func(lower float64) *Problem {
		return &Problem{Cost: []float64{0, 0}, Lower: []float64{0, 0}, Upper: []float64{1, 1},
			Rows: []Row{{A: []float64{1, 1}, Lower: lower, Upper: math.Inf(1)}, {A: []float64{1, -1}, Lower: -1, Upper: 1}}}
	}
	if !Proves(at(3), []float64{1, 0}) {
		t.Error("a proof is not accepted")
	}
	if Proves(at(3), []float64{0, 1}) {
		t.Error("multipliers that prove nothing are accepted")
	}
	for _, y := range [][]float64{{1, 0}, {0, 1}, {1, 1}, {1, -1}, {-1, 0}, {0.5, 0.3}} {
		if Proves(at(1.5), y) {
			t.Errorf("%v proves that a feasible program is not", y)
		}
	}
	if res := mustSolve(t, *at(3)); res.Status != Infeasible || !Proves(at(3), res.Farkas) {
		t.Errorf("%v, %v", res.Status, res.Farkas)
	}
	// A hair over what is possible is infeasible, too.
	if res := mustSolve(t, *at(2 + 1e-5)); res.Status != Infeasible {
		t.Errorf("a hair too much: %v", res.Status)
	}
}
