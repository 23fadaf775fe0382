package jar

import (
	"errors"
	"math"
	"slices"

	"bowlwright/optimize/lp"
)

// conflict names the pets of a proof that no jar serves all, and leaves out those
// without whom there is still none.
func (q *problem) conflict(farkas []float64) error {
	largest := 0.0
	for _, y := range farkas {
		largest = max(largest, math.Abs(y))
	}
	var in []int
	for i, y := range farkas {
		if k := q.of[i]; k >= 0 && math.Abs(y) > farkasTol*largest && !slices.Contains(in, k) {
			in = append(in, k)
		}
	}
	slices.Sort(in)
	for at := 0; at < len(in) && len(in) > 1; {
		fewer := slices.Delete(slices.Clone(in), at, at+1)
		if q.isImpossible(fewer) {
			in = fewer
		} else {
			at++
		}
	}
	e := &ConflictError{Farkas: farkas, Problem: q.lp}
	for _, k := range in {
		e.Pets = append(e.Pets, q.pets[k].Name)
	}
	return e
}

// isImpossible says whether the parts of this jar serve not even these pets.
func (q *problem) isImpossible(group []int) bool {
	var pets []Pet
	rules := q.rules
	rules.Apart, rules.Doses = map[int][]string{}, nil
	for at, k := range group {
		if q.rules.Doses != nil {
			rules.Doses = append(rules.Doses, q.rules.Doses[k])
		}
		p := q.pets[k]
		p.Items = slices.Clone(p.Items)
		for j := range p.Items {
			p.Items[j].Powder = q.part[k][j] >= 0
		}
		pets = append(pets, p)
		rules.Apart[at] = q.rules.Apart[k]
	}
	smaller := formulate(pets, rules)
	solver, err := lp.New(smaller.lp)
	if err != nil {
		return false
	}
	return solver.Solve().Status == lp.Infeasible
}

// isNone says whether an error is that there is no jar, or none that could be verified:
// such a jar is not mixed either.
func isNone(err error) bool {
	var none *ConflictError
	var unproved *UnprovedError
	return errors.As(err, &none) || errors.As(err, &unproved)
}
