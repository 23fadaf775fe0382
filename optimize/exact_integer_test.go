package optimize

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"math/rand"
	"slices"
	"testing"

	"bowlwright/optimize/lp"
)

// settle proves, in exact rational arithmetic, what our search says of a case: its
// answer keeps every limit, and in a tree of boxes that holds all whole steps each leaf
// has multipliers that prove that nothing in it is better, or that there is nothing.
func (c *integerCase) settle() error {
	value := math.Inf(1)
	if c.best.incumbent != nil {
		value = c.best.value
		if err := c.keepsExactly(c.best.incumbent); err != nil {
			return err
		}
	}
	q, err := relaxed(c.w.cols, c.w.rows, c.want)
	if err != nil {
		return err
	}
	s, err := newSearch(c.w.cols, c.w.rows, c.want)
	if err != nil {
		return err
	}
	all := &node{lo: make([]float64, len(c.w.cols))}
	for _, col := range c.w.cols {
		all.hi = append(all.hi, math.Floor(col.cap/col.step+integralTol))
	}
	tree := &exactTree{cols: c.w.cols, q: q, s: s, at: value * (1 - exactAgrees)}
	s.value, s.incumbent = tree.at, c.best.incumbent
	return tree.prove(all)
}

// exactAgrees is how far, relative, under the best the exact proof may end: the
// multipliers of a leaf are rounded.
const exactAgrees = 1e-6

// keepsExactly adds the rows up without rounding.
func (c *integerCase) keepsExactly(steps []float64) error {
	for _, r := range c.w.rows {
		if r.lower == r.upper {
			continue // whole numbers, of which keepsProgram adds up few
		}
		sum := new(big.Rat)
		for k, col := range c.w.cols {
			part := new(big.Rat).SetFloat64(r.a[k])
			part.Mul(part, new(big.Rat).SetFloat64(steps[k]))
			sum.Add(sum, part.Mul(part, new(big.Rat).SetFloat64(col.step)))
		}
		for side, bound := range map[int]float64{-1: r.lower, 1: r.upper} {
			if !math.IsInf(bound, 0) && sum.Cmp(new(big.Rat).SetFloat64(bound)) == side {
				return fmt.Errorf("our answer breaks %s", r.limit)
			}
		}
	}
	return nil
}

// exactTree proves that no whole steps have a smaller objective than at. The boxes are
// narrowed as in the search, by sums whose margin is a million times their rounding.
type exactTree struct {
	cols   []searchColumn
	q      lp.Problem
	s      *search
	at     float64
	leaves int
}

// mostLeaves ends a proof that does not end.
const mostLeaves = 20000

var errUnproved = errors.New("the exact proof did not end")

func (e *exactTree) prove(box *node) error {
	if e.leaves++; e.leaves > mostLeaves {
		return errUnproved
	}
	if !e.s.tighten(box) || !e.s.nearEnough(box) {
		return nil
	}
	e.q.Lower, e.q.Upper = slices.Clone(e.q.Lower), slices.Clone(e.q.Upper)
	box.bounds(e.cols, func(j int, lower, upper float64) {
		e.q.Lower[j], e.q.Upper[j] = lower, upper
		e.s.solver.SetColumn(j, lower, upper)
	})
	res, near := e.s.solver.Bound()
	if res.Status == lp.Optimal {
		e.s.rise.learn(box.split, near-box.bound)
	}
	if res.Status == lp.Infeasible && lp.ExactlyProves(&e.q, res.Farkas) {
		return nil
	}
	if res.Status == lp.Optimal && !math.IsInf(e.at, 1) {
		if bound := lp.ExactBound(&e.q, res.Duals); bound != nil && bound.Cmp(new(big.Rat).SetFloat64(e.at)) >= 0 {
			return nil
		}
	}
	steps := make([]float64, len(e.cols))
	for j, c := range e.cols {
		steps[j] = min(max((c.target+res.X[2*j]-res.X[2*j+1])/c.step, box.lo[j]), box.hi[j])
	}
	one, other := e.s.divide(box, steps, near)
	if one == nil {
		return errUnproved // a single point that nothing is proved of
	}
	if err := e.prove(one); err != nil || other == nil {
		return err
	}
	return e.prove(other)
}

// The proof is not a formality: it refuses a search that claims too much, both that
// its answer is the best and that there is none.
func TestExactProofRefuses(t *testing.T) {
	proved, refused := 0, 0
	for _, c := range drawIntegerCases(t, 5, 12) {
		if !c.best.proved || c.best.nodes > 40 || c.best.incumbent == nil {
			continue
		}
		if err := c.settle(); err != nil {
			t.Errorf("%v", err)
			continue
		}
		proved++
		worse := *c.best
		worse.value = c.best.value*1.05 + 1e-3
		none := *c.best
		none.incumbent = nil
		for _, claim := range []*search{&worse, &none} {
			wrong := &integerCase{c.w, c.want, claim}
			if wrong.settle() == nil {
				t.Error("a false claim was proved")
			}
			refused++
		}
	}
	if proved == 0 {
		t.Error("nothing was proved")
	}
	t.Logf("%d proved, %d false claims refused", proved, refused)
}

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
			gap := limitTol * best
			if !want.best {
				gap = optimalityGap * s.value
				if want.misses {
					gap = max(gap, violationSliver)
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
func smallProgram(r *rand.Rand) ([]searchColumn, []row) {
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
	var rows []row
	for range 2 + r.Intn(4) {
		x := row{a: make([]float64, len(cols)), lower: math.Inf(-1), upper: math.Inf(1), elastic: r.Intn(2) == 0}
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
func judgeSmall(cols []searchColumn, rows []row, want aim, steps []float64) (float64, bool) {
	missed, spent, apart := 0.0, 0.0, 0.0
	for k, c := range cols {
		g := steps[k] * c.step
		if steps[k] > math.Floor(c.cap/c.step+integralTol) || g > 0 && g < c.least*(1-limitTol) {
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
		for n := 0.0; n*cols[k].step <= cols[k].cap*(1+limitTol); n++ {
			steps[k] = n
			at(k + 1)
		}
		steps[k] = 0
	}
	at(0)
	return best
}
