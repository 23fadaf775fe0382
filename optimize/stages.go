package optimize

import (
	"context"
	"math"

	"bowlwright/household"
	"bowlwright/optimize/lp"
)

// staged is what the stages found, in grams for each item.
type staged struct {
	// violation is the least sum of missed limits, each in units of its limit.
	violation float64
	slack     []float64 // for each row
	least     float64   // grams of add-on
	spent     float64   // the least that the preference asks for
	previous  []float64 // the plan in use, nil unless the new one is to be close to it
	x         []float64 // least squares' amounts
	duals     []float64 // of the rows, for the least add-on
	// violationDuals are those of the rows for the least violation.
	violationDuals []float64
	problem        lp.Problem
	// farkas is set instead of everything else when nothing keeps the hard rows.
	farkas []float64
}

// elastic is the program as lp wants it: rows in units of their limit, one slack
// column for each elastic row, and a last row that sums the slacks.
func (p *program) elastic() lp.Problem {
	n, k := len(p.items), 0
	for _, r := range p.rows {
		if r.elastic {
			k++
		}
	}
	q := lp.Problem{Cost: make([]float64, n+k), Lower: make([]float64, n+k), Upper: make([]float64, n+k)}
	for j := range p.items {
		q.Upper[j] = p.items[j].cap
	}
	sum := lp.Row{A: make([]float64, n+k), Lower: math.Inf(-1), Upper: math.Inf(1)}
	at := n
	for _, r := range p.rows {
		out := lp.Row{A: make([]float64, n+k), Lower: r.lower / r.size, Upper: r.upper / r.size}
		for j := range p.items {
			out.A[j] = r.a[j] / r.size
		}
		if r.elastic {
			out.A[at], sum.A[at] = 1, 1
			q.Cost[at], q.Upper[at] = 1, lp.MostMissed(r.a, r.lower, r.size, func(j int) float64 { return p.items[j].cap })
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

// leastAddon runs the linear programs: the least violation and, at that, the least
// add-on. The answer's amounts are those of the second; the solver holds its program.
func (p *program) leastAddon() (*staged, *lp.Solver, error) {
	n := len(p.items)
	q := p.elastic()
	solver, err := lp.New(q)
	if err != nil {
		return nil, nil, err
	}
	res := solver.Solve()
	switch res.Status {
	case lp.Optimal:
	case lp.Infeasible:
		return &staged{farkas: res.Farkas, problem: q}, solver, nil
	default:
		return nil, nil, &UnprovedError{p.pet.Name, "least violation", res.Status}
	}
	out := &staged{violation: res.Objective, violationDuals: res.Duals}
	last := len(q.Rows) - 1
	if out.violation <= feasibleTol {
		out.violation = 0
		for j := n; j < len(q.Cost); j++ {
			q.Upper[j] = max(0, res.X[j])
			solver.SetColumn(j, 0, q.Upper[j])
		}
	} else {
		q.Rows[last].Upper = out.violation + violationSliver
		solver.SetRow(last, math.Inf(-1), q.Rows[last].Upper)
	}
	q.Cost = make([]float64, len(q.Cost))
	for j := 1; j < n; j++ {
		q.Cost[j] = 1
	}
	solver.SetCost(q.Cost)
	res = solver.Solve()
	if res.Status != lp.Optimal {
		return nil, nil, &UnprovedError{p.pet.Name, "least add-on", res.Status}
	}
	out.least, out.duals, out.problem, out.x = res.Objective, res.Duals, q, res.X
	return out, solver, nil
}

// stages runs the linear programs and the least squares.
func (p *program) stages(ctx context.Context, previous []float64) (*staged, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	out, solver, err := p.leastAddon()
	if err != nil || out.farkas != nil {
		return out, err
	}
	n, q := len(p.items), out.problem
	res := lp.Result{Status: lp.Optimal, X: out.x, Objective: out.least}
	switch p.prefer {
	case "cheapest":
		if res, err = p.cheapest(solver, q, res); err != nil {
			return nil, err
		}
	case "fewest":
		var leftOut []bool
		res, leftOut = p.fewest(solver, q, res)
		for j := range leftOut {
			if leftOut[j] {
				p.items[j].cap = 0
			}
		}
	}
	out.spent = p.spent(res.X)
	if previous != nil {
		out.previous = previous
		res = p.sameItems(solver, q, res, previous)
	}
	out.slack = make([]float64, len(p.rows))
	at := n
	for i, r := range p.rows {
		if r.elastic {
			if out.violation > 0 {
				out.slack[i] = res.X[at]
			}
			at++
		}
	}
	out.x = res.X[:n:n]
	if y, ok := p.towardAims(out, nearLeast*out.spent, previous); ok {
		out.x = y
	}
	return out, nil
}

// sameItems shuts out the add-ons that the plan in use does without, where the others
// reach as much with little more add-on: nearness of the amounts alone would add a
// pinch of everything.
func (p *program) sameItems(solver *lp.Solver, q lp.Problem, all lp.Result, previous []float64) lp.Result {
	for j := 1; j < len(p.items); j++ {
		if previous[j] <= 0 {
			solver.SetColumn(j, 0, 0)
		}
	}
	res := solver.Solve()
	if res.Status != lp.Optimal || lp.Residual(&q, res.X) > feasibleTol || p.spent(res.X) > nearLeast*p.spent(all.X) {
		return all
	}
	for j := 1; j < len(p.items); j++ {
		if previous[j] <= 0 {
			p.items[j].cap = 0
		}
	}
	return res
}

// cheapest goes on to the least price. An item without a price counts as dear as
// the dearest, so that not knowing a price is no advantage.
func (p *program) cheapest(solver *lp.Solver, q lp.Problem, res lp.Result) (lp.Result, error) {
	dearest := 0.0
	for _, x := range p.items[1:] {
		dearest = max(dearest, x.addon.PricePerG)
	}
	if dearest == 0 {
		p.notes = append(p.notes, "no add-on has a price, so the cheapest plan is the one with the least add-on")
		return res, nil
	}
	for j, x := range p.items {
		if j == 0 {
			continue
		}
		p.spends[j] = x.addon.PricePerG / dearest
		if p.spends[j] == 0 {
			p.spends[j] = 1
			p.notes = append(p.notes, "the price of "+x.name+" is not known; it counts as much as the dearest")
		}
	}
	cost := make([]float64, len(q.Cost))
	copy(cost, p.spends)
	solver.SetCost(cost)
	cheap := solver.Solve()
	if cheap.Status != lp.Optimal {
		return cheap, &UnprovedError{p.pet.Name, "least price", cheap.Status}
	}
	return cheap, nil
}

// amountsOf reads the grams of a plan in the order of the items, nil unless the
// pet prefers to stay close to it.
func (p *program) amountsOf(previous *household.Plan) []float64 {
	if previous == nil || p.prefer != "closest" || !previous.Pet.Status.Printable() {
		return nil
	}
	x := make([]float64, len(p.items))
	x[0] = previous.Pet.BaseG
	for j := 1; j < len(p.items); j++ {
		for _, a := range previous.Pet.Addons {
			if a.Food == p.items[j].id {
				x[j] = a.G
			}
		}
	}
	return x
}
