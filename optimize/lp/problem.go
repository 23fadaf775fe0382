package lp

import (
	"fmt"
	"math"
)

// Problem is a linear program. Bounds may be infinite, except that a column needs
// a finite lower bound. The solver never changes it.
type Problem struct {
	// Cost, Lower and Upper have one entry for each column.
	Cost, Lower, Upper []float64
	Rows               []Row
}

// Row is one linear form with its bounds.
type Row struct {
	A            []float64
	Lower, Upper float64
}

// Status says how a solve ended.
type Status int

// The statuses. Imprecise means that no answer passed the check on the unscaled
// program.
const (
	Optimal Status = iota
	Infeasible
	Unbounded
	Imprecise
	IterationLimit
)

func (s Status) String() string {
	return [...]string{"optimal", "infeasible", "unbounded", "imprecise", "iteration limit"}[s]
}

// Result is the answer to a Problem, in its own units.
type Result struct {
	Status    Status
	Objective float64
	// X holds the columns. Duals holds for each row how much the objective rises
	// for one unit more of its binding bound; Reduced the same for each column. The
	// X of an Imprecise answer is a guide that proves nothing; it may be nil.
	X, Duals, Reduced []float64
	// Farkas proves infeasibility: the rows, multiplied by these and added up,
	// cannot hold whatever the columns are. Nil unless Infeasible.
	Farkas     []float64
	Iterations int
}

// check returns what is wrong with the data of a program. Lengths that disagree
// are the caller's mistake and panic.
func (p *Problem) check() error {
	n := len(p.Cost)
	if len(p.Lower) != n || len(p.Upper) != n {
		panic("lp: bounds and costs differ in length")
	}
	for j := range p.Cost {
		if math.IsNaN(p.Cost[j]) || math.IsInf(p.Cost[j], 0) {
			return fmt.Errorf("the cost of column %d is not a number", j)
		}
		if err := checkBounds(p.Lower[j], p.Upper[j]); err != nil {
			return fmt.Errorf("column %d: %w", j, err)
		}
		if math.IsInf(p.Lower[j], 0) {
			return fmt.Errorf("column %d has no lower bound", j)
		}
	}
	for i, r := range p.Rows {
		if len(r.A) != n {
			panic("lp: a row has the wrong length")
		}
		if err := checkBounds(r.Lower, r.Upper); err != nil {
			return fmt.Errorf("row %d: %w", i, err)
		}
		for j, a := range r.A {
			if math.IsNaN(a) || math.IsInf(a, 0) {
				return fmt.Errorf("row %d, column %d is not a number", i, j)
			}
		}
	}
	return nil
}

func checkBounds(lo, hi float64) error {
	switch {
	case math.IsNaN(lo) || math.IsNaN(hi):
		return fmt.Errorf("a bound is not a number")
	case lo > hi:
		return fmt.Errorf("the lower bound %g is over the upper bound %g", lo, hi)
	case math.IsInf(lo, 1) || math.IsInf(hi, -1):
		return fmt.Errorf("a bound is infinite on the wrong side")
	}
	return nil
}

// MostMissed bounds the slack of an elastic row in units of its size: with every unknown at its cap where
// it hurts. A finite bound lets the duals prove something in exact arithmetic.
func MostMissed(a []float64, lower, size float64, capOf func(j int) float64) float64 {
	miss := lower
	for j, v := range a {
		if v < 0 {
			miss -= v * capOf(j)
		}
	}
	return max(0, miss/size)
}
