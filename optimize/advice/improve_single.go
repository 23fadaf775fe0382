package advice

import (
	"context"
	"maps"
	"slices"

	"bowlwright/household/parallel"
)

// mostScreened is how many moves are looked at closely.
const mostScreened = 80

// singles returns the worthwhile single changes, each with its best amount, best
// first.
func (p *pot) singles(ctx context.Context) ([]trial, error) {
	likely := p.screened()
	trials := make([]*trial, len(likely))
	errs := make([]error, len(likely))
	parallel.OnAllProcessors(len(likely), func(i int) {
		if errs[i] = ctx.Err(); errs[i] == nil {
			trials[i], errs[i] = p.best(likely[i])
		}
	})
	var found []trial
	for i, t := range trials {
		if errs[i] != nil {
			return nil, errs[i]
		}
		if t != nil && better(verdictOf(p.before), verdictOf(t.after), usefulSaving) {
			found = append(found, *t)
		}
	}
	slices.SortStableFunc(found, func(a, b trial) int { return verdictOf(a.after).compare(verdictOf(b.after)) })
	return found, nil
}

// asPlanned works out anew what trials mean, as plans on the changed base do, and returns
// those that are still worthwhile and harm nobody, best first.
func (p *pot) asPlanned(trials []trial) ([]trial, error) {
	after, errs := make([][]outcome, len(trials)), make([]error, len(trials))
	parallel.OnAllProcessors(len(trials), func(i int) {
		after[i], errs[i] = p.planned(trials[i].changes)
	})
	var good []trial
	for i, t := range trials {
		if errs[i] != nil {
			return nil, errs[i]
		}
		t.after = after[i]
		if len(harmed(p.before, t.after)) == 0 && better(verdictOf(p.before), verdictOf(t.after), usefulSaving) {
			good = append(good, t)
		}
	}
	slices.SortStableFunc(good, func(a, b trial) int { return verdictOf(a.after).compare(verdictOf(b.after)) })
	return good, nil
}

// screened returns the moves by which the optimum falls at first, steepest first.
// The plans that cost at most so much are convex in the grams of the pot and of the
// change, so the amounts of a change that do are an interval: for one pet, what makes
// things worse at first never helps. For several it is a choice of what to look at.
// A pet that is impossible has no slope: then all moves count.
func (p *pot) screened() []int {
	type slope struct {
		move int
		v    verdict
	}
	var all []slope
	for k := range p.moves {
		s := slope{move: k}
		s.v = p.slope(k)
		all = append(all, s)
	}
	impossible := verdictOf(p.before).impossible > 0
	all = slices.DeleteFunc(all, func(s slope) bool {
		return !impossible && !(s.v.missing < 0 || s.v.missing == 0 && s.v.grams < 0)
	})
	slices.SortStableFunc(all, func(a, b slope) int { return a.v.compare(b.v) })
	var out []int
	for _, s := range all[:min(len(all), mostScreened)] {
		out = append(out, s.move)
	}
	return out
}

// slope is the change of the optimum at first, from the duals, times the largest
// amount of the move: by how much the limits' prices value what it brings to each
// pet's bowl.
func (p *pot) slope(k int) (v verdict) {
	m := &p.moves[k]
	kept := bySpecies(m.kept)
	for i, one := range p.pets {
		if p.before[i].impossible {
			continue
		}
		profile := kept.of(one.Pet.Animal.Species)
		s := p.before[i].staged
		share := m.signed(m.most) / p.cooked * s.X[0] // grams of it in the bowl
		for r, row := range one.Rows {
			if row.Of == nil {
				continue
			}
			a := row.Of(&profile) * share / row.Size
			if p.before[i].missing > 0 {
				v.missing -= s.ViolationDuals[r] * a
			} else {
				v.grams -= s.Duals[r] * a
			}
		}
	}
	return v
}

// best looks for the amount of a single move with the best verdict that harms
// nobody, by thirds on whole steps; nil where every amount tried harms somebody. For
// several pets the sum may have more than one valley: then it is the best that was
// tried.
func (p *pot) best(k int) (*trial, error) {
	seen := map[int]*trial{}
	harms := map[int]bool{}
	try := func(n int) error {
		if seen[n] != nil {
			return nil
		}
		t := &trial{changes: []change{{k, p.grams(k, n)}}}
		var err error
		t.after, err = p.after(t.changes)
		seen[n], harms[n] = t, len(harmed(p.before, t.after)) > 0
		return err
	}
	// below says whether n is as good as other or better.
	below := func(n, other int) (bool, error) {
		for _, x := range []int{n, other} {
			if err := try(x); err != nil {
				return false, err
			}
		}
		if harms[n] != harms[other] {
			return harms[other], nil
		}
		if harms[n] {
			return n < other, nil
		}
		return verdictOf(seen[n].after).compare(verdictOf(seen[other].after)) <= 0, nil
	}
	low, high := 1, p.steps(k)
	for high-low > 2 {
		third := (high - low) / 3
		a, b := low+third, high-third
		smaller, err := below(a, b)
		if err != nil {
			return nil, err
		}
		if smaller {
			high = b - 1
		} else {
			low = a + 1
		}
	}
	for n := low; n <= high; n++ {
		if err := try(n); err != nil {
			return nil, err
		}
	}
	var best *trial
	// From the smallest change: what is missed by a hair counts as equal, so with
	// another order another amount could be the best.
	for _, n := range slices.Sorted(maps.Keys(seen)) {
		if t := seen[n]; !harms[n] && (best == nil || verdictOf(t.after).compare(verdictOf(best.after)) < 0) {
			best = t
		}
	}
	return best, nil
}
