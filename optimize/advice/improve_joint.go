package advice

import (
	"context"
	"math"
	"slices"

	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/lp"
	"bowlwright/optimize/milp"
)

const (
	// mostTogether is the size of a change of several foods, mostJoined how many
	// single changes it is chosen from.
	mostTogether = 3
	mostJoined   = 12
	// mostJointPets bounds the joint program: its size grows with the square of
	// the pets.
	mostJointPets = 12
	// joinedWidth is how many unfinished sets each size goes on with.
	joinedWidth = 4
	// mostSettled is of how many sets of each size the amounts are worked out.
	mostSettled = 2
	// anotherFood is the share that a further food has to save.
	anotherFood = 0.05
	// relinearised is how often the portions are worked out anew: the amount of a
	// food in a bowl is the product of two unknowns.
	relinearised = 3
)

// joint is the program of all pets together, joined by what is changed in the pot
// that they share. The amount of a changed food in a bowl is a product of two
// unknowns, its share of the pot and the portion. The portion's energy hardly
// changes, so shares are counted against a pot of unchanged energy, and the portion
// is taken from the last round.
type joint struct {
	p     *pot
	moves []int
	first int // the column of the first move
	q     lp.Problem
	// misses and grams are the costs of what is missed and of the add-on, all the
	// row that sums what is missed.
	misses, grams []float64
	all           int
	solver        *lp.Solver
}

// newJoint states the joint program for portions of the base as it is; nobody may
// miss more than before.
func (p *pot) newJoint(moves []int, portions []float64) (*joint, error) {
	blocks := make([]lp.Problem, len(p.pets))
	width := 0
	for i, one := range p.pets {
		blocks[i] = one.Elastic()
		width += len(blocks[i].Cost)
	}
	n := width + len(moves)
	j := &joint{p: p, moves: moves, first: width, misses: make([]float64, n), grams: make([]float64, n)}
	q := lp.Problem{Cost: j.grams, Lower: make([]float64, n), Upper: make([]float64, n)}
	trust := lp.Row{A: make([]float64, n), Lower: math.Inf(-1), Upper: 1}
	at := 0
	for i, one := range p.pets {
		b := blocks[i]
		items, met := len(one.Items), p.before[i].missing == 0
		for c := range b.Cost {
			q.Upper[at+c] = b.Upper[c]
			if c >= items && met {
				q.Upper[at+c] = p.before[i].staged.Problem.Upper[c]
			}
			if c >= items {
				j.misses[at+c] = 1
			} else if c > 0 {
				j.grams[at+c] = 1
			}
		}
		// With less energy in the pot a portion grows beyond that of the base as it is.
		q.Upper[at] = one.Items[0].Cap / (1 - mostTaken)
		brings := make([]nutrients.Profile, len(moves))
		for k, m := range moves {
			brings[k] = diet.PerGram(&p.moves[m].kept, one.Pet.Animal.Species)
		}
		for r, row := range b.Rows {
			wide := lp.Row{A: make([]float64, n), Lower: row.Lower, Upper: row.Upper}
			copy(wide.A[at:], row.A)
			if r == len(b.Rows)-1 { // what is missed of all limits
				if !met {
					wide.Upper = p.before[i].missing + diet.ViolationSliver/2
				}
			} else if of := one.Rows[r].Of; of != nil {
				for k, m := range moves {
					x := &p.moves[m]
					share := x.signed(p.even(x)) / p.cooked // of the pot, for the whole move
					wide.A[width+k] = of(&brings[k]) * share * portions[i] / one.Rows[r].Size
					if one.Rows[r].Limit.Kind == nutrients.OfUnharmed {
						// What the changed base brings more by itself is allowed: by the move, and
						// by the larger portion of a leaner pot. That less may be allowed, too, is
						// judged afterwards.
						energy := one.Rows[0]
						grows := of(&brings[k]) - of(&one.Items[0].Per)*energy.Of(&brings[k])/energy.A[0]
						wide.A[width+k] -= max(0, grows*share) * one.Items[0].Cap / one.Rows[r].Size
					}
				}
			}
			q.Rows = append(q.Rows, wide)
		}
		at += len(b.Cost)
	}
	for k, m := range moves {
		// A move's unknown is the share of the most that it may be.
		q.Upper[width+k] = 1
		trust.A[width+k] = p.moves[m].most / (mostChanged * p.raw)
	}
	j.all = len(q.Rows) + 1
	q.Rows = append(q.Rows, trust, lp.Row{A: j.misses, Lower: math.Inf(-1), Upper: math.Inf(1)})
	j.q = q
	var err error
	j.solver, err = lp.New(q)
	return j, err
}

