package jar

import (
	"math"

	"bowlwright/optimize/lp"
)

// A jar in hand has fixed shares. In a pet's own units its days with that jar are a
// linear program, and so are their least grams.

// With returns the days of least grams with fixed shares of the same parts, each pet's
// rules kept; ok is false where some pet has none.
func (m *Mix) With(shares []float64) (out *Mix, ok bool) {
	q := m.problem
	if q.rules.OneRate {
		return q.atOneRate(shares)
	}
	x := make([]float64, len(q.lp.Cost))
	copy(x, shares)
	for k := range q.pets {
		if !q.alone(k, shares, x) {
			return nil, false
		}
	}
	out, err := q.mix(x)
	return out, err == nil
}

// alone finds the least grams of pet k with fixed shares, and puts its columns into x.
func (q *problem) alone(k int, shares, x []float64) bool {
	// The rows of a pet are homogeneous: times the dose, the shares make one column of
	// the dose and the column of s a constant.
	s := q.doses[k]
	var columns []int
	seen := make([]bool, len(x))
	var rows []int
	for i := range q.lp.Rows {
		if q.of[i] != k {
			continue
		}
		rows = append(rows, i)
		for j := len(q.powders); j < len(x); j++ {
			if q.lp.Rows[i].A[j] != 0 && j != s && !seen[j] {
				seen[j] = true
				columns = append(columns, j)
			}
		}
	}
	n := 1 + len(columns)
	p := lp.Problem{Cost: make([]float64, n), Lower: make([]float64, n), Upper: make([]float64, n)}
	p.Cost[0], p.Lower[0], p.Upper[0] = 1, 1/mostDoses, 1/leastDoses
	grams := make([]float64, len(x))
	q.grams(grams, k, 1)
	for at, j := range columns {
		p.Cost[1+at], p.Upper[1+at] = grams[j], math.Inf(1)
		if q.lp.Upper[j] == 0 {
			p.Upper[1+at] = 0
		}
	}
	for _, i := range rows {
		r := q.lp.Rows[i]
		a := make([]float64, n)
		for part, share := range shares {
			a[0] += r.A[part] * share
		}
		lower, upper := r.Lower, r.Upper
		if upper == -1 {
			a[0]++
			upper = 0
		}
		for at, j := range columns {
			a[1+at] = r.A[j]
		}
		p.Rows = append(p.Rows, lp.Row{A: a, Lower: lower - r.A[s], Upper: upper - r.A[s]})
	}
	solver, err := lp.New(p)
	if err != nil {
		return false
	}
	res := solver.Solve()
	if res.Status != lp.Optimal {
		return false
	}
	dose := res.X[0]
	x[s] = 1 / dose
	for at, j := range columns {
		x[j] = res.X[1+at] / dose
	}
	return true
}

// atOneRate is With where the pets share a rate to the base.
func (q *problem) atOneRate(shares []float64) (*Mix, bool) {
	fixed := formulate(q.pets, q.rules)
	for k, share := range shares {
		fixed.lp.Lower[k], fixed.lp.Upper[k] = share, share
	}
	solver, x, err := fixed.first()
	if err != nil {
		return nil, false
	}
	out, err := fixed.mix(fixed.descend(solver, x))
	return out, err == nil
}
