package jar

import (
	"container/heap"
	"math"
	"slices"

	"bowlwright/optimize/lp"
)

// box bounds for each pet how many days a gram of jar lasts (s) and the grams in all per
// gram of jar (n).
type box struct {
	loS, hiS, loN, hiN []float64
	bound              float64
}

func (b *box) clone() *box {
	return &box{slices.Clone(b.loS), slices.Clone(b.hiS), slices.Clone(b.loN), slices.Clone(b.hiN), b.bound}
}

type boxes []*box

func (h boxes) Len() int           { return len(h) }
func (h boxes) Less(i, j int) bool { return h[i].bound < h[j].bound }
func (h boxes) Swap(i, j int)      { h[i], h[j] = h[j], h[i] }
func (h *boxes) Push(x any)        { *h = append(*h, x.(*box)) }
func (h *boxes) Pop() any {
	old := *h
	b := old[len(old)-1]
	*h = old[:len(old)-1]
	return b
}

// OwnBound is the sum of what each pet needs alone: no jar needs less.
func (m *Mix) OwnBound() float64 {
	sum := 0.0
	for _, p := range m.problem.pets {
		sum += p.ownLeast(m.Rules.MissMore)
	}
	return sum
}

// Bound returns grams that no jar for these pets goes under, whatever its margins, by a
// search of at most so many boxes; for none it is the sum of the pets' own least.
func (m *Mix) Bound(most int) float64 {
	own := m.OwnBound()
	if most <= 0 {
		return own
	}
	b := newBounding(m)
	start := b.start()
	if start == nil {
		return own
	}
	open := &boxes{start}
	for range most {
		if open.Len() == 0 || (*open)[0].bound >= (1-provedGap)*b.best {
			break
		}
		at := heap.Pop(open).(*box)
		for _, part := range b.divide(at) {
			heap.Push(open, part)
		}
	}
	if open.Len() == 0 {
		return max(own, (1-provedGap)*b.best)
	}
	return max(own, min((*open)[0].bound, b.best))
}

// bounding is the search for a bound. Its program has beside the columns of the jar's
// the grams in all per gram of jar, n, and the grams a day, t >= n/s, of each pet.
type bounding struct {
	q    *problem
	base lp.Problem
	own  []float64
	n, t []int
	// best is the total of the best jar at hand.
	best float64
	x    map[*box][]float64
}

func newBounding(m *Mix) *bounding {
	q := formulate(m.problem.pets, Rules{OneRate: m.Rules.OneRate, MissMore: m.Rules.MissMore, Apart: m.Rules.Apart})
	b := &bounding{q: q, best: m.Total(), x: map[*box][]float64{}}
	columns := len(q.lp.Cost)
	total := columns + 2*len(q.pets)
	widen := func(a []float64) []float64 { return append(slices.Clone(a), make([]float64, total-columns)...) }
	b.base = lp.Problem{Cost: make([]float64, total), Lower: widen(q.lp.Lower), Upper: widen(q.lp.Upper)}
	for _, r := range q.lp.Rows {
		b.base.Rows = append(b.base.Rows, lp.Row{A: widen(r.A), Lower: r.Lower, Upper: r.Upper})
	}
	sum := 0.0
	for _, p := range q.pets {
		b.own = append(b.own, p.ownLeast(q.rules.MissMore))
		sum += b.own[len(b.own)-1]
	}
	all := lp.Row{A: make([]float64, total), Lower: math.Inf(-1), Upper: b.best}
	for k := range q.pets {
		n, t := columns+2*k, columns+2*k+1
		b.n, b.t = append(b.n, n), append(b.t, t)
		b.base.Upper[n], b.base.Upper[t] = math.Inf(1), math.Inf(1)
		b.base.Lower[n], b.base.Lower[t] = 1, b.own[k]
		b.base.Cost[t], all.A[t] = 1, 1
		is := b.row(1, 1)
		is[n] = 1
		q.grams(is, k, -1)
		under := b.row(0, math.Inf(1))
		under[n], under[q.doses[k]] = 1, -b.own[k]
		over := b.row(math.Inf(-1), 0)
		over[n], over[q.doses[k]] = 1, -(b.best - sum + b.own[k])
	}
	b.base.Rows = append(b.base.Rows, all)
	return b
}

func (b *bounding) row(lower, upper float64) []float64 {
	a := make([]float64, len(b.base.Cost))
	b.base.Rows = append(b.base.Rows, lp.Row{A: a, Lower: lower, Upper: upper})
	return a
}