// with solves the program with some of its moves only: the least that is missed,
// where anything is, and at that the least add-on. It returns the grams of the moves.
func (j *joint) with(open []int) (v verdict, out []change, ok bool) {
	for k, m := range j.moves {
		most := 0.0
		if slices.Contains(open, m) {
			most = 1
		}
		j.solver.SetColumn(j.first+k, 0, most)
	}
	j.solver.SetRow(j.all, math.Inf(-1), math.Inf(1))
	if verdictOf(j.p.before).missing > 0 {
		j.solver.SetCost(j.misses)
		res := j.solver.Solve()
		if res.Status != lp.Optimal {
			return v, nil, false
		}
		v.missing = res.Objective
		j.solver.SetRow(j.all, math.Inf(-1), v.missing+diet.ViolationSliver)
	}
	j.solver.SetCost(j.grams)
	res := j.solver.Solve()
	if res.Status != lp.Optimal {
		return v, nil, false
	}
	v.grams = res.Objective
	energy := 1.0 // of the pot as it is, within the changed one
	for k, m := range j.moves {
		x := &j.p.moves[m]
		energy -= x.signed(res.X[j.first+k]*j.p.even(x)) * x.kcal / j.p.kcal
	}
	for k, m := range j.moves {
		x, share := &j.p.moves[m], res.X[j.first+k]
		if !slices.Contains(open, m) {
			continue
		}
		// In a pot lean enough the moves bring more than all of its energy: then each is
		// as large as it may be.
		g := min(share, 1) * x.most
		if energy > 0 {
			g = min(x.most, share*j.p.even(x)/energy)
		}
		out = append(out, change{m, g})
	}
	return v, j.p.within(out), true
}

// added is the raw weight that changes add to the pot.
func (p *pot) added(changes []change) float64 {
	g := 0.0
	for _, c := range changes {
		if !p.moves[c.move].less {
			g += c.g
		}
	}
	return g
}

// within shrinks what is added to what a change may add: against a pot of unchanged
// energy it was.
func (p *pot) within(changes []change) []change {
	if added := p.added(changes); added > mostChanged*p.raw {
		for i, c := range changes {
			if !p.moves[c.move].less {
				changes[i].g *= mostChanged * p.raw / added
			}
		}
	}
	return changes
}

// even is the most of a move against a pot of unchanged energy.
func (p *pot) even(m *move) float64 { return m.most / (1 + m.signed(m.most)*m.kcal/p.kcal) }

// joined is a set of moves and the optimum of the joint program with them.
type joined struct {
	moves []int
	value verdict
}

