package jar

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// scoopTries is how many ways to count out scoops are tried; mostScoops is more than
// anybody counts without losing count (common practice).
const (
	scoopTries = 60
	mostScoops = 12
)

// Scooped composes a jar whose doses are whole scoops of so many grams, one or more for
// each pet, with room for a scoop that is off where there is such a jar. With the doses
// given the program is linear; which numbers of scoops is searched from the doses of the
// best jar, a scoop more or less for one pet at a time.
func Scooped(pets []Pet, rules Rules, scoop float64) (*Mix, error) {
	start, err := Choose(pets, rules)
	if err != nil {
		return nil, err
	}
	for _, off := range []float64{0.05, 0} {
		rules := start.Rules
		rules.Margin, rules.DoseError, rules.Fair = 0, off, false
		best, err := scoops(pets, rules, scoop, start.Dose)
		if best != nil || err != nil {
			return best, err
		}
	}
	return nil, &ConflictError{Pets: names(pets)}
}

// scoops searches near doses; nil where nothing is found.
func scoops(pets []Pet, rules Rules, scoop float64, doses []float64) (*Mix, error) {
	counts := make([]int, len(doses))
	for k, d := range doses {
		counts[k] = min(mostScoops, max(1, int(math.Round(d/scoop))))
	}
	var best *Mix
	open, tried := [][]int{counts}, map[string]bool{}
	next := func(from []int, pets []int) {
		for _, k := range pets {
			for _, by := range []int{1, -1} {
				c := slices.Clone(from)
				if c[k] += by; c[k] >= 1 && c[k] <= mostScoops && !tried[fmt.Sprint(c)] {
					open = append(open, c)
				}
			}
		}
	}
	for len(open) > 0 && len(tried) < scoopTries {
		at := open[0]
		open = open[1:]
		if tried[fmt.Sprint(at)] {
			continue
		}
		tried[fmt.Sprint(at)] = true
		rules.Doses = make([]float64, len(at))
		for k, n := range at {
			rules.Doses[k] = float64(n) * scoop
		}
		m, err := Compose(pets, rules)
		var none *ConflictError
		switch {
		case err == nil && (best == nil || m.Total() < best.Total()):
			best = m
			// From a better one on only better ones count.
			open = nil
			next(at, places(pets, names(pets)))
		case best == nil && errors.As(err, &none):
			next(at, places(pets, none.Pets))
		case err != nil && !isNone(err):
			return nil, err
		}
	}
	return best, nil
}

// places finds pets by their names.
func places(pets []Pet, names []string) []int {
	var all []int
	for k, p := range pets {
		if slices.Contains(names, p.Name) {
			all = append(all, k)
		}
	}
	return all
}