// start is the box of everything, drawn in as far as linear programs do it; nil where
// they do not answer.
func (b *bounding) start() *box {
	k := len(b.q.pets)
	at := &box{make([]float64, k), make([]float64, k), make([]float64, k), make([]float64, k), math.Inf(-1)}
	for p := range b.q.pets {
		at.loS[p], at.hiS[p] = leastDoses, mostDoses
		at.loN[p], at.hiN[p] = 1, math.Inf(1)
	}
	const rounds = 3
	for round := range rounds {
		program := b.base
		if round > 0 {
			program = b.within(at)
		}
		program.Cost = make([]float64, len(program.Cost))
		solver, err := lp.New(program)
		if err != nil {
			return nil
		}
		for p, s := range b.q.doses {
			for _, side := range []struct {
				column int
				sign   float64
				to     *float64
			}{{s, 1, &at.loS[p]}, {s, -1, &at.hiS[p]}, {b.n[p], 1, &at.loN[p]}, {b.n[p], -1, &at.hiN[p]}} {
				cost := make([]float64, len(program.Cost))
				cost[side.column] = side.sign
				solver.SetCost(cost)
				res := solver.Solve()
				if res.Status != lp.Optimal {
					return nil
				}
				// A hair outwards: the answer holds to the solver's tolerance.
				v := res.Objective * side.sign * (1 - side.sign*1e-6)
				if side.sign > 0 {
					*side.to = max(*side.to, v)
				} else {
					*side.to = min(*side.to, v)
				}
			}
		}
	}
	if !b.solve(at) {
		return nil
	}
	return at
}

// within is the program of a box.
func (b *bounding) within(at *box) lp.Problem {
	p := lp.Problem{Cost: b.base.Cost, Lower: slices.Clone(b.base.Lower), Upper: slices.Clone(b.base.Upper), Rows: slices.Clone(b.base.Rows)}
	for k, s := range b.q.doses {
		lo, hi, least, most := at.loS[k], at.hiS[k], at.loN[k], at.hiN[k]
		p.Lower[s], p.Upper[s], p.Lower[b.n[k]], p.Upper[b.n[k]] = lo, hi, least, most
		add := func(byN, byS, lower float64) {
			a := make([]float64, len(p.Cost))
			a[b.t[k]], a[b.n[k]], a[s] = 1, byN, byS
			p.Rows = append(p.Rows, lp.Row{A: a, Lower: lower, Upper: math.Inf(1)})
		}
		add(-1/hi, 0, 0)
		for i := range tangents {
			tau := lo * math.Pow(hi/lo, float64(i)/(tangents-1))
			add(-1/hi, least/(tau*tau), 2*least/tau-least/hi)
			if !math.IsInf(most, 1) {
				add(-1/lo, most/(tau*tau), 2*most/tau-most/lo)
			}
		}
	}
	return p
}

// solve bounds a box, and says whether anything is left in it.
func (b *bounding) solve(at *box) bool {
	solver, err := lp.New(b.within(at))
	if err != nil {
		return true
	}
	res := solver.Solve()
	switch res.Status {
	case lp.Infeasible:
		return false
	case lp.Optimal:
		at.bound = max(at.bound, res.Objective)
		b.x[at] = res.X
		if v := b.q.total(res.X); v < b.best {
			b.best = v
		}
	}
	return true
}

// divide splits a box at the pet whose n/s is bounded worst, and drops what is empty.
func (b *bounding) divide(at *box) []*box {
	x := b.x[at]
	delete(b.x, at)
	worst, most := 0, math.Inf(-1)
	for k, s := range b.q.doses {
		miss := math.Log(at.hiS[k] / at.loS[k])
		if x != nil {
			miss = x[b.n[k]]/x[s] - x[b.t[k]]
		}
		if miss > most {
			worst, most = k, miss
		}
	}
	lo, hi := at.loS[worst], at.hiS[worst]
	cut := math.Sqrt(lo * hi)
	if x != nil {
		cut = min(max(x[b.q.doses[worst]], lo*math.Pow(hi/lo, 0.1)), lo*math.Pow(hi/lo, 0.9))
	}
	under, over := at.clone(), at.clone()
	under.hiS[worst], over.loS[worst] = cut, cut
	var left []*box
	for _, part := range []*box{under, over} {
		if b.solve(part) {
			left = append(left, part)
		}
	}
	return left
}
