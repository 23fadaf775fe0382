package milp

import (
	"container/heap"
	"errors"
	"math"

	"bowlwright/optimize/lp"
)

// Search looks for weighable amounts: a mixed-integer program solved by branch
// and bound, best bound first with plunging. A column's amount is target + up - down,
// so that the distance to the target is linear.
type Search struct {
	cols      []Column
	rows      []Row // without the slack columns
	Solver    *lp.Solver
	Nodes     int
	Incumbent []float64 // in steps
	Value     float64
	Proved    bool
	// unsure is set when a box was given up without a verified answer.
	unsure bool
	// Bound is proved: no whole steps have a smaller objective. lowest is the least
	// bound that was not searched any further.
	Bound, lowest float64
	want          Goal
	tight         []stepRow
	Rise          pseudoCosts
	// offset is what the objective of the linear program leaves out.
	offset float64
}

// Column is one unknown of the search, in grams.
type Column struct {
	Target, Step, Least, Cap float64
	// Weight is the cost of a gram of distance; spends is what a gram counts for in
	// the least add-on, nothing for the base and for helpers.
	Weight, Spends float64
}

// Row is one limit of the search, in grams.
type Row struct {
	Name         string
	A            []float64
	Lower, Upper float64
	// Elastic rows may be missed, at the price that the search's aim asks for.
	Elastic bool
	// Size is what violations of the row are measured in.
	Size float64
}

// Goal says what a search minimises and what it may spend.
type Goal struct {
	// Distance counts weighted distance to the targets, else what is spent on add-ons
	// if least is set; misses adds the violation of elastic rows.
	Distance, Least, Misses bool
	// elastic rows may be missed by maxMiss limits in all, hard ones when it is 0.
	MaxMiss float64
	// MaxSpent bounds the add-on, in what the preference counts.
	MaxSpent float64
	// From is an answer to start with, nil for none; maxNodes ends the search, 0
	// for the usual number; best asks for the best whole steps there are instead of
	// some within the optimality gap.
	From     []float64
	MaxNodes int
	Best     bool
}

// costs returns what a gram up and a gram down of a column cost.
func (a Goal) costs(c Column) (up, down float64) {
	switch {
	case a.Distance:
		return c.Weight, c.Weight
	case a.Least:
		return c.Spends, -c.Spends
	}
	return 0, 0
}

// ErrNarrow says that a row leaves no room inside the guard band.
var ErrNarrow = errors.New("a limit is too narrow for the guard band")

// New prepares a search.
func New(cols []Column, rows []Row, want Goal) (*Search, error) {
	s := &Search{cols: cols, rows: rows, want: want, Value: math.Inf(1), lowest: math.Inf(1), Rise: newPseudoCosts(cols)}
	q, err := Relaxed(cols, rows, want)
	if err != nil {
		return nil, err
	}
	if want.Least {
		for _, c := range cols {
			s.offset += c.Spends * c.Target
		}
	}
	s.tight = s.stepRows()
	s.Solver, err = lp.New(q)
	return s, err
}

