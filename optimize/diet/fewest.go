package diet

import (
	"math"
	"slices"

	"bowlwright/optimize/lp"
)

// maxChoices bounds the linear programs that the search for the fewest add-ons
// solves, mostTries the sets that it has weighed, maxVisits the choices that it looks at:
// most of them a known cut rules out, and there are more than anyone waits for.
const (
	maxChoices = 4000
	mostTries  = 120
	maxVisits  = 50_000
)

// chooser looks for the smallest set of add-ons that keeps the violation where it
// is, of equal ones the lightest: branch and bound on which items are used. A set
// that does not do shows a cut: items of which every set that does needs at least
// one. Sets of a size are looked for only when no smaller one does, so a set has
// to hit every cut that is known and hold no more items than that.
type chooser struct {
	solver *lp.Solver
	q      *lp.Problem
	items  []int // that may be used at all
	cuts   [][]int
	size   int
	best   lp.Result
	chosen []int
	found  bool
	solved int
	// weighed judges a set that exact amounts keep: what its weighable amounts count for,
	// and whether there are any; nil where exact amounts will do.
	weighed func(set []int) (float64, bool)
	tries   int
	visits  int
	// anew solves each set by itself, not from the set before.
	anew bool
}

// newChooser takes a program and a solver that holds it.
func (p *Program) newChooser(solver *lp.Solver, q *lp.Problem) *chooser {
	c := &chooser{solver: solver, q: q}
	for j := 1; j < len(p.Items); j++ {
		if q.Upper[j] > 0 {
			c.items = append(c.items, j)
		}
	}
	return c
}

// ended says that the search was given up.
func (c *chooser) ended() bool {
	return c.solved >= maxChoices || c.tries >= mostTries || c.visits >= maxVisits
}

// fewest returns the answer with the fewest add-ons and which items it leaves out.
// The solver holds the program of the least add-on, all its answer.
func (p *Program) fewest(solver *lp.Solver, q lp.Problem, all lp.Result) (lp.Result, []bool) {
	c := p.newChooser(solver, &q)
	for ; c.size <= len(c.items) && !c.found && !c.ended(); c.size++ {
		c.search(nil, nil)
	}
	out := make([]bool, len(p.Items))
	if c.found && c.ended() {
		p.Notes = append(p.Notes, "no fewer add-ons do; whether others of the same number would need less was not searched to the end")
	}
	if !c.found {
		p.Notes = append(p.Notes, "there are too many ways to choose the fewest add-ons; this is the plan with the least add-on")
		c.allow(c.items)
		return all, out
	}
	for _, j := range c.items {
		out[j] = !slices.Contains(c.chosen, j)
	}
	return c.best, out
}

// Smaller looks for a set of fewer than so many add-ons that spends at most the given
// amount, misses nothing, and whose weighable amounts pass weighed, which returns what
// they count for; of the smallest sets the one that counts least. It returns nil where
// it finds none; proved says that there is none smaller than what it returns.
func (p *Program) Smaller(s *Solution, than int, most float64, weighed func(set []int) (float64, bool)) (set []int, proved bool, err error) {
	q := s.Problem
	spent := lp.Row{A: make([]float64, len(q.Cost)), Lower: math.Inf(-1), Upper: most}
	copy(spent.A, p.Counts)
	q.Rows = append(slices.Clone(q.Rows), spent)
	solver, err := lp.New(q)
	if err != nil {
		return nil, false, err
	}
	c := p.newChooser(solver, &q)
	c.weighed = weighed
	for ; c.size < than && !c.found && !c.ended(); c.size++ {
		c.search(nil, nil)
	}
	return c.chosen, !c.ended(), nil
}

// allow lets the items in and shuts the others out. Beside the answer it returns a
// bound on what they can reach.
func (c *chooser) allow(items []int) (lp.Result, float64) {
	upper := slices.Clone(c.q.Upper)
	for _, j := range c.items {
		if !slices.Contains(items, j) {
			upper[j] = 0
		}
		c.solver.SetColumn(j, 0, upper[j])
	}
	c.solved++
	if !c.anew {
		if res, bound := c.solver.Bound(); res.Status == lp.Optimal || res.Status == lp.Infeasible {
			return res, bound
		}
	}
	// What a solver that went on from another set could not settle is begun anew.
	q := *c.q
	q.Upper = upper
	fresh, err := lp.New(q)
	if err != nil {
		return lp.Result{Status: lp.Imprecise}, math.Inf(-1)
	}
	return fresh.Bound()
}

