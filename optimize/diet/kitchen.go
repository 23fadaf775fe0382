package diet

import (
	"math"
	"slices"

	"bowlwright/nutrients"
	"bowlwright/optimize/lp"
)

// overRoom is by how much more than the least an add-on may go over its cap: the last
// tenth of a gram less of yeast would cost nine grams of mussels.
const overRoom = 0.25

// kitchenCapG is what the kitchen gives of an add-on in a day: infinite where the
// household says how much itself, or where the food has no cap. A cap under one step is
// one step.
func (p *Program) kitchenCapG(x *Item) float64 {
	if x.Addon == nil || x.Addon.MaxG > 0 || x.Addon.MaxGPerKg > 0 {
		return math.Inf(1)
	}
	c, ok := nutrients.KitchenCapOf(x.Addon.Food)
	if !ok {
		return math.Inf(1)
	}
	return max(c.GramsPerKg75*math.Pow(p.Targets.Energy.IdealKg, kitchenExponent), x.Addon.StepG)
}

// kitchenExponent is that of the caps, the same for both species.
const kitchenExponent = 0.75

// keepKitchen lowers the caps to what a kitchen gives. It is a stage of its own, between
// the least that is missed and the least add-on: where as little is missed within the
// kitchen's caps they hold, and where not the least is added to them, each in shares of
// its own, that reaches what is reached without them. As rows of the program they would
// leave pets short that a spoonful more would feed.
func (p *Program) keepKitchen() {
	p.OverKitchen = 0
	wide := make([]float64, len(p.Items))
	any := false
	for j := range p.Items {
		x := &p.Items[j]
		wide[j] = x.Cap
		x.Kitchen = math.Inf(1)
		if j > 0 {
			x.Kitchen = p.kitchenCapG(x)
		}
		if x.Kitchen < x.Cap {
			x.Cap, any = x.Kitchen, true
		}
	}
	if !any {
		return
	}
	within, ok := p.leastMissed()
	if ok && within <= FeasibleTol {
		return
	}
	for j := range p.Items {
		p.Items[j].Cap = wide[j]
	}
	least, reached := p.leastMissed()
	if ok && (!reached || within <= least+ViolationSliver) {
		reached = false
	}
	var over []float64
	if reached {
		if over, p.OverKitchen = p.leastOver(least); over == nil {
			return
		}
	}
	for j := range p.Items {
		x := &p.Items[j]
		if x.Kitchen < wide[j] {
			x.Cap = x.Kitchen
			if over != nil {
				x.Cap = min(wide[j], x.Kitchen+over[j]*(1+overRoom))
			}
		}
	}
}

// MayGoOver is how far the caps let the add-ons go over those of the kitchen, summed in
// shares of each.
func (p *Program) MayGoOver() float64 {
	sum := 0.0
	for _, x := range p.Items[1:] {
		if x.Cap > x.Kitchen {
			sum += x.Cap/x.Kitchen - 1
		}
	}
	return sum
}

// TimesKitchen are the multiples of the kitchen's caps that are tried, in this order,
// where whole steps of the scales miss more within them than exact amounts do.
var TimesKitchen = [...]float64{1.5, 3, math.Inf(1)}

// BeyondKitchen is the program with so many times what a kitchen gives; nil where no cap
// of the kitchen holds an add-on back.
func (p *Program) BeyondKitchen(times float64) *Program {
	out := *p
	out.Items, out.Counts, out.Notes = slices.Clone(p.Items), slices.Clone(p.Counts), slices.Clone(p.Notes)
	out.hardCaps()
	held := false
	for j := range out.Items {
		x := &out.Items[j]
		held = held || p.Items[j].Cap < x.Cap && x.Kitchen < x.Cap
		x.Cap = min(x.Cap, max(p.Items[j].Cap, times*x.Kitchen))
	}
	if !held {
		return nil
	}
	return &out
}

// leastMissed is the least violation with the caps as they are; not ok where nothing
// keeps the hard rows.
func (p *Program) leastMissed() (float64, bool) {
	solver, err := lp.New(p.Elastic())
	if err != nil {
		return 0, false
	}
	res := solver.Solve()
	return res.Objective, res.Status == lp.Optimal
}

// leastOver finds by how many grams each item must go over its kitchen cap so that no
// more is missed than can be reached, and the sum in shares of the caps; nil when no
// answer passes its check.
func (p *Program) leastOver(missed float64) (grams []float64, shares float64) {
	q := p.Elastic()
	n, all := len(q.Cost), len(q.Rows)-1
	q.Rows[all].Upper = missed + ViolationSliver/2
	if missed <= FeasibleTol {
		q.Rows[all].Upper = FeasibleTol
	}
	clear(q.Cost)
	var capped []int
	for j := range p.Items {
		if p.Items[j].Kitchen < p.Items[j].Cap {
			capped = append(capped, j)
		}
	}
	for i := range q.Rows {
		q.Rows[i].A = append(q.Rows[i].A, make([]float64, len(capped))...)
	}
	for k, j := range capped {
		size := p.Items[j].Kitchen
		// In units of the cap: x / cap - over <= 1.
		row := lp.Row{A: make([]float64, n+len(capped)), Lower: math.Inf(-1), Upper: 1}
		row.A[j], row.A[n+k] = 1/size, -1
		q.Rows = append(q.Rows, row)
		q.Cost, q.Lower, q.Upper = append(q.Cost, 1), append(q.Lower, 0), append(q.Upper, p.Items[j].Cap/size)
	}
	solver, err := lp.New(q)
	if err != nil {
		return nil, math.Inf(1)
	}
	res := solver.Solve()
	if res.Status != lp.Optimal {
		return nil, math.Inf(1)
	}
	shares = res.Objective
	// Of all that go over by little more than the least, the one with the least add-on.
	budget := lp.Row{A: make([]float64, len(q.Cost)), Lower: math.Inf(-1), Upper: res.Objective*(1+overRoom) + FeasibleTol}
	copy(budget.A[n:], q.Cost[n:])
	q.Rows = append(q.Rows, budget)
	clear(q.Cost)
	for j := 1; j < len(p.Items); j++ {
		q.Cost[j] = 1
	}
	if solver, err = lp.New(q); err != nil {
		return nil, math.Inf(1)
	}
	if res = solver.Solve(); res.Status != lp.Optimal {
		return nil, math.Inf(1)
	}
	over := make([]float64, len(p.Items))
	for k, j := range capped {
		over[j] = max(0, res.X[n+k]) * p.Items[j].Kitchen
	}
	return over, shares
}
