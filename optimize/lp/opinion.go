package lp

import (
	"errors"
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/mat"
	glp "gonum.org/v1/gonum/optimize/convex/lp"
)

// opinionTol is the tolerance given to the other solver; its own tests use it.
const opinionTol = 1e-10

// SecondOpinion solves a program with gonum's simplex in a scaled standard form,
// without the columns and rows that decide nothing. That solver gives no duals,
// fails on some degenerate programs and can run for ever, so it gets a time limit
// and, where it finds no optimum, a second try with the columns the other way
// round; an Optimal answer has passed Residual, and Imprecise stands for
// everything else that went wrong. A run that misses its time keeps a thread busy
// until the process ends.
func SecondOpinion(p Problem, limit time.Duration) (Result, error) {
	s, err := New(p)
	if err != nil {
		return Result{}, err
	}
	f := s.standardForm()
	answer := make(chan Result, 1)
	go func() {
		res := f.answer(&p, s.col)
		if res.Status != Optimal {
			slices.Reverse(f.columns)
			res = f.answer(&p, s.col)
		}
		answer <- res
	}()
	select {
	case res := <-answer:
		return res, nil
	case <-time.After(limit):
		return Result{Status: IterationLimit}, nil
	}
}

// standard is a program whose columns are counted from their lower bounds, scaled:
// minimise c·y subject to one-sided and equal rows, y >= 0.
type standard struct {
	// columns are those of the program that can move at all.
	columns []int
	c       []float64 // of all columns of the program
	rows    []oneSided
}

// oneSided is a·x + slack·t = bound with t >= 0.
type oneSided struct {
	a     []float64
	bound float64
	slack float64
}

func (s *Solver) standardForm() standard {
	f := standard{c: s.c[:s.n]}
	for j := range s.n {
		if s.lo[j] < s.hi[j] {
			f.columns = append(f.columns, j)
		}
	}
	// add takes the sides of a row that some point within the columns' bounds
	// could miss.
	add := func(a []float64, lo, hi float64) {
		base, least, most := 0.0, 0.0, 0.0
		for j, v := range a {
			base += v * s.lo[j]
			if v != 0 && s.lo[j] < s.hi[j] {
				least += min(0, v*(s.hi[j]-s.lo[j]))
				most += max(0, v*(s.hi[j]-s.lo[j]))
			}
		}
		if lo == hi {
			f.rows = append(f.rows, oneSided{a, lo - base, 0})
			return
		}
		if base+least < lo {
			f.rows = append(f.rows, oneSided{a, lo - base, -1})
		}
		if base+most > hi {
			f.rows = append(f.rows, oneSided{a, hi - base, 1})
		}
	}
	for i := range s.m {
		add(s.a[i*s.n:(i+1)*s.n], s.lo[s.n+i], s.hi[s.n+i])
	}
	for _, j := range f.columns {
		if !math.IsInf(s.hi[j], 1) {
			unit := make([]float64, s.n)
			unit[j] = 1
			f.rows = append(f.rows, oneSided{unit, s.hi[j] - s.lo[j], 1})
		}
	}
	return f
}

// answer runs the other solver and reads its answer in the program's own columns;
// scale is what a column was divided by.
func (f *standard) answer(p *Problem, scale []float64) Result {
	y, status := f.solve()
	if status != Optimal {
		return Result{Status: status}
	}
	res := Result{Status: Optimal, X: slices.Clone(p.Lower)}
	for k, j := range f.columns {
		res.X[j] = min(max(p.Lower[j]+y[k]*scale[j], p.Lower[j]), p.Upper[j])
	}
	for j, x := range res.X {
		res.Objective += p.Cost[j] * x
	}
	if Residual(p, res.X) > verifyTol {
		res.Status = Imprecise
	}
	return res
}

// solve runs the other solver; a panic inside it is its failure, not ours.
func (f *standard) solve() (y []float64, status Status) {
	defer func() {
		if recover() != nil {
			y, status = nil, Imprecise
		}
	}()
	width := len(f.columns)
	for _, r := range f.rows {
		if r.slack != 0 {
			width++
		}
	}
	if len(f.rows) == 0 || len(f.columns) == 0 {
		return nil, Imprecise
	}
	a, b, c := mat.NewDense(len(f.rows), width, nil), make([]float64, len(f.rows)), make([]float64, width)
	at := len(f.columns)
	for i, r := range f.rows {
		for k, j := range f.columns {
			a.Set(i, k, r.a[j])
		}
		b[i] = r.bound
		if r.slack != 0 {
			a.Set(i, at, r.slack)
			at++
		}
	}
	for k, j := range f.columns {
		c[k] = f.c[j]
	}
	_, x, err := glp.Simplex(c, a, b, opinionTol, nil)
	switch {
	case errors.Is(err, glp.ErrInfeasible):
		return nil, Infeasible
	case errors.Is(err, glp.ErrUnbounded):
		return nil, Unbounded
	case err != nil:
		return nil, Imprecise
	}
	return x[:len(f.columns)], Optimal
}