// feasible says whether an answer keeps the program's limits.
func (c *chooser) feasible(res lp.Result) bool {
	return res.Status == lp.Optimal && lp.Residual(c.q, res.X) <= FeasibleTol
}

// search goes on from the items used with those that are left out for good.
func (c *chooser) search(used, without []int) {
	if c.ended() {
		return
	}
	c.visits++
	cut, ok := c.nextCut(used, without)
	if !ok {
		return
	}
	if cut == nil {
		res, _ := c.allow(used)
		if !c.feasible(res) {
			c.cuts = append(c.cuts, c.cutOf(used))
			c.search(used, without)
			return
		}
		if !c.take(used, res) {
			c.enlarge(used, without)
		}
		return
	}
	if c.found && len(used) > 0 && len(without) > 0 {
		if res, bound := c.allow(c.rest(without)); res.Status == lp.Infeasible || bound >= c.best.Objective {
			return
		}
	}
	left := slices.Clone(without)
	for _, j := range cut {
		if !slices.Contains(left, j) {
			c.search(append(slices.Clone(used), j), left)
			left = append(left, j)
		}
	}
}

// take keeps a set whose exact amounts do, if it is the best so far, and says whether it
// can be weighed.
func (c *chooser) take(used []int, res lp.Result) bool {
	if c.found && res.Objective >= c.best.Objective {
		return true
	}
	if c.weighed != nil {
		c.tries++
		value, ok := c.weighed(used)
		if !ok {
			return false
		}
		res.Objective = value
		if c.found && value >= c.best.Objective {
			return true
		}
	}
	c.found, c.best, c.chosen = true, res, slices.Clone(used)
	return true
}

// enlarge goes on from a set that hits every cut and cannot be weighed.
func (c *chooser) enlarge(used, without []int) {
	if len(used) >= c.size {
		return
	}
	left := slices.Clone(without)
	for _, j := range c.items {
		if !slices.Contains(used, j) && !slices.Contains(left, j) {
			c.search(append(slices.Clone(used), j), left)
			left = append(left, j)
		}
	}
}

// nextCut returns the cut with the fewest choices that no used item hits, nil when
// all are hit; it is not ok when cuts that share no choice need more items than
// there may be.
func (c *chooser) nextCut(used, without []int) (cut []int, ok bool) {
	fewest, apart := 0, 0
	var taken []int
	for _, k := range c.cuts {
		if slices.ContainsFunc(k, func(j int) bool { return slices.Contains(used, j) }) {
			continue
		}
		choices, overlaps := 0, false
		for _, j := range k {
			if !slices.Contains(without, j) {
				choices++
				overlaps = overlaps || slices.Contains(taken, j)
			}
		}
		if choices == 0 {
			return nil, false
		}
		if !overlaps {
			apart++
			taken = append(taken, k...)
		}
		if cut == nil || choices < fewest {
			cut, fewest = k, choices
		}
	}
	return cut, len(used)+apart <= c.size
}

// cutOf takes a set that does not do, adds items for as long as it does not, and
// returns those that remain: each alone makes it do.
func (c *chooser) cutOf(used []int) []int {
	set := slices.Clone(used)
	var cut []int
	for _, j := range c.items {
		if slices.Contains(used, j) {
			continue
		}
		if res, _ := c.allow(append(set, j)); c.feasible(res) {
			cut = append(cut, j)
		} else {
			set = append(set, j)
		}
	}
	if len(cut) == 0 && !c.anew {
		// All items together do, so one answer was wrong: each set by itself then.
		c.anew = true
		cut = c.cutOf(used)
		c.anew = false
	}
	return cut
}

// rest are the items that are not left out.
func (c *chooser) rest(without []int) []int {
	var in []int
	for _, j := range c.items {
		if !slices.Contains(without, j) {
			in = append(in, j)
		}
	}
	return in
}