// Relaxed states the linear program of a search, which forgets that steps are whole.
// Each column stands twice, up and down from its target.
func Relaxed(cols []Column, rows []Row, want Goal) (lp.Problem, error) {
	slacks := 0
	for _, r := range rows {
		if r.Elastic && want.MaxMiss > 0 {
			slacks++
		}
	}
	n := 2*len(cols) + slacks
	q := lp.Problem{Cost: make([]float64, n), Lower: make([]float64, n), Upper: make([]float64, n)}
	spent := lp.Row{A: make([]float64, n), Lower: math.Inf(-1), Upper: want.MaxSpent}
	for j, c := range cols {
		q.Cost[2*j], q.Cost[2*j+1] = want.costs(c)
		q.Upper[2*j], q.Upper[2*j+1] = max(0, c.Cap-c.Target), c.Target
		spent.A[2*j], spent.A[2*j+1] = c.Spends, -c.Spends
		spent.Upper -= c.Spends * c.Target
	}
	missed := lp.Row{A: make([]float64, n), Lower: math.Inf(-1), Upper: want.MaxMiss}
	at := 2 * len(cols)
	for _, r := range rows {
		out := lp.Row{A: make([]float64, n)}
		moved := 0.0
		for j, c := range cols {
			out.A[2*j], out.A[2*j+1] = r.A[j]/r.Size, -r.A[j]/r.Size
			moved += r.A[j] * c.Target
		}
		out.Lower, out.Upper = (r.Lower-moved)/r.Size, (r.Upper-moved)/r.Size
		if r.Lower < r.Upper {
			out.Lower += GuardBand
			out.Upper -= GuardBand
			if out.Lower > out.Upper {
				return q, ErrNarrow
			}
		} else {
			// Whole steps meet an equation to the last bit of their products only.
			out.Lower -= GuardBand
			out.Upper += GuardBand
		}
		if r.Elastic && want.MaxMiss > 0 {
			out.A[at], missed.A[at], q.Upper[at] = 1, 1, GuardBand+lp.MostMissed(r.A, r.Lower, r.Size, func(j int) float64 { return cols[j].Cap })
			if want.Misses {
				q.Cost[at] = 1
			}
			at++
		}
		q.Rows = append(q.Rows, out)
	}
	q.Rows = append(q.Rows, missed)
	if !math.IsInf(want.MaxSpent, 1) {
		q.Rows = append(q.Rows, spent)
	}
	return q, nil
}

