package diet

import (
	"math"

	"bowlwright/optimize/lsq"
)

// reduced states sums over the items in terms of the add-ons and of the energy that the
// day is over its target, in units of its slack: with b = (energy + slack e - Σ kcal_j x_j)
// / kcal_0 grams of base, Σ a_j x_j is g·(x, e) + constant. The last column is e.
func (p *Program) reduced(a []float64) (g []float64, constant float64) {
	kcal := p.Rows[0].A
	g = make([]float64, len(p.Items))
	for j := range len(p.Items) - 1 {
		g[j] = a[j+1] - a[0]*kcal[j+1]/kcal[0]
	}
	g[len(g)-1] = a[0] * p.EnergySlack / kcal[0]
	return g, a[0] * p.EnergyLeft / kcal[0]
}

// aimsProblem states the least squares over the plans that spend at most the given amount
// on add-ons, in what the preference counts: each deviation relative to its aim;
// with a previous plan, near to that as well.
func (p *Program) aimsProblem(s *Solution, most float64, previous []float64) lsq.Problem {
	n := len(p.Items)
	q := lsq.Problem{}
	effect := make([]float64, n-1) // of a gram, on the aim that it moves most
	for _, l := range p.Targets.Limits {
		if l.Aim == nil || *l.Aim <= 0 {
			continue
		}
		a := make([]float64, n)
		for j := range a {
			a[j] = p.Items[j].Per[l.Nutrient].Lo
		}
		fixed := p.extras[l.Nutrient].Lo
		e, c := p.reduced(a)
		// Where the base alone brings more than the aim, that is the measure. It is
		// no matter of which plan was found first.
		w := 1 / max(*l.Aim, fixed+c)
		for j := range e {
			e[j] *= w
		}
		for j := range effect {
			effect[j] = max(effect[j], math.Abs(e[j]))
		}
		q.E, q.F = append(q.E, e), append(q.F, w*(*l.Aim-fixed-c))
	}
	pull := func(column int, weight, toward float64) {
		e := make([]float64, n)
		e[column] = weight
		q.E, q.F = append(q.E, e), append(q.F, weight*toward)
	}
	for j := range n - 1 {
		size := max(min(p.Items[j+1].Cap, most/p.Counts[j+1]), leastSize)
		pull(j, ridge*max(effect[j], 1/size), 0)
		if previous != nil {
			pull(j, 1/max(previous[j+1], size/100), previous[j+1])
		}
	}
	pull(n-1, energyPull, 0)
	p.aimsLimits(&q, s, most)
	return q
}

// aimsLimits puts the limits of the program, caps and the most that may be spent into the
// least squares.
func (p *Program) aimsLimits(q *lsq.Problem, s *Solution, most float64) {
	n := len(p.Items)
	atLeast := func(a []float64, lower, size float64) {
		g, c := p.reduced(a)
		for j := range g {
			g[j] /= size
		}
		q.G, q.H = append(q.G, g), append(q.H, (lower-c)/size-razorTol)
	}
	for i, r := range p.Rows {
		if i == 0 {
			continue
		}
		if !math.IsInf(r.Lower, 0) {
			atLeast(r.A, r.Lower-s.Slack[i]*r.Size, r.Size)
		}
		if !math.IsInf(r.Upper, 0) {
			atLeast(negative(r.A), -r.Upper, r.Size)
		}
	}
	for _, sign := range []float64{1, -1} {
		slack := make([]float64, n)
		slack[n-1] = sign
		q.G, q.H = append(q.G, slack), append(q.H, -1)
	}
	total := make([]float64, n)
	for j := range total {
		unit := make([]float64, n)
		unit[j] = 1
		size := max(min(p.Items[j].Cap, p.EnergyLeft/p.Rows[0].A[0]), leastSize)
		if j == 0 {
			atLeast(unit, 0, size)
		} else {
			// Exactly, for what is a hair under nothing here is nothing in the end, and
			// all of that together would be spent on top of the most.
			atLeast(unit, razorTol*size, size)
			atLeast(negative(unit), -p.Items[j].Cap, size)
			total[j] = -p.Counts[j]
		}
	}
	atLeast(total, -most, max(most, leastSize))
}

// towardAims returns, among the plans that spend at most the given amount on add-ons,
// the one nearest to the aims by least squares. The base follows from the energy.
func (p *Program) towardAims(s *Solution, most float64, previous []float64) ([]float64, bool) {
	n := len(p.Items)
	kcal, left := p.Rows[0].A, p.EnergyLeft
	if n < 2 || kcal[0] <= 0 {
		return nil, false
	}
	q := p.aimsProblem(s, most, previous)
	scale := evenColumns(q)
	y, err := lsq.Solve(q)
	if err != nil {
		return nil, false
	}
	x := make([]float64, n)
	for j := 1; j < n; j++ {
		x[j] = min(max(0, y[j-1]*scale[j-1]), p.Items[j].Cap)
		if x[j] < CleanGrain {
			x[j] = 0
		}
		left -= kcal[j] * x[j]
	}
	left += p.EnergySlack * min(max(-1, y[n-1]*scale[n-1]), 1)
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
