package optimize

import (
	"container/heap"
	"errors"
	"math"

	"bowlwright/optimize/lp"
)

// search looks for weighable amounts: a mixed-integer program solved by branch
// and bound, best bound first with plunging. A column's amount is target + up - down,
// so that the distance to the target is linear.
type search struct {
	cols      []searchColumn
	rows      []searchRow // without the slack columns
	solver    *lp.Solver
	nodes     int
	incumbent []float64 // in steps
	value     float64
	proved    bool
	// unsure is set when a box was given up without a verified answer.
	unsure bool
	// bound is proved: no whole steps have a smaller objective. lowest is the least
	// bound that was not searched any further.
	bound, lowest float64
	want          aim
	tight         []stepRow
	rise          pseudoCosts
	// offset is what the objective of the linear program leaves out.
	offset float64
}

// searchColumn is one unknown of the search, in grams.
type searchColumn struct {
	target, step, least, cap float64
	// weight is the cost of a gram of distance; spends is what a gram counts for in
	// the least add-on, nothing for the base and for helpers.
	weight, spends float64
}

// searchRow is one limit of the search, in grams.
type searchRow struct {
	name         string
	a            []float64
	lower, upper float64
	// elastic rows may be missed, at the price that the search's aim asks for.
	elastic bool
	// size is what violations of the row are measured in.
	size float64
}

// node is a box of whole steps.
type node struct {
	lo, hi []float64
	bound  float64
	order  int
	// split says how the box came about, for the pseudo-costs.
	split split
}

type nodeHeap []*node

func (h nodeHeap) Len() int { return len(h) }
func (h nodeHeap) Less(i, j int) bool {
	if h[i].bound != h[j].bound {
		return h[i].bound < h[j].bound
	}
	return h[i].order < h[j].order
}
func (h nodeHeap) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *nodeHeap) Push(x any)   { *h = append(*h, x.(*node)) }
func (h *nodeHeap) Pop() any {
	old := *h
	n := old[len(old)-1]
	*h = old[:len(old)-1]
	return n
}

// newest takes the node that was split off last: near it a plunge that failed may
// succeed.
func (h *nodeHeap) newest() *node {
	at := 0
	for i, n := range *h {
		if n.order > (*h)[at].order {
			at = i
		}
	}
	return heap.Remove(h, at).(*node)
}

// aim says what a search minimises and what it may spend.
type aim struct {
	// distance counts weighted distance to the targets, else what is spent on add-ons
	// if least is set; misses adds the violation of elastic rows.
	distance, least, misses bool
	// elastic rows may be missed by maxMiss limits in all, hard ones when it is 0.
	maxMiss float64
	// maxSpent bounds the add-on, in what the preference counts.
	maxSpent float64
	// from is an answer to start with, nil for none; maxNodes ends the search, 0
	// for the usual number; best asks for the best whole steps there are instead of
	// some within the optimality gap.
	from     []float64
	maxNodes int
	best     bool
}

// costs returns what a gram up and a gram down of a column cost.
func (a aim) costs(c searchColumn) (up, down float64) {
	switch {
	case a.distance:
		return c.weight, c.weight
	case a.least:
		return c.spends, -c.spends
	}
	return 0, 0
}

// errNarrow says that a row leaves no room inside the guard band.
var errNarrow = errors.New("a limit is too narrow for the guard band")

// newSearch prepares a search.
func newSearch(cols []searchColumn, rows []searchRow, want aim) (*search, error) {
	s := &search{cols: cols, rows: rows, want: want, value: math.Inf(1), lowest: math.Inf(1), rise: newPseudoCosts(cols)}
	q, err := relaxed(cols, rows, want)
	if err != nil {
		return nil, err
	}
	if want.least {
		for _, c := range cols {
			s.offset += c.spends * c.target
		}
	}
	s.tight = s.stepRows()
	s.solver, err = lp.New(q)
	return s, err
}

