package diet

import (
	"context"
	"math"
	"slices"

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

// AtMissed is a solution whose least add-on is that of all plans that miss no more than
// the given sum of limits: what whole steps miss on top of the exact amounts can save
// grams, and a bound must hold for what is printed.
func (p *Program) AtMissed(s *Solution, missed float64) (*Solution, error) {
	if missed == 0 || s.Violation > 0 && missed <= s.Violation+ViolationSliver {
		return s, nil
	}
	q := s.Problem
	q.Upper, q.Rows = slices.Clone(q.Upper), slices.Clone(q.Rows)
	at := len(p.Items)
	for _, r := range p.Rows {
		if r.Elastic {
			q.Upper[at] = lp.MostMissed(r.A, r.Lower, r.Size, func(j int) float64 { return q.Upper[j] })
			at++
		}
	}
	q.Rows[len(q.Rows)-1].Upper = missed * (1 + FeasibleTol)
	solver, err := lp.New(q)
	if err != nil {
		return nil, err
	}
	res := solver.Solve()
	if res.Status != lp.Optimal {
		return nil, &UnprovedError{p.Pet.Name, "least add-on of what is printed", res.Status}
	}
	out := *s
	out.LeastG, out.Duals, out.Problem = res.Objective, res.Duals, q
	return &out, nil
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
	res := p.atItsEnergy(solver, lp.Result{Status: lp.Optimal, X: out.X, Objective: out.LeastG})
	switch p.Prefer {
	case household.PreferCheapest:
		if res, err = p.cheapest(solver, q, res); err != nil {
			return nil, err
		}
	case household.PreferFewest:
		// What is met is chosen by what can be weighed (package weighing).
		if out.Violation > 0 {
			var leftOut []bool
			res, leftOut = p.fewest(solver, q, res)
			for j := range leftOut {
				if leftOut[j] {
					p.Items[j].Cap = 0
				}
			}
		}
	}
	out.Spent = p.Spent(res.X)
	within := p
	if p.Prefer != household.PreferCheapest && previous == nil {
		res = p.fewNearLeast(solver, q, res)
		within = p.Only(func(j int) bool { return res.X[j] > CleanGrain })
	}
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
	near := p.NearLeast()
	if previous != nil {
		near = max(near, nearInUse)
	}
	if y, ok := within.towardAims(out, near*out.Spent, previous); ok {
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
	if res.Status != lp.Optimal || lp.Residual(&q, res.X) > FeasibleTol || p.Spent(res.X) > nearInUse*p.Spent(all.X) {
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

// atItsEnergy goes on to the least add-on of a day that holds its energy exactly, where
// there is one: the slack of the energy is for what could not be met otherwise, and no
// share of a day's food that could be saved. The solver holds the program, res its answer.
func (p *Program) atItsEnergy(solver *lp.Solver, res lp.Result) lp.Result {
	row := p.Rows[0]
	solver.SetRow(0, p.EnergyLeft/row.Size, p.EnergyLeft/row.Size)
	if exact := solver.Solve(); exact.Status == lp.Optimal {
		return exact
	}
	solver.SetRow(0, row.Lower/row.Size, row.Upper/row.Size)
	return res
}

// NearLeast is how much over the least add-on a plan nearer its aims may be.
func (p *Program) NearLeast() float64 { return 1 + p.Kitchen.AimsShare }

// Only is the program with some of its add-ons and no others.
func (p *Program) Only(keep func(j int) bool) *Program {
	out := *p
	out.Items = slices.Clone(p.Items)
	for j := 1; j < len(out.Items); j++ {
		if !keep(j) {
			out.Items[j].Cap = 0
		}
	}
	return &out
}

// fewNearLeast takes out one add-on after the other for as long as what remains needs
// fewer of them and hardly more than the least: a vertex of the linear program may spread
// what one item brings over several. The solver holds the program, res its answer.
func (p *Program) fewNearLeast(solver *lp.Solver, q lp.Problem, res lp.Result) lp.Result {
	most := nearFew * p.Spent(res.X)
	for {
		used := p.used(res.X)
		best, without := lp.Result{}, -1
		for _, j := range used {
			solver.SetColumn(j, 0, 0)
			other := solver.Solve()
			solver.SetColumn(j, 0, q.Upper[j])
			if other.Status != lp.Optimal || p.Spent(other.X) > most {
				continue
			}
			fewer := len(p.used(other.X))
			if fewer < len(used) && (without < 0 || fewer < len(p.used(best.X)) || fewer == len(p.used(best.X)) && p.Spent(other.X) < p.Spent(best.X)) {
				best, without = other, j
			}
		}
		if without < 0 {
			return res
		}
		solver.SetColumn(without, 0, 0)
		res = best
	}
}

// used are the add-ons of which amounts hold any.
func (p *Program) used(x []float64) []int {
	var in []int
	for j := 1; j < len(p.Items); j++ {
		if x[j] > CleanGrain {
			in = append(in, j)
		}
	}
	return in
}
