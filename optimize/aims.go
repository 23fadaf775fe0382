package optimize

import (
	"math"

	"bowlwright/optimize/lsq"
)

// towardAims returns, among the plans with at most the given grams of add-on, the
// one nearest to the aims by least squares, each deviation relative to its aim;
// with a previous plan, nearest to that as well. The base follows from the energy.
func (p *program) towardAims(s *staged, most float64, previous []float64) ([]float64, bool) {
	n := len(p.items)
	kcal, energy := p.rows[0].a, p.rows[0].upper
	if n < 2 || kcal[0] <= 0 {
		return nil, false
	}
	// In terms of the add-ons alone a sum over all items is a0 b + Σ a_j x_j with
	// b = (energy - Σ kcal_j x_j) / kcal_0.
	reduce := func(a []float64) (g []float64, constant float64) {
		g = make([]float64, n-1)
		for j := 1; j < n; j++ {
			g[j-1] = a[j] - a[0]*kcal[j]/kcal[0]
		}
		return g, a[0] * energy / kcal[0]
	}
	q := lsq.Problem{}
	at := func(a []float64) float64 {
		sum := 0.0
		for j := range a {
			sum += a[j] * s.x[j]
		}
		return sum
	}
	for _, l := range p.targets.Limits {
		if l.Aim == nil || *l.Aim <= 0 {
			continue
		}
		a := make([]float64, n)
		for j := range a {
			a[j] = p.items[j].per[l.Nutrient].Lo
		}
		fixed := p.extras[l.Nutrient].Lo
		w := 1 / max(*l.Aim, at(a)+fixed)
		e, c := reduce(a)
		for j := range e {
			e[j] *= w
		}
		q.E, q.F = append(q.E, e), append(q.F, w*(*l.Aim-fixed-c))
	}
	for j := 1; j < n; j++ {
		unit := make([]float64, n-1)
		size := max(min(p.items[j].cap, most), integralTol)
		unit[j-1] = ridge / size
		q.E, q.F = append(q.E, unit), append(q.F, 0)
		if previous != nil {
			near := make([]float64, n-1)
			near[j-1] = 1 / max(previous[j], s.x[j], size/100)
			q.E, q.F = append(q.E, near), append(q.F, near[j-1]*previous[j])
		}
	}
	atLeast := func(a []float64, lower, size float64) {
		g, c := reduce(a)
		for j := range g {
			g[j] /= size
		}
		q.G, q.H = append(q.G, g), append(q.H, (lower-c)/size-razorTol)
	}
	for i, r := range p.rows {
		if i == 0 {
			continue
		}
		if !math.IsInf(r.lower, 0) {
			atLeast(r.a, r.lower-s.slack[i]*r.size, r.size)
		}
		if !math.IsInf(r.upper, 0) {
			atLeast(negative(r.a), -r.upper, r.size)
		}
	}
	total := make([]float64, n)
	for j := range total {
		unit := make([]float64, n)
		unit[j] = 1
		size := max(min(p.items[j].cap, energy/kcal[0]), integralTol)
		atLeast(unit, 0, size)
		if j > 0 {
			atLeast(negative(unit), -p.items[j].cap, size)
			total[j] = -1
		}
	}
	atLeast(total, -most, max(most, integralTol))
	scale := evenColumns(q)
	y, err := lsq.Solve(q)
	if err != nil {
		return nil, false
	}
	x := make([]float64, n)
	left := energy
	for j := 1; j < n; j++ {
		x[j] = min(max(0, y[j-1]*scale[j-1]), p.items[j].cap)
		if x[j] < cleanGrain {
			x[j] = 0
		}
		left -= kcal[j] * x[j]
	}
	x[0] = max(0, left/kcal[0])
	return x, true
}

func negative(a []float64) []float64 {
	out := make([]float64, len(a))
	for j := range a {
		out[j] = -a[j]
	}
	return out
}

// evenColumns scales the columns of a problem to a largest entry of one: a gram of
// a pure vitamin and a gram of mussel differ by many powers of ten.
func evenColumns(q lsq.Problem) []float64 {
	scale := make([]float64, len(q.E[0]))
	for j := range scale {
		largest := 0.0
		for _, rows := range [][][]float64{q.E, q.G} {
			for _, r := range rows {
				largest = max(largest, math.Abs(r[j]))
			}
		}
		scale[j] = 1
		if largest > 0 {
			scale[j] = 1 / largest
		}
		for _, rows := range [][][]float64{q.E, q.G} {
			for _, r := range rows {
				r[j] *= scale[j]
			}
		}
	}
	return scale
}
