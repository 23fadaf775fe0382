package lp

import (
	"math"
	"math/rand"
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
		// At 2 a single point is left, x = y = 1.
		for _, lower := range []float64{1.5, 2} {
			if Proves(at(lower), y) || ExactlyProves(at(lower), y) {
				t.Errorf("%v proves that x + y >= %g is not feasible", y, lower)
			}
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

// Infeasible programs whose proof in rounded arithmetic is too weak, so that the
// exact one decides; without it the answer is Imprecise, and a search that may
// conclude nothing from it goes on in vain. The twin beside each is feasible.
func TestExactProofDecides(t *testing.T) {
	for name, p := range map[string]struct{ infeasible, twin Problem }{
		// A premix and its serving, equal to a hundred-millionth, and the premix
		// capped under the least serving. The proof needs a multiplier so small beside
		// the other that it is taken for rounding.
		"even serving": {
			Problem{Cost: []float64{0, 0}, Lower: []float64{0, 1}, Upper: []float64{1, math.Inf(1)},
				Rows: []Row{{A: []float64{100, -100}, Lower: 0, Upper: 1e-8}, {A: []float64{1, 0}, Lower: math.Inf(-1), Upper: 0.2}}},
			Problem{Cost: []float64{0, 0}, Lower: []float64{0, 0.2}, Upper: []float64{1, math.Inf(1)},
				Rows: []Row{{A: []float64{100, -100}, Lower: 0, Upper: 1e-8}, {A: []float64{1, 0}, Lower: math.Inf(-1), Upper: 0.2}}},
		},
		// One more than nothing, as the difference of large amounts: the sums of the
		// proof are as large as those amounts, and so is their rounding.
		"difference of large amounts": {
			Problem{Cost: []float64{0, 0}, Lower: []float64{0, 1e11}, Upper: []float64{1e11, math.Inf(1)},
				Rows: []Row{{A: []float64{1, -1}, Lower: 1, Upper: math.Inf(1)}}},
			Problem{Cost: []float64{0, 0}, Lower: []float64{0, 1e11}, Upper: []float64{1e11 + 1, math.Inf(1)},
				Rows: []Row{{A: []float64{1, -1}, Lower: 1, Upper: math.Inf(1)}}},
		},
	} {
		res := mustSolve(t, p.infeasible)
		if res.Status != Infeasible {
			t.Errorf("%s: %v", name, res.Status)
			continue
		}
		if !ExactlyProves(&p.infeasible, res.Farkas) {
			t.Errorf("%s: %v prove nothing", name, res.Farkas)
		}
		if ExactlyProves(&p.twin, res.Farkas) {
			t.Errorf("%s: %v prove that a feasible program is not", name, res.Farkas)
		}
		s, err := New(p.infeasible)
		if err != nil {
			t.Fatal(err)
		}
		if s.once() != noCandidate || s.proof(s.farkas) != nil {
			t.Errorf("%s: the rounded proof suffices, so this shows nothing", name)
		}
		if res := mustSolve(t, p.twin); res.Status != Optimal {
			t.Errorf("%s, feasible: %v", name, res.Status)
		}
	}
}

// Every Infeasible answer carries a proof that holds in exact arithmetic.
func TestInfeasibleIsProvedExactly(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	infeasible := 0
	for k := range 3000 {
		p := randomProgram(r)
		for j := range p.Upper {
			// As in a household, where every amount has a cap.
			p.Upper[j] = min(p.Upper[j], 1e4)
		}
		res := mustSolve(t, p)
		if res.Status != Infeasible {
			continue
		}
		infeasible++
		if !ExactlyProves(&p, res.Farkas) {
			t.Errorf("program %d: %v prove nothing", k, res.Farkas)
		}
	}
	if infeasible < 100 {
		t.Errorf("only %d programs are infeasible", infeasible)
	}
}
