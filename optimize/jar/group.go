package jar

import (
	"fmt"
	"math"
	"slices"
)

// Group is the pets of one jar, by their places, and the jar.
type Group struct {
	Pets []int
	Mix  *Mix
}

// Total is the grams of add-on a day of all groups.
func Total(groups []Group) float64 {
	sum := 0.0
	for _, g := range groups {
		sum += g.Mix.Total()
	}
	return sum
}

// merger remembers what groups cost.
type merger struct {
	pets  []Pet
	rules Rules
	known map[string]*Mix // nil where no jar serves the group
}

// Merge divides pets among jars: it begins with a jar for each and joins the two groups
// whose joining costs least, and then moves single pets, until fewest are left or none can
// be joined. Pets that
// have no jar even alone are the caller's fault. The answer holds the divisions in order,
// from the one with most jars to the one with fewest.
func Merge(pets []Pet, rules Rules, fewest int) ([][]Group, error) {
	m := &merger{pets: pets, rules: rules, known: map[string]*Mix{}}
	var groups []Group
	for k := range pets {
		mix, err := m.mix([]int{k})
		if err != nil {
			return nil, err
		}
		if mix == nil {
			return nil, fmt.Errorf("no jar of its own serves %s", pets[k].Name)
		}
		groups = append(groups, Group{[]int{k}, mix})
	}
	all := [][]Group{groups}
	for len(groups) > max(1, fewest) {
		joined, err := m.join(groups)
		if err != nil {
			return nil, err
		}
		if joined == nil {
			break
		}
		if groups, err = m.move(joined); err != nil {
			return nil, err
		}
		all = append(all, groups)
	}
	return all, nil
}

// join joins the two groups whose joining costs least; nil where none can be joined.
func (m *merger) join(groups []Group) ([]Group, error) {
	type pair struct {
		a, b  int
		least float64
	}
	var pairs []pair
	for a := range groups {
		for b := range a {
			least, err := m.leastIncrease(groups[b], groups[a])
			if err != nil {
				return nil, err
			}
			pairs = append(pairs, pair{b, a, least})
		}
	}
	slices.SortStableFunc(pairs, func(x, y pair) int {
		switch {
		case x.least < y.least:
			return -1
		case x.least > y.least:
			return 1
		}
		return 0
	})
	cost := math.Inf(1)
	var best pair
	var with *Mix
	for _, p := range pairs {
		if p.least >= cost || math.IsInf(p.least, 1) {
			break
		}
		a, b := groups[p.a], groups[p.b]
		mix, err := m.mix(union(a.Pets, b.Pets))
		if err != nil {
			return nil, err
		}
		if mix == nil {
			continue
		}
		if c := mix.Total() - a.Mix.Total() - b.Mix.Total(); c < cost {
			cost, best, with = c, p, mix
		}
	}
	if with == nil {
		return nil, nil
	}
	out := slices.Clone(groups)
	out[best.a] = Group{union(groups[best.a].Pets, groups[best.b].Pets), with}
	return slices.Delete(out, best.b, best.b+1), nil
}

// movedPets is the most pets for which single moves are tried after each joining; for
// more of them they gain little and take long.
const movedPets = 8

// move puts single pets from one jar into another as long as that saves something.
func (m *merger) move(groups []Group) ([]Group, error) {
	if len(m.pets) > movedPets {
		return groups, nil
	}
	for range len(m.pets) {
		saved, best := notMissed, groups
		for a := range groups {
			for _, pet := range groups[a].Pets {
				for b := range groups {
					if a == b || len(groups[a].Pets) == 1 {
						continue
					}
					left := slices.DeleteFunc(slices.Clone(groups[a].Pets), func(k int) bool { return k == pet })
					from, err := m.mix(left)
					if err != nil {
						return nil, err
					}
					to, err := m.mix(union(groups[b].Pets, []int{pet}))
					if err != nil {
						return nil, err
					}
					if from == nil || to == nil {
						continue
					}
					if s := groups[a].Mix.Total() + groups[b].Mix.Total() - from.Total() - to.Total(); s > saved {
						saved, best = s, slices.Clone(groups)
						best[a], best[b] = Group{left, from}, Group{union(groups[b].Pets, []int{pet}), to}
					}
				}
			}
		}
		if saved <= notMissed {
			break
		}
		groups = best
	}
	return groups, nil
}

// leastIncrease bounds from below what joining two groups costs: a jar for both is one
// for each pair of a pet of one and a pet of the other, and at least its own grams for
// everybody else.
func (m *merger) leastIncrease(a, b Group) (float64, error) {
	if mix, ok := m.known[key(union(a.Pets, b.Pets))]; ok {
		if mix == nil {
			return math.Inf(1), nil
		}
		return mix.Total() - a.Mix.Total() - b.Mix.Total(), nil
	}
	if len(a.Pets) == 1 && len(b.Pets) == 1 {
		return 0, nil
	}
	bound := 0.0
	for _, k := range union(a.Pets, b.Pets) {
		bound += m.known[key([]int{k})].Total()
	}
	var taken []int
	for _, k := range a.Pets {
		most, with := 0.0, -1
		for _, l := range b.Pets {
			mix, err := m.mix(union([]int{k}, []int{l}))
			if err != nil {
				return 0, err
			}
			if mix == nil {
				return math.Inf(1), nil
			}
			more := mix.Total() - m.known[key([]int{k})].Total() - m.known[key([]int{l})].Total()
			if more > most && !slices.Contains(taken, l) {
				most, with = more, l
			}
		}
		if with >= 0 {
			taken = append(taken, with)
			bound += most
		}
	}
	return bound - a.Mix.Total() - b.Mix.Total(), nil
}

// mix composes the jar of a group, nil where there is none.
func (m *merger) mix(group []int) (*Mix, error) {
	k := key(group)
	if mix, ok := m.known[k]; ok {
		return mix, nil
	}
	var pets []Pet
	rules := m.rules
	rules.Apart = map[int][]string{}
	for at, g := range group {
		pets = append(pets, m.pets[g])
		rules.Apart[at] = m.rules.Apart[g]
	}
	mix, err := plainest(pets, rules)
	if err != nil && !isNone(err) {
		return nil, err
	}
	m.known[k] = mix
	return mix, nil
}

func union(a, b []int) []int {
	all := slices.Concat(a, b)
	slices.Sort(all)
	return all
}

func key(group []int) string { return fmt.Sprint(group) }