// Run searches until the gap is closed or the nodes are used up, and returns the
// best whole steps found, nil for none.
func (s *Search) Run(accept func(steps []float64) (float64, bool)) []float64 {
	root := &Node{Bound: math.Inf(-1), Lo: make([]float64, len(s.cols)), Hi: make([]float64, len(s.cols))}
	for j, c := range s.cols {
		root.Hi[j] = math.Floor(c.Cap/c.Step + IntegralTol)
	}
	most := maxNodes
	if s.want.MaxNodes > 0 {
		most = s.want.MaxNodes
	}
	open := &nodeHeap{root}
	order := 0
	for plunge := 0; open.Len() > 0 && s.Nodes < most; plunge++ {
		var current *Node
		if s.Incumbent == nil && plunge%2 == 1 {
			current = open.newest()
		} else {
			current = heap.Pop(open).(*Node)
		}
		if s.pruned(current.Bound) {
			// Best first, so nothing better is left; and without an incumbent, when
			// the newest was asked for, nothing is pruned.
			s.finish(nil)
			return s.Incumbent
		}
		for current != nil && s.Nodes < most {
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
	return s.Incumbent
}

// finish says what was proved when these nodes are left.
func (s *Search) finish(left nodeHeap) {
	s.Proved = len(left) == 0 && !s.unsure
	s.Bound = min(s.lowest, s.Value)
	if s.unsure {
		s.Bound = math.Inf(-1)
	}
	for _, n := range left {
		s.Bound = min(s.Bound, n.Bound)
	}
}

// Gap is how far, as a share of the objective, the bound is under the answer; 1
// when nothing is proved of it.
func (s *Search) Gap() float64 {
	if s.Bound >= s.Value {
		return 0
	}
	if s.Value <= 0 {
		return 1
	}
	return min(1, (s.Value-s.Bound)/s.Value)
}

func (s *Search) pruned(bound float64) bool {
	if s.Incumbent == nil {
		return false
	}
	gap := OptimalityGap * math.Abs(s.Value)
	if s.want.Best {
		gap = roundingTol * math.Abs(s.Value)
	} else if s.want.Misses {
		gap = max(gap, missGap)
	}
	if bound < s.Value-gap {
		return false
	}
	s.lowest = min(s.lowest, bound)
	return true
}

// branch solves a node, tries what is near its answer, and divides it.
func (s *Search) branch(at *Node, accept func([]float64) (float64, bool)) (near, far *Node) {
	s.Nodes++
	if !s.Tighten(at) {
		s.Rise.closed(at.Split)
		return nil, nil
	}
	if !s.NearEnough(at) {
		s.Rise.Learn(at.Split, s.Value-at.Bound)
		return nil, nil
	}
	at.Bounds(s.cols, s.Solver.SetColumn)
	res, bound := s.Solver.Bound()
	if res.Status == lp.Infeasible {
		s.Rise.closed(at.Split)
		return nil, nil
	}
	bound = max(at.Bound, bound+s.offset)
	if res.X == nil {
		return s.halve(at, bound)
	}
	if res.Status == lp.Optimal {
		s.Rise.Learn(at.Split, bound-at.Bound)
	}
	if s.pruned(bound) {
		return nil, nil
	}
	steps := make([]float64, len(s.cols))
	for j, c := range s.cols {
		steps[j] = (c.Target + res.X[2*j] - res.X[2*j+1]) / c.Step
	}
	if res.Status != lp.Optimal {
		// An unverified answer is good for a try and for a split, not for a bound.
		for j := range steps {
			steps[j] = min(max(steps[j], at.Lo[j]), at.Hi[j])
		}
	}
	s.try(steps, accept)
	if s.pruned(bound) {
		return nil, nil
	}
	return s.Divide(at, steps, bound)
}

// Divide splits a node at a column that is not whole. The first node returned is the
// one to go on with.
func (s *Search) Divide(at *Node, steps []float64, bound float64) (near, far *Node) {
	j, point := s.choose(at, steps)
	if j < 0 {
		return s.around(at, steps, bound)
	}
	down, up := at.child(bound), at.child(bound)
	part := steps[j] - math.Floor(steps[j])
	down.Split, up.Split = split{column: j, by: part, known: true}, split{column: j, up: true, by: 1 - part, known: true}
	least := s.leastSteps(j)
	if steps[j] < least-IntegralTol {
		down.Hi[j], up.Lo[j] = 0, least
		down.Split.by, up.Split.by = steps[j], least-steps[j]
		point = least / 2
	} else {
		down.Hi[j], up.Lo[j] = math.Floor(point), math.Floor(point)+1
	}
	if up.Lo[j] > up.Hi[j] {
		return down, nil
	}
	if point-math.Floor(point) > 0.5 || steps[j] >= least/2 && steps[j] < least {
		return up, down
	}
	return down, up
}

// halve splits a node whose linear program gave no answer: its widest column is cut
// in the middle.
func (s *Search) halve(at *Node, bound float64) (near, far *Node) {
	widest := -1
	for j := range s.cols {
		if at.Hi[j] > at.Lo[j] && (widest < 0 || at.Hi[j]-at.Lo[j] > at.Hi[widest]-at.Lo[widest]) {
			widest = j
		}
	}
	if widest < 0 {
		s.unsure = true
		return nil, nil
	}
	near, far = at.child(bound), at.child(bound)
	middle := math.Floor((at.Lo[widest] + at.Hi[widest]) / 2)
	near.Hi[widest], far.Lo[widest] = middle, middle+1
	return near, far
}

// around splits a node whose answer is whole and was not accepted, so that one side
// is nearer to that answer alone: what else the node holds must not be lost.
func (s *Search) around(at *Node, steps []float64, bound float64) (near, far *Node) {
	for j := range s.cols {
		if at.Lo[j] == at.Hi[j] {
			continue
		}
		near, far = at.child(bound), at.child(bound)
		v := min(max(math.Round(steps[j]), at.Lo[j]), at.Hi[j])
		if v < at.Hi[j] {
			near.Hi[j], far.Lo[j] = v, v+1
		} else {
			near.Lo[j], far.Hi[j] = v, v-1
		}
		return near, far
	}
	return nil, nil
}

// try rounds the answer of a node to whole steps, in three ways, and keeps it if
// it is acceptable and better.
func (s *Search) try(steps []float64, accept func([]float64) (float64, bool)) {
	for _, nudge := range []float64{0.5, 0.8, 0.2} {
		rounded := make([]float64, len(steps))
		for j, c := range s.cols {
			v := steps[j]
			k := math.Floor(v + nudge)
			if math.Abs(v-math.Round(v)) <= IntegralTol {
				k = math.Round(v)
			}
			least := s.leastSteps(j)
			if k > 0 && k < least {
				k = least
				if v < least/2 {
					k = 0
				}
			}
			rounded[j] = min(k, math.Floor(c.Cap/c.Step+IntegralTol))
		}
		if v, ok := accept(rounded); ok && v < s.Value {
			s.Value, s.Incumbent = v, rounded
		}
	}
}
