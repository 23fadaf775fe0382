package lp

import (
	"errors"
	"math"
	"time"

	"gonum.org/v1/gonum/mat"
	glp "gonum.org/v1/gonum/optimize/convex/lp"
)

// opinionTol is the tolerance given to the other solver; its own tests use it.
const opinionTol = 1e-10

// SecondOpinion solves a program with gonum's simplex in a scaled standard form.
// That solver gives no duals, fails on some degenerate programs and can run for
// ever, so it gets a time limit, an Optimal answer has passed Residual, and
// Imprecise stands for everything else that went wrong. A run that misses its
// time keeps a thread busy until the process ends.
func SecondOpinion(p Problem, limit time.Duration) (Result, error) {
	s, err := New(p)
	if err != nil {
		return Result{}, err
	}
	f := s.standardForm()
	answer := make(chan Result, 1)
	go func() { answer <- f.solve() }()
	select {
	case res := <-answer:
		if res.Status == Optimal {
			for j := range res.X {
				res.X[j] = min(max(p.Lower[j]+res.X[j]*s.col[j], p.Lower[j]), p.Upper[j])
				res.Objective += p.Cost[j] * res.X[j]
			}
			if Residual(&p, res.X) > verifyTol {
				res.Status = Imprecise
			}
		}
		return res, nil
	case <-time.After(limit):
		return Result{Status: IterationLimit}, nil
	}
}

// standard is minimise c·x, A x = b, x >= 0; the first n of x are the columns of
// the program less their lower bounds, scaled.
type standard struct {
	n int
	c []float64
	a [][]float64
	b []float64
}

func (s *Solver) standardForm() standard {
	f := standard{n: s.n, c: append([]float64(nil), s.c...)}
	type oneSided struct {
		a     []float64
		bound float64
		slack float64
	}
	var rows []oneSided
	add := func(a []float64, lo, hi float64) {
		base := 0.0
		for j, v := range a {
			base += v * s.lo[j]
		}
		if lo == hi {
			rows = append(rows, oneSided{a, lo - base, 0})
			return
		}
		if !math.IsInf(lo, -1) {
			rows = append(rows, oneSided{a, lo - base, -1})
		}
		if !math.IsInf(hi, 1) {
			rows = append(rows, oneSided{a, hi - base, 1})
		}
	}
	for i := range s.m {
		add(s.a[i*s.n:(i+1)*s.n], s.lo[s.n+i], s.hi[s.n+i])
	}
	for j := range s.n {
		if !math.IsInf(s.hi[j], 1) {
			unit := make([]float64, s.n)
			unit[j] = 1
			add(unit, math.Inf(-1), s.hi[j])
		}
	}
	slacks := 0
	for _, r := range rows {
		if r.slack != 0 {
			slacks++
		}
	}
	f.c = append(f.c, make([]float64, slacks)...)
	at := s.n
	for _, r := range rows {
		a := make([]float64, s.n+slacks)
		copy(a, r.a)
		if r.slack != 0 {
			a[at] = r.slack
			at++
		}
		f.a, f.b = append(f.a, a), append(f.b, r.bound)
	}
	return f
}

// solve runs the other solver; a panic inside it is its failure, not ours.
func (f standard) solve() (res Result) {
	defer func() {
		if recover() != nil {
			res = Result{Status: Imprecise}
		}
	}()
	if len(f.a) == 0 {
		return Result{Status: Imprecise}
	}
	a := mat.NewDense(len(f.a), len(f.c), nil)
	for i, r := range f.a {
		a.SetRow(i, r)
	}
	_, x, err := glp.Simplex(f.c, a, f.b, opinionTol, nil)
	switch {
	case errors.Is(err, glp.ErrInfeasible):
		return Result{Status: Infeasible}
	case errors.Is(err, glp.ErrUnbounded):
		return Result{Status: Unbounded}
	case err != nil:
		return Result{Status: Imprecise}
	}
	return Result{Status: Optimal, X: x[:f.n]}
}
