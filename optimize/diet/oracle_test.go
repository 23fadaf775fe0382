package diet

import (
	"math"
	"os"
	"testing"

	"bowlwright/fixtures/outside"
	"bowlwright/optimize/lp"
)

// Seeded household programs and degenerate ones, both stages, against HiGHS. A
// disagreement is settled by our own proof, redone in exact arithmetic: an
// optimum by its duals, an infeasibility by its multipliers.
func TestAgainstHiGHS(t *testing.T) {
	python := outside.Python(t, "scipy")
	plain, bent := 120, 60
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		plain, bent = 5000, 2000
	}
	var problems []lp.Problem
	var results []lp.Result
	for _, d := range drawPrograms(t, 20, plain, bent) {
		for _, q := range d.stages {
			s, err := lp.New(q)
			if err != nil {
				t.Fatal(err)
			}
			problems, results = append(problems, q), append(results, s.Solve())
		}
	}
	programs := make([]outside.Program, len(problems))
	for i, p := range problems {
		programs[i] = outside.Of(p)
	}
	answers := outside.Ask[outside.Program, outside.Answer](t, python, "../lp/testdata/highs.py", programs)
	counts := map[lp.Status]int{}
	settled := 0
	for i, a := range answers {
		got := results[i]
		counts[got.Status]++
		if got.Status == lp.Imprecise || got.Status == lp.IterationLimit {
			t.Errorf("program %d: %v", i, got.Status)
			continue
		}
		if a.Status == got.Status.String() && (a.Objective == nil || math.Abs(*a.Objective-got.Objective) <= agreeTol*(1+math.Abs(got.Objective))) {
			continue
		}
		if !proved(&problems[i], got) {
			theirs := math.NaN()
			if a.Objective != nil {
				theirs = *a.Objective
			}
			t.Errorf("program %d: %v %.12g, HiGHS %s %.12g, and our proof does not hold", i, got.Status, got.Objective, a.Status, theirs)
		}
		settled++
	}
	t.Logf("%d programs: %d optimal, %d infeasible; %d disagreements, settled by exact proof", len(problems), counts[lp.Optimal], counts[lp.Infeasible], settled)
	if len(problems) < plain || counts[lp.Infeasible] == 0 {
		t.Errorf("too few programs, or all of one kind: %d, %v", len(problems), counts)
	}
}

// proved checks our answer in exact arithmetic: the duals' bound meets the
// objective of a point that keeps its bounds, or the multipliers prove that none does.
func proved(p *lp.Problem, res lp.Result) bool {
	if res.Status == lp.Infeasible {
		return lp.ExactlyProves(p, res.Farkas)
	}
	bound := lp.ExactBound(p, res.Duals)
	if bound == nil || lp.Residual(p, res.X) > 1e-8 {
		return false
	}
	b, _ := bound.Float64()
	return math.Abs(b-res.Objective) <= agreeTol*(1+math.Abs(res.Objective))
}
