package lsq

import (
	"math"
	"slices"
)

// distance is the least-distance problem: minimise |z| subject to m·z >= h, each
// m of length one.
type distance struct {
	n int
	m [][]float64
	h []float64

	z []float64
	// active are the constraints held with equality, u their multipliers. With
	// the normals of the active constraints as columns, N = Q R: basis holds Q,
	// completed to an orthogonal matrix, column by column, and r holds the
	// columns of R.
	active []int
	u      []float64
	basis  [][]float64
	r      [][]float64
	// blocked are constraints that the active ones contradict by less than
	// contradictTol.
	blocked map[int]bool
}

// add takes a constraint, scaled to length one. One that holds for all z is left
// out; one that holds for none is ErrInfeasible.
func (d *distance) add(m []float64, h float64) error {
	length := math.Sqrt(dot(m, m))
	if length == 0 {
		if h > violationTol {
			return ErrInfeasible
		}
		return nil
	}
	for i := range m {
		m[i] /= length
	}
	d.m, d.h = append(d.m, m), append(d.h, h/length)
	return nil
}

// solve runs the dual active-set method from z = 0.
func (d *distance) solve() ([]float64, error) {
	d.z = make([]float64, d.n)
	d.blocked = map[int]bool{}
	d.basis = make([][]float64, d.n)
	for k := range d.basis {
		d.basis[k] = make([]float64, d.n)
		d.basis[k][k] = 1
	}
	for range roundsPerRow*len(d.m) + 1 {
		p, miss := d.mostViolated()
		if p < 0 {
			return d.checked()
		}
		err := d.satisfy(p)
		if err == ErrInfeasible && miss <= contradictTol {
			d.blocked[p] = true
			d.refresh()
			continue
		}
		if err != nil {
			return nil, err
		}
	}
	return nil, ErrImprecise
}

// mostViolated returns the constraint missed by most and by how much, -1 for none.
// An active constraint that is missed is rounding and left to the final check.
func (d *distance) mostViolated() (p int, worst float64) {
	p, worst = -1, violationTol
	for i, m := range d.m {
		miss := d.miss(i, m)
		if miss <= worst || slices.Contains(d.active, i) || d.blocked[i] && miss <= contradictTol {
			continue
		}
		p, worst = i, miss
	}
	return p, worst
}

// miss is how far constraint i with normal m is missed, relative to its bound.
func (d *distance) miss(i int, m []float64) float64 {
	return (d.h[i] - dot(m, d.z)) / max(1, math.Abs(d.h[i]))
}

// satisfy moves z until constraint p holds, dropping active constraints whose
// multipliers reach zero on the way.
func (d *distance) satisfy(p int) error {
	normal := d.m[p]
	for range roundsPerRow*len(d.m) + 1 {
		q := len(d.active)
		along := make([]float64, d.n) // the normal in the basis
		for k, b := range d.basis {
			along[k] = dot(b, normal)
		}
		r := d.solveR(along[:q])
		drop, t1 := -1, math.Inf(1)
		for k := range d.active {
			if r[k] > dependentTol && d.u[k]/r[k] < t1 {
				drop, t1 = k, d.u[k]/r[k]
			}
		}
		t2 := math.Inf(1)
		free := dot(along[q:], along[q:]) // the squared length of the step's direction
		if free > dependentTol*dependentTol {
			t2 = max(0, d.h[p]-dot(normal, d.z)) / free
		}
		t := min(t1, t2)
		if math.IsInf(t, 1) {
			return ErrInfeasible
		}
		if !math.IsInf(t2, 1) {
			for k := q; k < d.n; k++ {
				for j := range d.z {
					d.z[j] += t * along[k] * d.basis[k][j]
				}
			}
		}
		for k := range d.u {
			d.u[k] = max(0, d.u[k]-t*r[k])
		}
		if t2 <= t1 {
			d.enter(p, along)
			d.refresh()
			return nil
		}
		d.leave(drop)
	}
	return ErrImprecise
}

// enter makes constraint p active; along is its normal in the basis. A Householder
// reflection of the free part of the basis turns the free part of the normal onto
// its first vector.
func (d *distance) enter(p int, along []float64) {
	q := len(d.active)
	free := slices.Clone(along[q:])
	length := math.Sqrt(dot(free, free))
	if free[0] > 0 {
		length = -length
	}
	free[0] -= length
	if square := dot(free, free); square > 0 {
		for j := range d.n {
			sum := 0.0
			for k, v := range free {
				sum += v * d.basis[q+k][j]
			}
			sum *= 2 / square
			for k, v := range free {
				d.basis[q+k][j] -= sum * v
			}
		}
	}
	d.r = append(d.r, append(slices.Clone(along[:q]), length))
	d.active, d.u = append(d.active, p), append(d.u, 0)
}

// leave drops the active constraint at place l; rotations of neighbouring basis
// vectors make R triangular again.
func (d *distance) leave(l int) {
	d.active, d.u, d.r = slices.Delete(d.active, l, l+1), slices.Delete(d.u, l, l+1), slices.Delete(d.r, l, l+1)
	for k := l; k < len(d.r); k++ {
		a, b := d.r[k][k], d.r[k][k+1]
		length := math.Hypot(a, b)
		c, s := a/length, b/length
		for _, column := range d.r[k:] {
			column[k], column[k+1] = c*column[k]+s*column[k+1], c*column[k+1]-s*column[k]
		}
		d.r[k] = d.r[k][:k+1]
		x, y := d.basis[k], d.basis[k+1]
		for j := range x {
			x[j], y[j] = c*x[j]+s*y[j], c*y[j]-s*x[j]
		}
	}
}

// solveR solves R x = y.
func (d *distance) solveR(y []float64) []float64 {
	x := slices.Clone(y)
	for k := len(x) - 1; k >= 0; k-- {
		x[k] /= d.r[k][k]
		for i := range k {
			x[i] -= d.r[k][i] * x[k]
		}
	}
	return x
}

// refresh recomputes z and the multipliers from the active constraints, because
// the updates of many steps drift: Rᵀ y = h, z = Q y, R u = y.
func (d *distance) refresh() {
	y := make([]float64, len(d.active))
	for k, a := range d.active {
		y[k] = (d.h[a] - dot(d.r[k][:k], y[:k])) / d.r[k][k]
	}
	clear(d.z)
	for k, v := range y {
		for j := range d.z {
			d.z[j] += v * d.basis[k][j]
		}
	}
	for k, u := range d.solveR(y) {
		d.u[k] = max(0, u)
	}
}

// checked returns z when it is feasible and the combination of the active normals
// with multipliers that are not negative.
func (d *distance) checked() ([]float64, error) {
	for i, m := range d.m {
		if d.miss(i, m) > contradictTol {
			return nil, ErrImprecise
		}
	}
	size := 1.0
	rest := slices.Clone(d.z)
	for k, a := range d.active {
		size = max(size, d.u[k])
		for j := range rest {
			rest[j] -= d.u[k] * d.m[a][j]
		}
		if -d.miss(a, d.m[a]) > optimalTol {
			return nil, ErrImprecise
		}
	}
	if math.Sqrt(dot(rest, rest)) > optimalTol*size {
		return nil, ErrImprecise
	}
	return d.z, nil
}
