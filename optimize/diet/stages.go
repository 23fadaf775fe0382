package diet

import (
	"context"
	"math"

	"bowlwright/household"
	"bowlwright/optimize/lp"
)

// Solution is what the stages found, in grams for each item.
type Solution struct {
	// Violation is the least sum of missed limits, each in units of its limit.
	Violation float64
	Slack     []float64 // for each row
	LeastG    float64   // grams of add-on
	Spent     float64   // the least that the preference asks for
	Previous  []float64 // the plan in use, nil unless the new one is to be close to it
	X         []float64 // least squares' amounts
	Duals     []float64 // of the rows, for the least add-on
	// ViolationDuals are those of the rows for the least violation.
	ViolationDuals []float64
	Problem        lp.Problem
	// Farkas is set instead of everything else when nothing keeps the hard rows.
	Farkas []float64
}

// Elastic is the program as lp wants it: rows in units of their limit, one slack
// column for each elastic row, and a last row that sums the slacks.
func (p *Program) Elastic() lp.Problem {
	n, k := len(p.Items), 0
	for _, r := range p.Rows {
		if r.Elastic {
			k++
		}
	}
	q := lp.Problem{Cost: make([]float64, n+k), Lower: make([]float64, n+k), Upper: make([]float64, n+k)}
	for j := range p.Items {
		q.Upper[j] = p.Items[j].Cap
	}
	sum := lp.Row{A: make([]float64, n+k), Lower: math.Inf(-1), Upper: math.Inf(1)}
	at := n
	for _, r := range p.Rows {
		out := lp.Row{A: make([]float64, n+k), Lower: r.Lower / r.Size, Upper: r.Upper / r.Size}
		for j := range p.Items {
			out.A[j] = r.A[j] / r.Size
		}
		if r.Elastic {
			out.A[at], sum.A[at] = 1, 1
			q.Cost[at], q.Upper[at] = 1, lp.MostMissed(r.A, r.Lower, r.Size, func(j int) float64 { return p.Items[j].Cap })
			at++
		}
		q.Rows = append(q.Rows, out)
	}
	q.Rows = append(q.Rows, sum)
	return q
}

// An UnprovedError says that the solver found no answer that passes its check.
type UnprovedError struct {
	Pet, Stage string
	Status     lp.Status
}

func (e *UnprovedError) Error() string {
	return "no verified answer for " + e.Pet + " (" + e.Stage + ": " + e.Status.String() + ")"
}

// LeastAddon runs the linear programs: the least violation and, at that, the least
// add-on. The answer's amounts are those of the second; the solver holds its program.
func (p *Program) LeastAddon() (*Solution, *lp.Solver, error) {
	n := len(p.Items)
	q := p.Elastic()
	solver, err := lp.New(q)
	if err != nil {
		return nil, nil, err
	}
	res := solver.Solve()
	switch res.Status {
	case lp.Optimal:
	case lp.Infeasible:
		return &Solution{Farkas: res.Farkas, Problem: q}, solver, nil
	default:
		return nil, nil, &UnprovedError{p.Pet.Name, "least violation", res.Status}
	}
	out := &Solution{Violation: res.Objective, ViolationDuals: res.Duals}
	last := len(q.Rows) - 1
	if out.Violation <= FeasibleTol {
		out.Violation = 0
		for j := n; j < len(q.Cost); j++ {
			q.Upper[j] = max(0, res.X[j])
			solver.SetColumn(j, 0, q.Upper[j])
		}
	} else {
		q.Rows[last].Upper = out.Violation + ViolationSliver
		solver.SetRow(last, math.Inf(-1), q.Rows[last].Upper)
	}
	q.Cost = make([]float64, len(q.Cost))
	for j := 1; j < n; j++ {
		q.Cost[j] = 1
	}
	solver.SetCost(q.Cost)
	res = solver.Solve()
	if res.Status != lp.Optimal {
		return nil, nil, &UnprovedError{p.Pet.Name, "least add-on", res.Status}
	}
	out.LeastG, out.Duals, out.Problem, out.X = res.Objective, res.Duals, q, res.X
	return out, solver, nil
}

