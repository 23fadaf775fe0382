package jar

import (
	"math"

	"bowlwright/optimize/lp"
)

// ownLeast is the least grams of add-on of a pet alone within its budget of misses:
// Least, and less where more may be missed.
func (p Pet) ownLeast(more float64) float64 {
	if p.Missed <= notMissed || more == 0 {
		return p.Least
	}
	n := len(p.Items)
	q := lp.Problem{}
	for j, x := range p.Items {
		cost := 1.0
		if j == 0 {
			cost = 0
		}
		q.Cost, q.Lower, q.Upper = append(q.Cost, cost), append(q.Lower, 0), append(q.Upper, x.Cap)
	}
	elastic := 0
	for _, r := range p.Rows {
		if r.Elastic {
			elastic++
		}
	}
	q.Cost = append(q.Cost, make([]float64, elastic)...)
	q.Lower = append(q.Lower, make([]float64, elastic)...)
	for range elastic {
		q.Upper = append(q.Upper, p.budget(more))
	}
	budget := lp.Row{A: make([]float64, len(q.Cost)), Lower: math.Inf(-1), Upper: p.budget(more)}
	at := n
	for _, r := range p.Rows {
		a := make([]float64, len(q.Cost))
		for j, v := range r.A {
			a[j] = v / r.Size
		}
		if r.Elastic {
			a[at], budget.A[at] = 1, 1
			at++
		}
		q.Rows = append(q.Rows, lp.Row{A: a, Lower: r.Lower / r.Size, Upper: r.Upper / r.Size})
	}
	q.Rows = append(q.Rows, budget)
	solver, err := lp.New(q)
	if err != nil {
		return 0
	}
	res := solver.Solve()
	if res.Status != lp.Optimal {
		return 0
	}
	return res.Objective
}
