package weighing

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"bowlwright/household"
	"bowlwright/nutrients/number"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/milp"
)

// Fewest finds, of the weighable days that keep every limit with at most so many times
// the least add-on, one with the fewest add-ons. It starts from a day that keeps them,
// takes out what can be missed, and then looks for smaller sets until none is left or it
// has tried long enough; a note says which.
func Fewest(ctx context.Context, p *diet.Program, s *diet.Solution, from *Day) (*Day, string, error) {
	most := max(p.Kitchen.FewestWithin*s.LeastG, p.Spent(from.Grams))
	f := &fewest{ctx: ctx, p: p, most: most, best: from, doses: DosesFor(p, s.X)}
	if err := f.takeOut(); err != nil {
		return nil, "", err
	}
	set, proved, err := p.Smaller(s, len(used(f.best)), most, f.weighed)
	if err == nil {
		err = f.err
	}
	if err != nil {
		return nil, "", err
	}
	if set != nil {
		f.best = f.days[key(set)]
	}
	n := len(used(f.best))
	note := ""
	if !proved {
		note = "whether still fewer add-ons would do was not searched to the end"
	}
	// With any amount of add-on, on exact amounts.
	without, _, err := p.Smaller(s, n, math.Inf(1), nil)
	if err == nil && without != nil && len(without) < n {
		note = fmt.Sprintf("with more than %s times the least add-on, %d fewer add-ons could do: raise fewest_within in [kitchen]", number.Short(p.Kitchen.FewestWithin), n-len(without))
	}
	return f.best, note, err
}

// fewest is one search for the fewest add-ons.
type fewest struct {
	ctx  context.Context
	p    *diet.Program
	most float64
	// doses are those of the least add-on: finer where a set needs more of an item.
	doses []dose
	best  *Day
	days  map[string]*Day
	err   error
}

// takeOut leaves out one add-on after the other for as long as the rest can be weighed.
func (f *fewest) takeOut() error {
	for again := true; again; {
		again = false
		set := used(f.best)
		for i := range set {
			smaller := append(append([]int(nil), set[:i]...), set[i+1:]...)
			if _, ok := f.weighed(smaller); ok {
				f.best, again = f.days[key(smaller)], true
				break
			}
			if f.err != nil {
				return f.err
			}
		}
	}
	return nil
}

// weighed weighs a set of add-ons and no others.
func (f *fewest) weighed(set []int) (float64, bool) {
	if f.err != nil {
		return 0, false
	}
	if f.days == nil {
		f.days = map[string]*Day{}
	}
	day, seen := f.days[key(set)]
	if !seen {
		in := map[int]bool{}
		for _, j := range set {
			in[j] = true
		}
		day, f.err = f.weigh(f.p.Only(func(j int) bool { return in[j] }))
		f.days[key(set)] = day
	}
	if day == nil {
		return 0, false
	}
	return f.p.Spent(day.Grams), true
}

// weigh weighs a program whose add-ons are those of a set; nil where no weighable amounts
// keep every limit.
func (f *fewest) weigh(p *diet.Program) (*Day, error) {
	p.Prefer = household.PreferLeast
	s, err := p.Solve(f.ctx, nil)
	if err != nil || s.Farkas != nil || s.Violation > 0 || s.Spent > f.most {
		return nil, err
	}
	return keepAll(p, s, append(waysOf(p, s), f.doses), f.most, setNodes)
}

func used(d *Day) []int {
	var set []int
	for j := 1; j < len(d.Grams); j++ {
		if d.Grams[j] > 0 {
			set = append(set, j)
		}
	}
	return set
}

func key(set []int) string { return fmt.Sprint(slices.Sorted(slices.Values(set))) }

// keepAll finds weighable amounts that keep every limit and spend at most so much: first
// of what the exact amounts hold, then of everything.
func keepAll(p *diet.Program, s *diet.Solution, ways [][]dose, most float64, nodes int) (*Day, error) {
	for _, all := range []bool{false, true} {
		for _, doses := range ways {
			w := NewStepProgram(p, s, doses, all)
			got, err := w.Search(milp.Goal{Distance: true, MaxSpent: most, MaxNodes: nodes})
			if got != nil || err != nil {
				return got, err
			}
		}
	}
	return nil, nil
}

// waysOf are the doses to try, the likelier first: daily ones, and helpings for several
// days.
func waysOf(p *diet.Program, s *diet.Solution) [][]dose {
	daily := DosesFor(p, s.X)
	ways := [][]dose{daily}
	if d, much := spreadOut(p, daily, s.X); d != nil {
		if ways = append(ways, d); much {
			ways[0], ways[1] = d, daily
		}
	}
	return ways
}

// dailyFirst is the ways in the order in which less than every minimum is kept.
func dailyFirst(ways [][]dose) [][]dose {
	spread := func(d []dose) int {
		if slices.ContainsFunc(d, func(x dose) bool { return x.Every > 1 }) {
			return 1
		}
		return 0
	}
	return slices.SortedStableFunc(slices.Values(ways), func(a, b []dose) int { return cmp.Compare(spread(a), spread(b)) })
}
