package lp

import "math"

// end says why an inner loop stopped.
type end int

const (
	done end = iota
	noCandidate
	limitReached
	ray
)

// violation returns how far basic position i is outside its bounds relative to
// them, and the direction back: +1 up, -1 down, 0 inside.
func (s *Solver) violation(i int) (float64, float64) {
	v, x := s.basic[i], s.xb[i]
	if lo := s.lo[v]; x < lo {
		return (lo - x) / max(1, math.Abs(lo)), 1
	}
	if hi := s.hi[v]; x > hi {
		return (x - hi) / max(1, math.Abs(hi)), -1
	}
	return 0, 0
}

// dual restores primal feasibility, keeping dual feasibility. After noCandidate
// s.farkas holds the multipliers of the rows.
func (s *Solver) dual() end {
	for start := s.iterations; ; s.iterations++ {
		if s.iterations-start > maxIterations {
			return limitReached
		}
		bland := s.iterations-start > blandAfter
		if s.pivots >= rebuildEvery || s.iterations-start == blandAfter {
			s.rebuild()
			s.place()
		}
		r, dir := s.leaving(bland)
		if r < 0 {
			return done
		}
		q := s.entering(r, dir, bland)
		if q < 0 {
			if v, _ := s.violation(r); v <= feasTol {
				// The flips alone mended it; their reduced costs now have the wrong
				// sign, which the primal simplex puts right.
				continue
			}
			s.rememberProof(r)
			return noCandidate
		}
		s.exchange(r, q, dir)
	}
}

// leaving picks the basic position with the largest violation, or the violated
// variable of smallest index.
func (s *Solver) leaving(bland bool) (r int, dir float64) {
	r = -1
	worst := feasTol
	for i := range s.m {
		v, way := s.violation(i)
		if v <= feasTol {
			continue
		}
		if bland {
			if r < 0 || s.basic[i] < s.basic[r] {
				r, dir = i, way
			}
		} else if v > worst {
			r, dir, worst = i, way, v
		}
	}
	return r, dir
}

// entering runs the ratio test for row r: near ties go to the larger pivot, and
// variables with two bounds flip to the other one while row r stays violated.
// It returns -1 when nothing can mend the row.
func (s *Solver) entering(r int, dir float64, bland bool) int {
	n := s.n
	t := s.t[r*n : (r+1)*n]
	list := s.candidates[:0]
	for j, a := range t {
		v := s.nonbasic[j]
		if s.lo[v] == s.hi[v] {
			continue
		}
		if a *= dir; a > s.leastPivot && !s.atUpper[j] || a < -s.leastPivot && s.atUpper[j] {
			list = append(list, j)
		}
	}
	s.candidates = list
	p := s.basic[r]
	slope := s.lo[p] - s.xb[r]
	if dir < 0 {
		slope = s.xb[r] - s.hi[p]
	}
	for len(list) > 0 {
		bound := math.Inf(1)
		for _, j := range list {
			bound = min(bound, (math.Abs(s.d[j])+harrisSlack)/math.Abs(t[j]))
		}
		q, reach := -1, 0.0
		for _, j := range list {
			if math.Abs(s.d[j])/math.Abs(t[j]) > bound {
				continue
			}
			v := s.nonbasic[j]
			reach += math.Abs(t[j]) * (s.hi[v] - s.lo[v])
			better := q < 0 || math.Abs(t[j]) > math.Abs(t[q])
			if bland {
				better = q < 0 || s.nonbasic[j] < s.nonbasic[q]
			}
			if better {
				q = j
			}
		}
		if bland || slope-reach <= 0 {
			return q
		}
		rest := list[:0]
		for _, j := range list {
			if math.Abs(s.d[j])/math.Abs(t[j]) > bound {
				rest = append(rest, j)
				continue
			}
			s.flip(j)
		}
		slope -= reach
		list = rest
	}
	return -1
}

// flip moves a non-basic variable to its other bound.
func (s *Solver) flip(j int) {
	from := s.at(j)
	s.atUpper[j] = !s.atUpper[j]
	s.shift(j, s.at(j)-from)
}

// shift updates the basic variables for a change of non-basic position j.
func (s *Solver) shift(j int, by float64) {
	if by == 0 {
		return
	}
	for i := range s.m {
		if f := s.t[i*s.n+j]; f != 0 {
			s.xb[i] += f * by
		}
	}
}

// exchange lets basic position r leave at the bound it violates, for q.
func (s *Solver) exchange(r, q int, dir float64) {
	p := s.basic[r]
	bound := s.lo[p]
	if dir < 0 {
		bound = s.hi[p]
	}
	step := (bound - s.xb[r]) / s.t[r*s.n+q]
	enters := s.at(q) + step
	s.shift(q, step)
	s.pivot(r, q)
	s.xb[r] = enters
	s.atUpper[q] = dir < 0
}

// rememberProof keeps the multipliers with which row r of the dictionary combines
// the original rows.
func (s *Solver) rememberProof(r int) {
	s.farkas = make([]float64, s.m)
	if v := s.basic[r]; v >= s.n {
		s.farkas[v-s.n] = -s.row[v-s.n]
	}
	for j, v := range s.nonbasic {
		if v >= s.n {
			s.farkas[v-s.n] = s.t[r*s.n+j] * s.row[v-s.n]
		}
	}
}
