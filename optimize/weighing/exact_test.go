package weighing

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"slices"
	"testing"

	"bowlwright/optimize/lp"
	"bowlwright/optimize/milp"
)

// settle proves, in exact rational arithmetic, what our search says of a case: its
// answer keeps every limit, and in a tree of boxes that holds all whole steps each leaf
// has multipliers that prove that nothing in it is better, or that there is nothing.
func (c *integerCase) settle() error {
	value := math.Inf(1)
	if c.best.Incumbent != nil {
		value = c.best.Value
		if err := c.keepsExactly(c.best.Incumbent); err != nil {
			return err
		}
	}
	q, err := milp.Relaxed(c.w.Cols, c.w.Rows, c.want)
	if err != nil {
		return err
	}
	s, err := milp.New(c.w.Cols, c.w.Rows, c.want)
	if err != nil {
		return err
	}
	all := &milp.Node{Lo: make([]float64, len(c.w.Cols))}
	for _, col := range c.w.Cols {
		all.Hi = append(all.Hi, math.Floor(col.Cap/col.Step+milp.IntegralTol))
	}
	tree := &exactTree{cols: c.w.Cols, q: q, s: s, at: value * (1 - exactAgrees)}
	s.Value, s.Incumbent = tree.at, c.best.Incumbent
	return tree.prove(all)
}

// exactAgrees is how far, relative, under the best the exact proof may end: the
// multipliers of a leaf are rounded.
const exactAgrees = 1e-6

// keepsExactly adds the rows up without rounding.
func (c *integerCase) keepsExactly(steps []float64) error {
	for _, r := range c.w.Rows {
		if r.Lower == r.Upper {
			continue // whole numbers, of which keepsProgram adds up few
		}
		sum := new(big.Rat)
		for k, col := range c.w.Cols {
			part := new(big.Rat).SetFloat64(r.A[k])
			part.Mul(part, new(big.Rat).SetFloat64(steps[k]))
			sum.Add(sum, part.Mul(part, new(big.Rat).SetFloat64(col.Step)))
		}
		for side, bound := range map[int]float64{-1: r.Lower, 1: r.Upper} {
			if !math.IsInf(bound, 0) && sum.Cmp(new(big.Rat).SetFloat64(bound)) == side {
				return fmt.Errorf("our answer breaks %s", r.Name)
			}
		}
	}
	return nil
}

// exactTree proves that no whole steps have a smaller objective than at. The boxes are
// narrowed as in the search, by sums whose margin is a million times their rounding.
type exactTree struct {
	cols   []milp.Column
	q      lp.Problem
	s      *milp.Search
	at     float64
	leaves int
}

// mostLeaves ends a proof that does not end.
const mostLeaves = 20000

var errUnproved = errors.New("the exact proof did not end")

func (e *exactTree) prove(box *milp.Node) error {
	if e.leaves++; e.leaves > mostLeaves {
		return errUnproved
	}
	if !e.s.Tighten(box) || !e.s.NearEnough(box) {
		return nil
	}
	e.q.Lower, e.q.Upper = slices.Clone(e.q.Lower), slices.Clone(e.q.Upper)
	box.Bounds(e.cols, func(j int, lower, upper float64) {
		e.q.Lower[j], e.q.Upper[j] = lower, upper
		e.s.Solver.SetColumn(j, lower, upper)
	})
	res, near := e.s.Solver.Bound()
	if res.Status == lp.Optimal {
		e.s.Rise.Learn(box.Split, near-box.Bound)
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
		steps[j] = min(max((c.Target+res.X[2*j]-res.X[2*j+1])/c.Step, box.Lo[j]), box.Hi[j])
	}
	one, other := e.s.Divide(box, steps, near)
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
		if !c.best.Proved || c.best.Nodes > 40 || c.best.Incumbent == nil {
			continue
		}
		if err := c.settle(); err != nil {
			t.Errorf("%v", err)
			continue
		}
		proved++
		worse := *c.best
		worse.Value = c.best.Value*1.05 + 1e-3
		none := *c.best
		none.Incumbent = nil
		for _, claim := range []*milp.Search{&worse, &none} {
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
