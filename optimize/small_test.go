package optimize

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
		want := []aim{{distance: true}, {least: true}, {misses: true}, {distance: true, misses: true}}[r.Intn(4)]
		want.best, want.maxSpent = r.Intn(2) == 0, []float64{math.Inf(1), 20 * r.Float64()}[r.Intn(2)]
		if want.misses || r.Intn(3) == 0 {
			want.maxMiss = 2 * r.Float64()
		}
		s, err := newSearch(cols, rows, want)
		if err == errNarrow {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		judge := func(steps []float64) (float64, bool) { return judgeSmall(cols, rows, want, steps) }
		steps := s.run(judge)
		best := everyStep(cols, judge)
		switch {
		case !s.proved:
			t.Errorf("program %d: not proved in %d nodes", k, s.nodes)
		case math.IsInf(best, 1) != (steps == nil):
			t.Errorf("program %d: found %v, the best there is %g", k, steps, best)
		case steps == nil:
			none++
		default:
			answered++
			gap := roundingTol * best
			if !want.best {
				gap = optimalityGap * s.value
				if want.misses {
					gap = max(gap, missGap)
				}
			}
			if s.value > best+gap*(1+1e-6)+1e-9 || s.bound > best*(1+1e-6)+1e-6 {
				t.Errorf("program %d: found %.12g, proved %.12g, the best is %.12g", k, s.value, s.bound, best)
			}
		}
	}
	t.Logf("%d answered, %d without an answer", answered, none)
	if answered < 300 || none < 100 {
		t.Error("too few of a kind")
	}
}

// smallProgram draws three or four columns of a few steps, some with a least dose.
func smallProgram(r *rand.Rand) ([]searchColumn, []searchRow) {
	var cols []searchColumn
	for range 3 + r.Intn(2) {
		step := []float64{1, 0.5, 0.1, 0.01}[r.Intn(4)]
		c := searchColumn{step: step, cap: step * (2 + 8*r.Float64()), weight: r.Float64(), spends: float64(r.Intn(2))}
		c.target = c.cap * r.Float64()
		if r.Intn(3) == 0 {
			c.least = step * float64(1+r.Intn(4))
		}
		cols = append(cols, c)
	}
	inside := make([]float64, len(cols))
	for k, c := range cols {
		inside[k] = c.step * math.Floor(r.Float64()*c.cap/c.step)
	}
	var rows []searchRow
	for range 2 + r.Intn(4) {
		x := searchRow{a: make([]float64, len(cols)), lower: math.Inf(-1), upper: math.Inf(1), elastic: r.Intn(2) == 0}
		at := 0.0
		for k, c := range cols {
			if r.Intn(4) > 0 {
				x.a[k] = (r.Float64() - 0.2) / c.step
			}
			at += x.a[k] * inside[k]
		}
		x.size = max(1, math.Abs(at))
		room := x.size * []float64{0, 0.05, 0.3}[r.Intn(3)]
		if x.elastic || r.Intn(2) == 0 {
			x.lower = at - room + 0.1*x.size*r.NormFloat64()*float64(r.Intn(2))
		} else {
			x.upper = at + room + 0.1*x.size*r.NormFloat64()*float64(r.Intn(2))
		}
		rows = append(rows, x)
	}
	return cols, rows
}

// judgeSmall keeps the guard band of the search, so that no step lies between the two.
func judgeSmall(cols []searchColumn, rows []searchRow, want aim, steps []float64) (float64, bool) {
	missed, spent, apart := 0.0, 0.0, 0.0
	for k, c := range cols {
		g := steps[k] * c.step
		if steps[k] > math.Floor(c.cap/c.step+integralTol) || g > 0 && g < c.least*(1-roundingTol) {
			return 0, false
		}
		spent += c.spends * g
		apart += c.weight * math.Abs(g-c.target)
	}
	for _, r := range rows {
		sum := 0.0
		for k, c := range cols {
			sum += r.a[k] * steps[k] * c.step
		}
		if sum > r.upper-guardBand*r.size {
			return 0, false
		}
		if short := (r.lower-sum)/r.size + guardBand; short > 0 {
			if !r.elastic || want.maxMiss == 0 {
				return 0, false
			}
			missed += short
		}
	}
	if missed > want.maxMiss || spent > want.maxSpent {
		return 0, false
	}
	value := 0.0
	if want.misses {
		value += missed
	}
	switch {
	case want.distance:
		value += apart
	case want.least:
		value += spent
	}
	return value, true
}

// everyStep returns the least objective of all whole steps.
func everyStep(cols []searchColumn, judge func([]float64) (float64, bool)) float64 {
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
		for n := 0.0; n*cols[k].step <= cols[k].cap*(1+roundingTol); n++ {
			steps[k] = n
			at(k + 1)
		}
		steps[k] = 0
	}
	at(0)
	return best
}