// relaxed states the linear program of a search, which forgets that steps are whole.
// Each column stands twice, up and down from its target.
func relaxed(cols []searchColumn, rows []searchRow, want aim) (lp.Problem, error) {
	slacks := 0
	for _, r := range rows {
		if r.elastic && want.maxMiss > 0 {
			slacks++
		}
	}
	n := 2*len(cols) + slacks
	q := lp.Problem{Cost: make([]float64, n), Lower: make([]float64, n), Upper: make([]float64, n)}
	spent := lp.Row{A: make([]float64, n), Lower: math.Inf(-1), Upper: want.maxSpent}
	for j, c := range cols {
		q.Cost[2*j], q.Cost[2*j+1] = want.costs(c)
		q.Upper[2*j], q.Upper[2*j+1] = max(0, c.cap-c.target), c.target
		spent.A[2*j], spent.A[2*j+1] = c.spends, -c.spends
		spent.Upper -= c.spends * c.target
	}
	missed := lp.Row{A: make([]float64, n), Lower: math.Inf(-1), Upper: want.maxMiss}
	at := 2 * len(cols)
	for _, r := range rows {
		out := lp.Row{A: make([]float64, n)}
		moved := 0.0
		for j, c := range cols {
			out.A[2*j], out.A[2*j+1] = r.a[j]/r.size, -r.a[j]/r.size
			moved += r.a[j] * c.target
		}
		out.Lower, out.Upper = (r.lower-moved)/r.size, (r.upper-moved)/r.size
		if r.lower < r.upper {
			out.Lower += guardBand
			out.Upper -= guardBand
			if out.Lower > out.Upper {
				return q, errNarrow
			}
		} else {
			// Whole steps meet an equation to the last bit of their products only.
			out.Lower -= guardBand
			out.Upper += guardBand
		}
		if r.elastic && want.maxMiss > 0 {
			out.A[at], missed.A[at], q.Upper[at] = 1, 1, guardBand+lp.MostMissed(r.a, r.lower, r.size, func(j int) float64 { return cols[j].cap })
			if want.misses {
				q.Cost[at] = 1
			}
			at++
		}
		q.Rows = append(q.Rows, out)
	}
	q.Rows = append(q.Rows, missed)
	if !math.IsInf(want.maxSpent, 1) {
		q.Rows = append(q.Rows, spent)
	}
	return q, nil
}

// run searches until the gap is closed or the nodes are used up, and returns the
// best whole steps found, nil for none.
func (s *search) run(accept func(steps []float64) (float64, bool)) []float64 {
	root := &node{bound: math.Inf(-1), lo: make([]float64, len(s.cols)), hi: make([]float64, len(s.cols))}
	for j, c := range s.cols {
		root.hi[j] = math.Floor(c.cap/c.step + integralTol)
	}
	most := maxNodes
	if s.want.maxNodes > 0 {
		most = s.want.maxNodes
	}
	open := &nodeHeap{root}
	order := 0
	for plunge := 0; open.Len() > 0 && s.nodes < most; plunge++ {
		var current *node
		if s.incumbent == nil && plunge%2 == 1 {
			current = open.newest()
		} else {
			current = heap.Pop(open).(*node)
		}
		if s.pruned(current.bound) {
			// Best first, so nothing better is left; and without an incumbent, when
			// the newest was asked for, nothing is pruned.
			s.finish(nil)
			return s.incumbent
		}
		for current != nil && s.nodes < most {
			near, far := s.branch(current, accept)
			if far != nil {
				order++
				far.order = order
				heap.Push(open, far)
			}
			current = near
		}
		if current != nil {
			heap.Push(open, current)
		}
	}
	s.finish(*open)
	return s.incumbent
}

// finish says what was proved when these nodes are left.
func (s *search) finish(left nodeHeap) {
	s.proved = len(left) == 0 && !s.unsure
	s.bound = min(s.lowest, s.value)
	if s.unsure {
		s.bound = math.Inf(-1)
	}
	for _, n := range left {
		s.bound = min(s.bound, n.bound)
	}
}

// gap is how far, as a share of the objective, the bound is under the answer; 1
// when nothing is proved of it.
func (s *search) gap() float64 {
	if s.bound >= s.value {
		return 0
	}
	if s.value <= 0 {
		return 1
	}
	return min(1, (s.value-s.bound)/s.value)
}

func (s *search) pruned(bound float64) bool {
	if s.incumbent == nil {
		return false
	}
	gap := optimalityGap * math.Abs(s.value)
	if s.want.best {
		gap = roundingTol * math.Abs(s.value)
	} else if s.want.misses {
		gap = max(gap, missGap)
	}
	if bound < s.value-gap {
		return false
	}
	s.lowest = min(s.lowest, bound)
	return true
}

