package lp

import "math"

// primal goes on from a primal feasible dictionary to an optimal one.
func (s *Solver) primal() end {
	for start := s.iterations; ; s.iterations++ {
		if s.iterations-start > maxIterations {
			return limitReached
		}
		bland := s.iterations-start > blandAfter
		if s.pivots >= rebuildEvery || s.iterations-start == blandAfter {
			s.rebuild()
		}
		q, dir := s.improving(bland)
		if q < 0 {
			return done
		}
		r, step, toUpper := s.blocking(q, dir, bland)
		v := s.nonbasic[q]
		if own := s.hi[v] - s.lo[v]; own <= step {
			if math.IsInf(own, 1) {
				return ray
			}
			s.flip(q)
			continue
		}
		if r < 0 {
			return ray
		}
		enters := s.at(q) + dir*step
		s.shift(q, dir*step)
		s.pivot(r, q)
		s.xb[r] = enters
		s.atUpper[q] = toUpper
	}
}

// improving picks the non-basic variable with the largest reduced cost of the
// wrong sign, or the one of smallest index, and the direction it should move.
func (s *Solver) improving(bland bool) (q int, dir float64) {
	q = -1
	worst := dualTol
	for j, v := range s.nonbasic {
		if s.lo[v] == s.hi[v] {
			continue
		}
		d, way := s.d[j], 1.0
		free := math.IsInf(s.lo[v], -1) && math.IsInf(s.hi[v], 1)
		if s.atUpper[j] || free && d > 0 {
			d, way = -d, -1
		}
		if -d <= dualTol {
			continue
		}
		if bland {
			if q < 0 || v < s.nonbasic[q] {
				q, dir = j, way
			}
		} else if -d > worst {
			q, dir, worst = j, way, -d
		}
	}
	return q, dir
}

// blocking runs the ratio test of a column: the basic position that reaches a
// bound first, near ties to the larger pivot; r is -1 when none does.
func (s *Solver) blocking(q int, dir float64, bland bool) (r int, step float64, toUpper bool) {
	room := func(i int, rate float64) float64 {
		v := s.basic[i]
		if rate > 0 {
			return s.hi[v] - s.xb[i]
		}
		return s.xb[i] - s.lo[v]
	}
	bound := math.Inf(1)
	for i := range s.m {
		rate := s.t[i*s.n+q] * dir
		if math.Abs(rate) > s.leastPivot {
			bound = min(bound, (room(i, rate)+feasTol)/math.Abs(rate))
		}
	}
	r, step = -1, math.Inf(1)
	if math.IsInf(bound, 1) {
		return r, step, false
	}
	largest := 0.0
	for i := range s.m {
		rate := s.t[i*s.n+q] * dir
		if math.Abs(rate) <= s.leastPivot || room(i, rate)/math.Abs(rate) > bound {
			continue
		}
		better := math.Abs(rate) > largest
		if bland {
			better = r < 0 || s.basic[i] < s.basic[r]
		}
		if better {
			r, largest = i, math.Abs(rate)
			step, toUpper = max(0, room(i, rate)/math.Abs(rate)), rate > 0
		}
	}
	return r, step, toUpper
}
