package diet

import (
	"context"
	"math"
	"math/rand"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize/lp"
)

// drawnProgram formulates a household on real foods whose base has energy.
func drawnProgram(t *rapid.T) (*household.Household, *Program) {
	h := sample.Draw(rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed"))))
	p, err := Formulate(h, &h.Pets[0])
	if err != nil || p.Rows[0].A[0] <= 0 {
		t.Skip("no energy to plan with")
	}
	return h, p
}

func drawnStages(t rapid.TB, p *Program) *Solution {
	s, err := p.Solve(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// sameLeast compares what two answers miss and need.
func sameLeast(t rapid.TB, a, b *Solution) {
	t.Helper()
	if (a.Farkas == nil) != (b.Farkas == nil) {
		t.Fatalf("one is impossible, the other not")
	}
	if a.Farkas != nil {
		return
	}
	near := func(what string, x, y, tol float64) {
		if math.Abs(x-y) > tol*(1+math.Abs(x)) {
			t.Fatalf("%s: %.12g and %.12g", what, x, y)
		}
	}
	near("violation", a.Violation, b.Violation, 1e-6)
	// Where limits are missed, the sliver of violation is spent on the least
	// grams: its own rounding is larger than the solver's.
	tol := 1e-6
	if a.Violation > 0 {
		tol = 1e-4
	}
	near("least add-on", a.LeastG, b.LeastG, tol)
}

// The unit of a nutrient is nobody's plan. Limits are scaled by factors that are
// no powers of two, so that every figure is rounded anew. Where two sets of as few items
// spend the same to the last digit, that may decide between them, and seldom does.
func TestUnitsDoNotChangeThePlan(t *testing.T) {
	met, otherSet := 0, 0
	for seed := range int64(sample.Count(120, 1200)) {
		r := rand.New(rand.NewSource(seed))
		h := sample.DrawStocked(r)
		p, err := Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 {
			continue
		}
		a := drawnStages(t, p)
		other, err := Formulate(h, &h.Pets[0])
		if err != nil {
			t.Fatal(err)
		}
		for i := range other.Rows {
			k := [...]float64{1, 1e-3, 1e3, 0.3, 1e6}[r.Intn(5)]
			row := &other.Rows[i]
			row.A = slices.Clone(row.A)
			for j := range row.A {
				row.A[j] *= k
			}
			row.Lower, row.Upper, row.Size = row.Lower*k, row.Upper*k, row.Size*k
			if i == 0 {
				other.EnergyLeft, other.EnergySlack = other.EnergyLeft*k, other.EnergySlack*k
			}
		}
		b := drawnStages(t, other)
		sameLeast(t, a, b)
		if a.Farkas != nil || a.Violation > 0 {
			continue
		}
		met++
		if math.Abs(a.Spent-b.Spent) > 1e-6*(1+a.Spent) {
			t.Errorf("seed %d: %.9g and %.9g are spent", seed, a.Spent, b.Spent)
		}
		if tied(a.X, b.X) {
			otherSet++
			continue
		}
		for j := range a.X {
			sameGrams(t, a.X[j], b.X[j])
		}
	}
	t.Logf("%d programs met, %d with another set of as many items", met, otherSet)
	if otherSet > met/100 {
		t.Errorf("in %d of %d programs the unit decides between sets of items", otherSet, met)
	}
	if met < sample.Count(4, 100) {
		t.Errorf("only %d programs met", met)
	}
}

// tied says whether two answers hold other items.
func tied(a, b []float64) bool {
	for j := 1; j < len(a); j++ {
		if (a[j] > ShadowTol) != (b[j] > ShadowTol) {
			return true
		}
	}
	return false
}

func sameGrams(t rapid.TB, x, y float64) {
	// A few milligrams are under any scale.
	if math.Abs(x-y) > 3e-3*(1+math.Abs(x)) {
		t.Fatalf("grams of an item: %.12g and %.12g", x, y)
	}
}

// A shelf with one add-on less never does better.
func TestLessChoiceIsNeverBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, p := drawnProgram(t)
		a := drawnStages(t, p)
		if a.Farkas != nil || len(p.Items) < 3 {
			t.Skip("nothing to take away")
		}
		gone := rapid.IntRange(1, len(p.Items)-1).Draw(t, "gone")
		p.Items[gone].Cap = 0
		b := drawnStages(t, p)
		if b.Farkas != nil {
			return
		}
		if b.Violation < a.Violation-1e-6*(1+a.Violation) {
			t.Fatalf("without %s less is missed: %g, not %g", p.Items[gone].Id, b.Violation, a.Violation)
		}
		if a.Violation == 0 && b.Violation == 0 && b.LeastG < a.LeastG-1e-6*(1+a.LeastG) {
			t.Fatalf("without %s less is needed: %g g, not %g g", p.Items[gone].Id, b.LeastG, a.LeastG)
		}
	})
}

// The price of a limit is the slope of the optimum: where a hair more and a hair
// less differ, it lies between the two.
func TestPricesAreSlopes(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		_, p := drawnProgram(t)
		s := drawnStages(t, p)
		if s.Farkas != nil {
			t.Skip("impossible")
		}
		solve := func(q lp.Problem) (float64, bool) {
			solver, err := lp.New(q)
			if err != nil {
				return 0, false
			}
			res := solver.Solve()
			return res.Objective, res.Status == lp.Optimal
		}
		i := rapid.IntRange(0, len(s.Problem.Rows)-2).Draw(t, "row")
		d := s.Duals[i]
		moved := func(by float64) lp.Problem {
			q := s.Problem
			q.Rows = slices.Clone(q.Rows)
			q.Rows[i].Lower += by
			q.Rows[i].Upper += by
			return q
		}
		const hair = 1e-4 // of the limit
		at, ok := solve(s.Problem)
		more, okMore := solve(moved(hair))
		less, okLess := solve(moved(-hair))
		if !ok || !okMore || !okLess {
			t.Skip("no room on one side")
		}
		up, down := (more-at)/hair, (at-less)/hair
		slack := 1e-3 * (1 + math.Abs(at)) // what verifying to 1e-7 leaves in a quotient
		if d > up+slack || d < down-slack {
			t.Fatalf("row %s: price %g, slopes %g and %g", p.Rows[i].Limit, d, down, up)
		}
		compared++
	})
	if compared < 10 {
		t.Errorf("only %d prices compared", compared)
	}
}