// branch solves a node, tries what is near its answer, and divides it.
func (s *search) branch(at *node, accept func([]float64) (float64, bool)) (near, far *node) {
	s.nodes++
	if !s.tighten(at) {
		s.rise.closed(at.split)
		return nil, nil
	}
	if !s.nearEnough(at) {
		s.rise.learn(at.split, s.value-at.bound)
		return nil, nil
	}
	at.bounds(s.cols, s.solver.SetColumn)
	res, bound := s.solver.Bound()
	if res.Status == lp.Infeasible {
		s.rise.closed(at.split)
		return nil, nil
	}
	bound = max(at.bound, bound+s.offset)
	if res.X == nil {
		return s.halve(at, bound)
	}
	if res.Status == lp.Optimal {
		s.rise.learn(at.split, bound-at.bound)
	}
	if s.pruned(bound) {
		return nil, nil
	}
	steps := make([]float64, len(s.cols))
	for j, c := range s.cols {
		steps[j] = (c.target + res.X[2*j] - res.X[2*j+1]) / c.step
	}
	if res.Status != lp.Optimal {
		// An unverified answer is good for a try and for a split, not for a bound.
		for j := range steps {
			steps[j] = min(max(steps[j], at.lo[j]), at.hi[j])
		}
	}
	s.try(steps, accept)
	if s.pruned(bound) {
		return nil, nil
	}
	return s.divide(at, steps, bound)
}

// divide splits a node at a column that is not whole. The first node returned is the
// one to go on with.
func (s *search) divide(at *node, steps []float64, bound float64) (near, far *node) {
	j, point := s.choose(at, steps)
	if j < 0 {
		return s.around(at, steps, bound)
	}
	down, up := at.child(bound), at.child(bound)
	part := steps[j] - math.Floor(steps[j])
	down.split, up.split = split{column: j, by: part, known: true}, split{column: j, up: true, by: 1 - part, known: true}
	least := s.leastSteps(j)
	if steps[j] < least-integralTol {
		down.hi[j], up.lo[j] = 0, least
		down.split.by, up.split.by = steps[j], least-steps[j]
		point = least / 2
	} else {
		down.hi[j], up.lo[j] = math.Floor(point), math.Floor(point)+1
	}
	if up.lo[j] > up.hi[j] {
		return down, nil
	}
	if point-math.Floor(point) > 0.5 || steps[j] >= least/2 && steps[j] < least {
		return up, down
	}
	return down, up
}

// halve splits a node whose linear program gave no answer: its widest column is cut
// in the middle.
func (s *search) halve(at *node, bound float64) (near, far *node) {
	widest := -1
	for j := range s.cols {
		if at.hi[j] > at.lo[j] && (widest < 0 || at.hi[j]-at.lo[j] > at.hi[widest]-at.lo[widest]) {
			widest = j
		}
	}
	if widest < 0 {
		s.unsure = true
		return nil, nil
	}
	near, far = at.child(bound), at.child(bound)
	middle := math.Floor((at.lo[widest] + at.hi[widest]) / 2)
	near.hi[widest], far.lo[widest] = middle, middle+1
	return near, far
}

// around splits a node whose answer is whole and was not accepted, so that one side
// is nearer to that answer alone: what else the node holds must not be lost.
func (s *search) around(at *node, steps []float64, bound float64) (near, far *node) {
	for j := range s.cols {
		if at.lo[j] == at.hi[j] {
			continue
		}
		near, far = at.child(bound), at.child(bound)
		v := min(max(math.Round(steps[j]), at.lo[j]), at.hi[j])
		if v < at.hi[j] {
			near.hi[j], far.lo[j] = v, v+1
		} else {
			near.lo[j], far.hi[j] = v, v-1
		}
		return near, far
	}
	return nil, nil
}

// bounds sets the columns of the linear program to the box.
func (n *node) bounds(cols []searchColumn, set func(j int, lower, upper float64)) {
	for j, c := range cols {
		// The last whole step may lie over the cap by the rounding that integralTol
		// allows.
		hi := min(n.hi[j]*c.step, c.cap)
		lo := min(n.lo[j]*c.step, hi)
		set(2*j, max(0, lo-c.target), max(0, hi-c.target))
		set(2*j+1, max(0, c.target-hi), max(0, c.target-lo))
	}
}

func (n *node) child(bound float64) *node {
	return &node{lo: append([]float64(nil), n.lo...), hi: append([]float64(nil), n.hi...), bound: bound}
}

// try rounds the answer of a node to whole steps, in three ways, and keeps it if
// it is acceptable and better.
func (s *search) try(steps []float64, accept func([]float64) (float64, bool)) {
	for _, nudge := range []float64{0.5, 0.8, 0.2} {
		rounded := make([]float64, len(steps))
		for j, c := range s.cols {
			v := steps[j]
			k := math.Floor(v + nudge)
			if math.Abs(v-math.Round(v)) <= integralTol {
				k = math.Round(v)
			}
			least := s.leastSteps(j)
			if k > 0 && k < least {
				k = least
				if v < least/2 {
					k = 0
				}
			}
			rounded[j] = min(k, math.Floor(c.cap/c.step+integralTol))
		}
		if v, ok := accept(rounded); ok && v < s.value {
			s.value, s.incumbent = v, rounded
		}
	}
}