// Solve runs the linear programs and the least squares.
func (p *Program) Solve(ctx context.Context, previous []float64) (*Solution, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	out, solver, err := p.LeastAddon()
	if err != nil || out.Farkas != nil {
		return out, err
	}
	n, q := len(p.Items), out.Problem
	res := lp.Result{Status: lp.Optimal, X: out.X, Objective: out.LeastG}
	switch p.Prefer {
	case household.PreferCheapest:
		if res, err = p.cheapest(solver, q, res); err != nil {
			return nil, err
		}
	case household.PreferFewest:
		var leftOut []bool
		res, leftOut = p.fewest(solver, q, res)
		for j := range leftOut {
			if leftOut[j] {
				p.Items[j].Cap = 0
			}
		}
	}
	out.Spent = p.Spent(res.X)
	if previous != nil {
		out.Previous = previous
		res = p.sameItems(solver, q, res, previous)
	}
	out.Slack = make([]float64, len(p.Rows))
	at := n
	for i, r := range p.Rows {
		if r.Elastic {
			if out.Violation > 0 {
				out.Slack[i] = res.X[at]
			}
			at++
		}
	}
	out.X = res.X[:n:n]
	if y, ok := p.towardAims(out, NearLeast*out.Spent, previous); ok {
		out.X = y
	}
	return out, nil
}

// sameItems shuts out the add-ons that the plan in use does without, where the others
// reach as much with little more add-on: nearness of the amounts alone would add a
// pinch of everything.
func (p *Program) sameItems(solver *lp.Solver, q lp.Problem, all lp.Result, previous []float64) lp.Result {
	for j := 1; j < len(p.Items); j++ {
		if previous[j] <= 0 {
			solver.SetColumn(j, 0, 0)
		}
	}
	res := solver.Solve()
	if res.Status != lp.Optimal || lp.Residual(&q, res.X) > FeasibleTol || p.Spent(res.X) > NearLeast*p.Spent(all.X) {
		return all
	}
	for j := 1; j < len(p.Items); j++ {
		if previous[j] <= 0 {
			p.Items[j].Cap = 0
		}
	}
	return res
}

// cheapest goes on to the least price. An item without a price counts as dear as
// the dearest, so that not knowing a price is no advantage.
func (p *Program) cheapest(solver *lp.Solver, q lp.Problem, res lp.Result) (lp.Result, error) {
	dearest := 0.0
	for _, x := range p.Items[1:] {
		dearest = max(dearest, x.Addon.PricePerG)
	}
	if dearest == 0 {
		p.Notes = append(p.Notes, "no add-on has a price, so this is the plan with the least add-on")
		return res, nil
	}
	for j, x := range p.Items {
		if j == 0 {
			continue
		}
		p.Counts[j] = x.Addon.PricePerG / dearest
		if p.Counts[j] == 0 {
			p.Counts[j] = 1
			p.Notes = append(p.Notes, "the price of "+x.Name+" is not known; it is counted as the most expensive")
		}
	}
	cost := make([]float64, len(q.Cost))
	copy(cost, p.Counts)
	solver.SetCost(cost)
	cheap := solver.Solve()
	if cheap.Status != lp.Optimal {
		return cheap, &UnprovedError{p.Pet.Name, "least price", cheap.Status}
	}
	return cheap, nil
}

// AmountsOf reads the grams of a plan in the order of the items, nil unless the
// pet prefers to stay close to it.
func (p *Program) AmountsOf(previous *household.Plan) []float64 {
	if previous == nil || p.Prefer != household.PreferClosest || !previous.Pet.Status.Printable() {
		return nil
	}
	x := make([]float64, len(p.Items))
	x[0] = previous.Pet.BaseG
	for j := 1; j < len(p.Items); j++ {
		for _, a := range previous.Pet.Addons {
			if a.Food == p.Items[j].Id {
				x[j] = a.G
			}
		}
	}
	return x
}
