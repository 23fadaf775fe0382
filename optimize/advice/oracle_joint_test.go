package advice

import (
	"context"
	"math"
	"math/rand"
	"os"
	"testing"

	"bowlwright/fixtures/outside"
	"bowlwright/optimize/diet"
)

// The joint program of all pets and the pot they share, with one, two and three
// moves open, against HiGHS.
func TestJointProgramAgainstHiGHS(t *testing.T) {
	python := outside.Python(t, "scipy")
	wanted := 3
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		wanted = 36
	}
	var programs []outside.Program
	var ours []verdict
	r := rand.New(rand.NewSource(23))
	for len(programs) < wanted {
		p, err := newPot(manyPets(r))
		if err != nil || len(p.pets) == 0 || verdictOf(p.before).impossible > 0 {
			continue
		}
		singles, err := p.singles(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		var moves []int
		for _, s := range singles[:min(len(singles), 5)] {
			moves = append(moves, s.changes[0].move)
		}
		if len(moves) < 3 {
			continue
		}
		j, err := p.newJoint(moves, p.portions(p.before, nil))
		if err != nil {
			t.Fatal(err)
		}
		for open := 1; open <= 3; open++ {
			v, _, ok := j.with(moves[:open])
			if !ok {
				t.Errorf("no optimum with %d moves", open)
				continue
			}
			j.q.Cost = j.grams
			j.q.Rows[j.all].Upper = math.Inf(1)
			if verdictOf(p.before).missing > 0 {
				j.q.Rows[j.all].Upper = v.missing + diet.ViolationSliver
			}
			q := outside.Of(j.q)
			for k := range moves {
				most := 0.0
				if k < open {
					most = 1
				}
				q.Upper[j.first+k] = &most
			}
			programs, ours = append(programs, q), append(ours, v)
		}
	}
	for i, a := range outside.Ask[outside.Program, outside.Answer](t, python, "../lp/testdata/highs.py", programs) {
		if a.Objective == nil || math.Abs(*a.Objective-ours[i].grams) > 1e-6*(1+ours[i].grams) {
			t.Errorf("program %d: %.12g, HiGHS %v %v", i, ours[i].grams, a.Status, a.Objective)
		}
	}
}
