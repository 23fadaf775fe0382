package lp

import (
	"math"
	"math/rand"
	"testing"
	"time"
)

// randomProgram draws a small program of the diet's shape: non-negative densities,
// rows with one or two limits, one equality, caps on some columns.
func randomProgram(r *rand.Rand) Problem {
	m, n := 3+r.Intn(12), 2+r.Intn(8)
	p := Problem{Cost: make([]float64, n), Lower: make([]float64, n), Upper: make([]float64, n)}
	for j := range n {
		p.Cost[j] = float64(r.Intn(4))
		p.Upper[j] = math.Inf(1)
		if r.Intn(3) > 0 {
			p.Upper[j] = float64(1 + r.Intn(20))
		}
	}
	scale := 1.0
	for i := range m {
		a := make([]float64, n)
		at := 0.0
		scale = math.Pow(10, float64(r.Intn(7)-3))
		for j := range a {
			if r.Intn(2) == 0 {
				a[j] = float64(r.Intn(10)) * scale
			}
			if r.Intn(12) == 0 {
				a[j] = -a[j]
			}
			at += a[j] * float64(r.Intn(4))
		}
		row := Row{A: a, Lower: math.Inf(-1), Upper: math.Inf(1)}
		if i == 0 {
			row.Lower, row.Upper = at, at
		} else {
			if r.Intn(3) > 0 {
				row.Lower = at * (0.3 + 0.7*r.Float64())
			}
			if r.Intn(3) == 0 {
				row.Upper = max(at, row.Lower) + math.Abs(at)*r.Float64()
			}
		}
		p.Rows = append(p.Rows, row)
	}
	return p
}

func mustSolve(t *testing.T, p Problem) Result {
	t.Helper()
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Solve()
}

func TestAgainstSecondOpinion(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	counts := map[Status]int{}
	for k := range 1500 {
		p := randomProgram(r)
		got := mustSolve(t, p)
		counts[got.Status]++
		if got.Status == Imprecise || got.Status == IterationLimit {
			t.Fatalf("program %d: %v", k, got.Status)
		}
		want, err := SecondOpinion(p, 5*time.Second)
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case want.Status == Imprecise || want.Status == IterationLimit:
			counts[-1]++
		case got.Status == Optimal && want.Status == Optimal:
			if math.Abs(got.Objective-want.Objective) > 1e-6*(1+math.Abs(want.Objective)) {
				t.Errorf("program %d: %g, second opinion %g", k, got.Objective, want.Objective)
			}
		case got.Status != want.Status:
			// Ours is proved by Farkas multipliers or by duals; gonum proves nothing.
			counts[-2]++
		}
	}
	t.Logf("optimal %d, infeasible %d, unbounded %d; second opinion failed %d, disagreed %d",
		counts[Optimal], counts[Infeasible], counts[Unbounded], counts[-1], counts[-2])
	if counts[Optimal] < 300 || counts[Infeasible] < 100 {
		t.Errorf("the programs are too one-sided: %v", counts)
	}
	if counts[-2] > 30 {
		t.Errorf("the second opinion disagrees in %d programs", counts[-2])
	}
}

func TestAnotherCostGoesOn(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	compared := 0
	for k := range 1500 {
		p := randomProgram(r)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		if s.Solve().Status != Optimal {
			continue
		}
		p.Cost = append([]float64(nil), p.Cost...)
		for j := range p.Cost {
			p.Cost[j] = float64(r.Intn(9) - 2)
		}
		s.SetCost(p.Cost)
		warm, cold := s.Solve(), mustSolve(t, p)
		if warm.Status != cold.Status {
			t.Errorf("program %d: warm %v, cold %v", k, warm.Status, cold.Status)
		}
		if warm.Status == Optimal {
			compared++
			if math.Abs(warm.Objective-cold.Objective) > 1e-7*(1+math.Abs(cold.Objective)) {
				t.Errorf("program %d: warm %g, cold %g", k, warm.Objective, cold.Objective)
			}
		}
	}
	if compared < 100 {
		t.Errorf("only %d programs compared", compared)
	}
}

func TestBadDataAreErrors(t *testing.T) {
	for name, p := range map[string]Problem{
		"cost":        {Cost: []float64{math.NaN()}, Lower: []float64{0}, Upper: []float64{1}},
		"upside down": {Cost: []float64{1}, Lower: []float64{2}, Upper: []float64{1}},
		"free column": {Cost: []float64{1}, Lower: []float64{math.Inf(-1)}, Upper: []float64{1}},
		"entry": {Cost: []float64{1}, Lower: []float64{0}, Upper: []float64{1},
			Rows: []Row{{A: []float64{math.Inf(1)}, Lower: 0, Upper: 1}}},
		"row": {Cost: []float64{1}, Lower: []float64{0}, Upper: []float64{1},
			Rows: []Row{{A: []float64{1}, Lower: 2, Upper: 1}}},
	} {
		if _, err := New(p); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
