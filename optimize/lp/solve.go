package lp

import "math"

// Solve finds the optimum, going on from the dictionary at hand: with the dual
// simplex where the costs suit it, else with the primal simplex from a feasible
// dictionary.
func (s *Solver) Solve() Result {
	s.iterations = 0
	defer func() { s.leastPivot = pivotTol }()
	var unproved []float64
	for round := range finishRounds {
		if round > 0 {
			s.rebuild()
			s.leastPivot *= pivotRelief
		}
		switch s.once() {
		case limitReached:
			return Result{Status: IterationLimit, Iterations: s.iterations}
		case noCandidate:
			if y := s.proof(s.farkas); y != nil {
				return Result{Status: Infeasible, Farkas: y, Iterations: s.iterations}
			}
			unproved = s.farkas
			continue
		case ray:
			if round > 0 {
				return Result{Status: Unbounded, Iterations: s.iterations}
			}
			continue
		}
		if s.pivots > trustedPivots {
			s.rebuild()
			if !s.isOptimal() {
				continue
			}
		}
		if res := s.result(); s.verify(&res) {
			return res
		}
	}
	if unproved != nil {
		if y := s.exactProof(unproved); y != nil {
			return Result{Status: Infeasible, Farkas: y, Iterations: s.iterations}
		}
	}
	if res := s.otherwise(); res.Status != Imprecise {
		return res
	}
	guide := s.result()
	return Result{Status: Imprecise, X: guide.X, Iterations: s.iterations}
}

// otherwise solves the program anew with its rows scaled alone: a reduced cost of the
// wrong sign that is rounding in a column with a wide range is none there. The
// dictionary at hand stays.
func (s *Solver) otherwise() Result {
	if s.second {
		return Result{Status: Imprecise}
	}
	o := newScaled(s.p, rowScales)
	o.second = true
	return o.Solve()
}

// once runs the simplex methods from the dictionary at hand to an optimal one.
func (s *Solver) once() end {
	if s.isPrimalFeasible() {
		return s.primal()
	}
	if s.place() {
		if e := s.dual(); e != done {
			return e
		}
		return s.primal()
	}
	// The costs suit no start: find a feasible dictionary without costs.
	clear(s.d)
	cost := append([]float64(nil), s.c...)
	clear(s.c)
	s.place()
	e := s.dual()
	copy(s.c, cost)
	s.price()
	if e != done {
		return e
	}
	return s.primal()
}

// isPrimalFeasible puts the non-basic variables on bounds that exist and says
// whether the basic ones keep theirs.
func (s *Solver) isPrimalFeasible() bool {
	for j, v := range s.nonbasic {
		if s.atUpper[j] && math.IsInf(s.hi[v], 1) || !s.atUpper[j] && math.IsInf(s.lo[v], -1) && !math.IsInf(s.hi[v], 1) {
			s.atUpper[j] = !s.atUpper[j]
		}
	}
	s.value()
	for i := range s.m {
		if v, _ := s.violation(i); v > feasTol {
			return false
		}
	}
	return true
}

func (s *Solver) isOptimal() bool {
	q, _ := s.improving(false)
	return q < 0 && s.isPrimalFeasible()
}

// result reads the answer off the dictionary, in the units of the program.
func (s *Solver) result() Result {
	res := Result{Status: Optimal, X: make([]float64, s.n), Duals: make([]float64, s.m),
		Reduced: make([]float64, s.n), Iterations: s.iterations}
	for j, v := range s.nonbasic {
		d := s.d[j]
		if up := s.atUpper[j]; s.lo[v] != s.hi[v] && (up && d > 0 || !up && d < 0) {
			d = 0 // within dualTol, and of the wrong sign
		}
		if v < s.n {
			res.Reduced[v] = d / s.col[v] * s.costScale
			res.X[v] = s.at(j) * s.col[v]
		} else {
			res.Duals[v-s.n] = d * s.row[v-s.n] * s.costScale
		}
	}
	for i, v := range s.basic {
		if v < s.n {
			res.X[v] = s.snapped(i) * s.col[v]
		}
	}
	for j, x := range res.X {
		res.Objective += s.p.Cost[j] * x
	}
	return res
}

// snapped returns the value of basic position i, on its bound where it is outside
// or so near that the difference is rounding.
func (s *Solver) snapped(i int) float64 {
	v, x := s.basic[i], s.xb[i]
	if lo := s.lo[v]; x < lo+snapTol*max(1, math.Abs(lo)) {
		return lo
	}
	if hi := s.hi[v]; !math.IsInf(hi, 1) && x > hi-snapTol*max(1, math.Abs(hi)) {
		return hi
	}
	return x
}

// Bound goes on from the dictionary at hand after bounds have moved. Beside the
// answer, which is not checked as that of Solve is, it returns a bound that the duals
// prove on the unscaled program: no x that keeps all bounds has a smaller objective.
// A search may prune by that, and by an Infeasible answer, which is proved; what a
// search returns has to be checked by itself.
func (s *Solver) Bound() (Result, float64) {
	s.iterations = 0
	first := math.Inf(-1)
	if s.place() {
		switch s.dual() {
		case done:
			if s.primal() == done {
				res := s.result()
				var near bool
				if first, near = s.proved(&res); near {
					return res, first
				}
			}
		case noCandidate:
			if y := s.proof(s.farkas); y != nil {
				return Result{Status: Infeasible, Farkas: y}, first
			}
		}
		s.restart()
	}
	res := s.Solve()
	answer := res
	if res.Status == Imprecise && res.X != nil {
		answer = s.result()
	}
	if answer.Duals == nil {
		return res, first
	}
	again, _ := s.proved(&answer)
	return res, max(first, again)
}

// proved returns the bound that the duals of an answer prove, and whether it comes
// near the objective.
func (s *Solver) proved(res *Result) (bound float64, near bool) {
	bound, size := dualBound(&s.p, res.Duals)
	return bound, math.Abs(res.Objective-bound) <= boundTol*max(size, math.Abs(res.Objective))
}

// restart goes back to the dictionary of the rows.
func (s *Solver) restart() {
	copy(s.t, s.a)
	for j := range s.n {
		s.nonbasic[j], s.atUpper[j] = j, false
	}
	for i := range s.m {
		s.basic[i] = s.n + i
	}
	s.pivots = 0
	s.price()
	s.value()
}
