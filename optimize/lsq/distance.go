package lsq

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// distance is the least-distance problem: minimise |z| subject to m·z >= h, each
// m of length one.
type distance struct {
	n int
	m [][]float64
	h []float64

	z      []float64
	active []int
	u      []float64
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
	for range roundsPerRow*len(d.m) + 1 {
		p := d.mostViolated()
		if p < 0 {
			return d.checked()
		}
		if err := d.satisfy(p); err != nil {
			return nil, err
		}
	}
	return nil, ErrImprecise
}

// mostViolated returns the constraint missed by most, -1 for none. An active
// constraint that is missed is rounding and left to the final check.
func (d *distance) mostViolated() int {
	p, worst := -1, violationTol
	for i, m := range d.m {
		miss := (d.h[i] - dot(m, d.z)) / max(1, math.Abs(d.h[i]))
		if miss > worst && !d.isActive(i) {
			p, worst = i, miss
		}
	}
	return p
}

func (d *distance) isActive(i int) bool {
	for _, a := range d.active {
		if a == i {
			return true
		}
	}
	return false
}

// satisfy moves z until constraint p holds, dropping active constraints whose
// multipliers reach zero on the way.
func (d *distance) satisfy(p int) error {
	up := 0.0
	for range roundsPerRow*len(d.m) + 1 {
		normal := d.m[p]
		r := d.project(normal)
		step := append([]float64(nil), normal...)
		for k, a := range d.active {
			for j := range step {
				step[j] -= r[k] * d.m[a][j]
			}
		}
		drop, t1 := -1, math.Inf(1)
		for k := range d.active {
			if r[k] > dependentTol && d.u[k]/r[k] < t1 {
				drop, t1 = k, d.u[k]/r[k]
			}
		}
		t2 := math.Inf(1)
		if length := math.Sqrt(dot(step, step)); length > dependentTol && len(d.active) < d.n {
			t2 = (d.h[p] - dot(normal, d.z)) / dot(step, normal)
		}
		t := min(t1, t2)
		if math.IsInf(t, 1) {
			return ErrInfeasible
		}
		if !math.IsInf(t2, 1) {
			for j := range d.z {
				d.z[j] += t * step[j]
			}
		}
		for k := range d.u {
			d.u[k] = max(0, d.u[k]-t*r[k])
		}
		up += t
		if t2 <= t1 {
			d.active, d.u = append(d.active, p), append(d.u, up)
			d.refresh()
			return nil
		}
		d.active = append(d.active[:drop], d.active[drop+1:]...)
		d.u = append(d.u[:drop], d.u[drop+1:]...)
	}
	return ErrImprecise
}

// project returns the least-squares coefficients of v in the active normals.
func (d *distance) project(v []float64) []float64 {
	k := len(d.active)
	if k == 0 {
		return nil
	}
	a := mat.NewDense(d.n, k, nil)
	for j, i := range d.active {
		a.SetCol(j, d.m[i])
	}
	var qr mat.QR
	qr.Factorize(a)
	var x mat.VecDense
	// A condition error still comes with an answer; the final check judges it.
	_ = qr.SolveVecTo(&x, false, mat.NewVecDense(d.n, append([]float64(nil), v...)))
	return append([]float64(nil), x.RawVector().Data...)
}

// refresh recomputes the multipliers from the active normals, because z is their
// combination: the updates of many steps drift.
func (d *distance) refresh() {
	for k, u := range d.project(d.z) {
		d.u[k] = max(0, u)
	}
}

// checked returns z when it is feasible and the combination of the active normals
// with multipliers that are not negative.
func (d *distance) checked() ([]float64, error) {
	size := 1.0
	rest := append([]float64(nil), d.z...)
	for k, a := range d.active {
		size = max(size, d.u[k])
		for j := range rest {
			rest[j] -= d.u[k] * d.m[a][j]
		}
		if miss := math.Abs(d.h[a] - dot(d.m[a], d.z)); miss > optimalTol*max(1, math.Abs(d.h[a])) {
			return nil, ErrImprecise
		}
	}
	if math.Sqrt(dot(rest, rest)) > optimalTol*size {
		return nil, ErrImprecise
	}
	return d.z, nil
}
