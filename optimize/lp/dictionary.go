package lp

import "math"

// Solver holds a program and its current dictionary xB = T xN. Variables 0 to n-1
// are the columns, n to n+m-1 the rows, all scaled.
type Solver struct {
	p          Problem
	m, n       int
	row, col   []float64 // scales
	costScale  float64
	a, c       []float64 // scaled rows and costs
	lo, hi     []float64
	t, d, xb   []float64
	basic      []int
	nonbasic   []int
	atUpper    []bool
	iterations int
	pivots     int // since the last rebuild
	candidates []int
	standing   []standing
	farkas     []float64
	// leastPivot is pivotTol, less after a round that proved nothing: a small
	// entry of a column with a wide range can still mend a row.
	leastPivot float64
	// second is true for a solver of a second try, which makes no third.
	second bool
}

// New prepares a program. An error says which datum is wrong.
func New(p Problem) (*Solver, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	return newScaled(p, scales), nil
}

// newScaled prepares a sound program with factors of its rows and columns.
func newScaled(p Problem, scales func(*Problem) (row, col []float64)) *Solver {
	m, n := len(p.Rows), len(p.Cost)
	s := &Solver{m: m, n: n, a: make([]float64, m*n), c: make([]float64, n),
		lo: make([]float64, n+m), hi: make([]float64, n+m),
		t: make([]float64, m*n), d: make([]float64, n), xb: make([]float64, m),
		basic: make([]int, m), nonbasic: make([]int, n), atUpper: make([]bool, n), leastPivot: pivotTol}
	s.p = Problem{Cost: append([]float64(nil), p.Cost...), Lower: append([]float64(nil), p.Lower...),
		Upper: append([]float64(nil), p.Upper...), Rows: append([]Row(nil), p.Rows...)}
	s.row, s.col = scales(&s.p)
	for i, r := range p.Rows {
		for j, v := range r.A {
			s.a[i*n+j] = v * s.row[i] * s.col[j]
		}
		s.lo[n+i], s.hi[n+i] = r.Lower*s.row[i], r.Upper*s.row[i]
		s.basic[i] = n + i
	}
	for j := range n {
		s.lo[j], s.hi[j] = p.Lower[j]/s.col[j], p.Upper[j]/s.col[j]
		s.nonbasic[j] = j
	}
	s.setScaledCost()
	copy(s.t, s.a)
	s.price()
	return s
}

// SetCost installs another objective; the dictionary stays.
func (s *Solver) SetCost(cost []float64) {
	copy(s.p.Cost, cost)
	s.setScaledCost()
	s.price()
}

func (s *Solver) setScaledCost() {
	largest := 0.0
	for j, v := range s.p.Cost {
		s.c[j] = v * s.col[j]
		largest = max(largest, math.Abs(s.c[j]))
	}
	s.costScale = 1 / powerOfTwo(largest)
	for j := range s.c {
		s.c[j] /= s.costScale
	}
}

// SetColumn changes the bounds of a column; lower must not be over upper.
func (s *Solver) SetColumn(j int, lower, upper float64) {
	if lower > upper {
		panic("lp: SetColumn with bounds upside down")
	}
	s.p.Lower[j], s.p.Upper[j] = lower, upper
	s.lo[j], s.hi[j] = lower/s.col[j], upper/s.col[j]
}

// SetRow changes the bounds of a row.
func (s *Solver) SetRow(i int, lower, upper float64) {
	if lower > upper {
		panic("lp: SetRow with bounds upside down")
	}
	s.p.Rows[i].Lower, s.p.Rows[i].Upper = lower, upper
	s.lo[s.n+i], s.hi[s.n+i] = lower*s.row[i], upper*s.row[i]
}

// at returns the value of the non-basic variable in position j: the bound it
// stands on, or zero for one without bounds.
func (s *Solver) at(j int) float64 {
	v := s.nonbasic[j]
	if s.atUpper[j] && !math.IsInf(s.hi[v], 1) {
		return s.hi[v]
	}
	if !math.IsInf(s.lo[v], -1) {
		return s.lo[v]
	}
	if !math.IsInf(s.hi[v], 1) {
		return s.hi[v]
	}
	return 0
}

