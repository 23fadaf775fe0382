package milp

import (
	"math"
	"math/rand"
	"testing"
)

// Small programs of all kinds against going through every whole step.
func TestSearchAgainstEveryStep(t *testing.T) {
	r := rand.New(rand.NewSource(31))
	answered, none := 0, 0
	for k := range 1500 {
		cols, rows := smallProgram(r)
		want := []Goal{{Distance: true}, {Least: true}, {Misses: true}, {Distance: true, Misses: true}}[r.Intn(4)]
		want.Best, want.MaxSpent = r.Intn(2) == 0, []float64{math.Inf(1), 20 * r.Float64()}[r.Intn(2)]
		if want.Misses || r.Intn(3) == 0 {
			want.MaxMiss = 2 * r.Float64()
		}
		s, err := New(cols, rows, want)
		if err == ErrNarrow {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		judge := func(steps []float64) (float64, bool) { return judgeSmall(cols, rows, want, steps) }
		steps := s.Run(judge)
		best := everyStep(cols, judge)
		switch {
		case !s.Proved:
			t.Errorf("program %d: not proved in %d nodes", k, s.Nodes)
		case math.IsInf(best, 1) != (steps == nil):
			t.Errorf("program %d: found %v, the best there is %g", k, steps, best)
		case steps == nil:
			none++
		default:
			answered++
			gap := roundingTol * best
			if !want.Best {
				gap = OptimalityGap * s.Value
				if want.Misses {
					gap = max(gap, missGap)
				}
			}
			if s.Value > best+gap*(1+1e-6)+1e-9 || s.Bound > best*(1+1e-6)+1e-6 {
				t.Errorf("program %d: found %.12g, proved %.12g, the best is %.12g", k, s.Value, s.Bound, best)
			}
		}
	}
	t.Logf("%d answered, %d without an answer", answered, none)
	if answered < 300 || none < 100 {
		t.Error("too few of a kind")
	}
}

// smallProgram draws three or four columns of a few steps, some with a least dose.
func smallProgram(r *rand.Rand) ([]Column, []Row) {
	var cols []Column
	for range 3 + r.Intn(2) {
		step := []float64{1, 0.5, 0.1, 0.01}[r.Intn(4)]
		c := Column{Step: step, Cap: step * (2 + 8*r.Float64()), Weight: r.Float64(), Spends: float64(r.Intn(2))}
		c.Target = c.Cap * r.Float64()
		if r.Intn(3) == 0 {
			c.Least = step * float64(1+r.Intn(4))
		}
		cols = append(cols, c)
	}
	inside := make([]float64, len(cols))
	for k, c := range cols {
		inside[k] = c.Step * math.Floor(r.Float64()*c.Cap/c.Step)
	}
	var rows []Row
	for range 2 + r.Intn(4) {
		x := Row{A: make([]float64, len(cols)), Lower: math.Inf(-1), Upper: math.Inf(1), Elastic: r.Intn(2) == 0}
		at := 0.0
		for k, c := range cols {
			if r.Intn(4) > 0 {
				x.A[k] = (r.Float64() - 0.2) / c.Step
			}
			at += x.A[k] * inside[k]
		}
		x.Size = max(1, math.Abs(at))
		room := x.Size * []float64{0, 0.05, 0.3}[r.Intn(3)]
		if x.Elastic || r.Intn(2) == 0 {
			x.Lower = at - room + 0.1*x.Size*r.NormFloat64()*float64(r.Intn(2))
		} else {
			x.Upper = at + room + 0.1*x.Size*r.NormFloat64()*float64(r.Intn(2))
		}
		rows = append(rows, x)
	}
	return cols, rows
}

// judgeSmall keeps the guard band of the search, so that no step lies between the two.
func judgeSmall(cols []Column, rows []Row, want Goal, steps []float64) (float64, bool) {
	missed, spent, apart := 0.0, 0.0, 0.0
	for k, c := range cols {
		g := steps[k] * c.Step
		if steps[k] > math.Floor(c.Cap/c.Step+IntegralTol) || g > 0 && g < c.Least*(1-roundingTol) {
			return 0, false
		}
		spent += c.Spends * g
		apart += c.Weight * math.Abs(g-c.Target)
	}
	for _, r := range rows {
		sum := 0.0
		for k, c := range cols {
			sum += r.A[k] * steps[k] * c.Step
		}
		if sum > r.Upper-GuardBand*r.Size {
			return 0, false
		}
		if short := (r.Lower-sum)/r.Size + GuardBand; short > 0 {
			if !r.Elastic || want.MaxMiss == 0 {
				return 0, false
			}
			missed += short
		}
	}
	if missed > want.MaxMiss || spent > want.MaxSpent {
		return 0, false
	}
	value := 0.0
	if want.Misses {
		value += missed
	}
	switch {
	case want.Distance:
		value += apart
	case want.Least:
		value += spent
	}
	return value, true
}

// everyStep returns the least objective of all whole steps.
func everyStep(cols []Column, judge func([]float64) (float64, bool)) float64 {
	best := math.Inf(1)
	steps := make([]float64, len(cols))
	var at func(k int)
	at = func(k int) {
		if k == len(cols) {
			if v, ok := judge(steps); ok {
				best = min(best, v)
			}
			return
		}
		for n := 0.0; n*cols[k].Step <= cols[k].Cap*(1+roundingTol); n++ {
			steps[k] = n
			at(k + 1)
		}
		steps[k] = 0
	}
	at(0)
	return best
}