// larger adds every move to every set and returns the new sets, best first.
func (j *joint) larger(ctx context.Context, sets []joined) ([]joined, error) {
	var out []joined
	seen := map[string]bool{}
	for _, set := range sets {
		for _, m := range j.moves {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			moves := append(slices.Clone(set.moves), m)
			slices.Sort(moves)
			if key := keyOf(moves); slices.Contains(set.moves, m) || seen[key] {
				continue
			} else {
				seen[key] = true
			}
			if v, _, ok := j.with(moves); ok {
				out = append(out, joined{moves, v})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b joined) int { return a.value.compare(b.value) })
	return out, nil
}

// severalChanges looks for two or three changes at once, chosen in the joint program with
// all their amounts free; nil where none is found.
func (p *pot) severalChanges(ctx context.Context, singles []trial) (*trial, error) {
	if len(singles) < 2 || len(p.pets) > mostJointPets || verdictOf(p.before).impossible > 0 {
		return nil, nil
	}
	var moves []int
	for _, t := range singles[:min(len(singles), mostJoined)] {
		moves = append(moves, t.changes[0].move)
	}
	portions := p.portions(p.before, nil)
	j, err := p.newJoint(moves, portions)
	if err != nil {
		return nil, err
	}
	// A first food is as good as another: only pairs show what goes together.
	sets, err := j.larger(ctx, []joined{{}})
	var best *trial
	for size := 2; size <= mostTogether && err == nil; size++ {
		if sets, err = j.larger(ctx, sets); err != nil {
			break
		}
		sets = sets[:min(len(sets), joinedWidth)]
		was := best
		for _, set := range sets[:min(len(sets), mostSettled)] {
			t, err := p.settled(set.moves, portions)
			if err != nil {
				return nil, err
			}
			if t == nil || was != nil && !better(verdictOf(was.after), verdictOf(t.after), anotherFood) {
				continue
			}
			if best == was || verdictOf(t.after).compare(verdictOf(best.after)) < 0 {
				best = t
			}
		}
	}
	if err != nil || best == nil {
		return nil, err
	}
	return p.pruned(best, portions)
}

// pruned leaves out a food that saves little on top of the others.
func (p *pot) pruned(best *trial, portions []float64) (*trial, error) {
	if len(best.changes) <= 2 {
		return best, nil
	}
	smaller := *best
	for out := range best.changes {
		var moves []int
		for i, c := range best.changes {
			if i != out {
				moves = append(moves, c.move)
			}
		}
		t, err := p.settled(moves, portions)
		if err != nil {
			return nil, err
		}
		if t == nil || better(verdictOf(t.after), verdictOf(best.after), anotherFood) {
			continue
		}
		if len(smaller.changes) == len(best.changes) || verdictOf(t.after).compare(verdictOf(smaller.after)) < 0 {
			smaller = *t
		}
	}
	return &smaller, nil
}

// portions are each pet's grams of the base as it is with the energy of what it
// eats of the changed one.
func (p *pot) portions(all []outcome, changes []change) []float64 {
	weight, kcal := p.cooked, p.kcal
	for _, c := range changes {
		m := &p.moves[c.move]
		weight += m.signed(c.g) * m.yield
		kcal += m.signed(c.g) * m.kcal
	}
	out := make([]float64, len(all))
	for i, o := range all {
		out[i] = o.staged.X[0] * p.cooked / weight * kcal / p.kcal
	}
	return out
}

// settled works out the amounts of the chosen moves, each round with the portions of
// the last, and returns the best that harms nobody on whole steps, as it is planned.
func (p *pot) settled(chosen []int, portions []float64) (*trial, error) {
	var best *trial
	for range relinearised {
		j, err := p.newJoint(chosen, portions)
		if err != nil {
			return nil, err
		}
		_, changes, ok := j.with(chosen)
		if !ok {
			break
		}
		around, err := p.rounded(changes)
		if err != nil {
			return nil, err
		}
		for _, t := range around {
			if best == nil || verdictOf(t.after).compare(verdictOf(best.after)) < 0 {
				best = &t
			}
		}
		after, err := p.after(changes)
		if err != nil {
			return nil, err
		}
		if verdictOf(after).impossible > 0 {
			break
		}
		portions = p.portions(after, changes)
	}
	if best == nil {
		return nil, nil
	}
	good, err := p.asPlanned([]trial{*best})
	if err != nil || len(good) == 0 {
		return nil, err
	}
	return &good[0], nil
}

// rounded tries the amounts rounded up and down to whole steps, all combinations,
// and returns those that harm nobody and hold at least two changes.
func (p *pot) rounded(changes []change) ([]trial, error) {
	var good []trial
	for bits := range 1 << len(changes) {
		var t trial
		for i, c := range changes {
			n := int(math.Floor(c.g/p.step + milp.IntegralTol))
			if bits>>i&1 == 1 {
				n++
			}
			if n > 0 && n <= p.steps(c.move) {
				t.changes = append(t.changes, change{c.move, p.grams(c.move, n)})
			}
		}
		// Rounding up may add more than a change may.
		if len(t.changes) < 2 || p.added(t.changes) > mostChanged*p.raw*(1+diet.LimitTol) {
			continue
		}
		var err error
		if t.after, err = p.after(t.changes); err != nil {
			return nil, err
		}
		if len(harmed(p.before, t.after)) == 0 {
			good = append(good, t)
		}
	}
	return good, nil
}