// price recomputes the reduced costs from the dictionary.
func (s *Solver) price() {
	for j, v := range s.nonbasic {
		s.d[j] = 0
		if v < s.n {
			s.d[j] = s.c[v]
		}
	}
	for i, v := range s.basic {
		if v < s.n && s.c[v] != 0 {
			t := s.t[i*s.n : (i+1)*s.n]
			for j := range t {
				s.d[j] += s.c[v] * t[j]
			}
		}
	}
}

// place puts every non-basic variable on the bound that suits its reduced cost,
// and says whether that was possible for all (dual feasible).
func (s *Solver) place() bool {
	feasible := true
	for j, v := range s.nonbasic {
		lower, upper := !math.IsInf(s.lo[v], -1), !math.IsInf(s.hi[v], 1)
		switch {
		case s.lo[v] == s.hi[v]:
			s.atUpper[j] = false
		case s.d[j] > dualTol:
			s.atUpper[j] = !lower
			feasible = feasible && lower
		case s.d[j] < -dualTol:
			s.atUpper[j] = upper
			feasible = feasible && upper
		case s.atUpper[j]:
			s.atUpper[j] = upper
		default:
			s.atUpper[j] = !lower && upper
		}
	}
	s.value()
	return feasible
}

// value recomputes the basic variables from the dictionary.
func (s *Solver) value() {
	s.standing = s.standing[:0]
	for j := range s.n {
		if x := s.at(j); x != 0 {
			s.standing = append(s.standing, standing{j, x})
		}
	}
	for i := range s.m {
		sum := 0.0
		t := s.t[i*s.n : (i+1)*s.n]
		for _, v := range s.standing {
			sum += t[v.at] * v.x
		}
		s.xb[i] = sum
	}
}

// standing is a non-basic position that is not zero.
type standing struct {
	at int
	x  float64
}

// pivot exchanges basic position r with non-basic position q.
func (s *Solver) pivot(r, q int) {
	n := s.n
	tr := s.t[r*n : (r+1)*n]
	inv := 1 / tr[q]
	for j := range tr {
		tr[j] *= -inv
	}
	tr[q] = inv
	for i := range s.m {
		if i == r {
			continue
		}
		ti := s.t[i*n : (i+1)*n : (i+1)*n]
		f := ti[q]
		if f == 0 {
			continue
		}
		ti[q] = 0
		for j, v := range tr[:len(ti)] {
			ti[j] += f * v
		}
	}
	if f := s.d[q]; f != 0 {
		s.d[q] = 0
		for j, v := range tr {
			s.d[j] += f * v
		}
	}
	s.basic[r], s.nonbasic[q] = s.nonbasic[q], s.basic[r]
	s.pivots++
}

// rebuild computes the dictionary of the current basis from the original rows by
// Gauss-Jordan with complete pivoting. Columns that turn out dependent leave the
// basis. The bounds that variables stand on are kept.
func (s *Solver) rebuild() {
	n := s.n
	upper := make([]bool, n+s.m)
	wantBasic := make([]bool, n+s.m)
	for j, v := range s.nonbasic {
		upper[v] = s.atUpper[j]
	}
	for _, v := range s.basic {
		wantBasic[v] = true
	}
	copy(s.t, s.a)
	for j := range n {
		s.nonbasic[j] = j
	}
	for i := range s.m {
		s.basic[i] = n + i
	}
	for {
		r, q, best := -1, -1, singularTol
		for i, v := range s.basic {
			if wantBasic[v] {
				continue
			}
			for j, w := range s.nonbasic {
				if wantBasic[w] && math.Abs(s.t[i*n+j]) > best {
					r, q, best = i, j, math.Abs(s.t[i*n+j])
				}
			}
		}
		if r < 0 {
			break
		}
		s.pivot(r, q)
	}
	for j, v := range s.nonbasic {
		s.atUpper[j] = upper[v]
	}
	s.pivots = 0
	s.price()
	s.value()
}
