package optimize

import (
	"context"
	"math"
	"math/rand"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/milp"
	"bowlwright/optimize/weighing"
)

// A plan that cannot be met misses what no exact amounts reach, and nothing else but
// where it is proved that no whole steps hold all that exact amounts keep.
func TestShortPlansMissOnlyWhatCannotBeReached(t *testing.T) {
	short, more := 0, 0
	for seed := range int64(sample.Count(20, 130)) {
		r := rand.New(rand.NewSource(seed))
		h := sample.DrawStocked(r)
		p, err := diet.Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 {
			continue
		}
		s := solved(t, p)
		if s.Farkas != nil || s.Violation == 0 {
			continue
		}
		plan, err := Solve(context.Background(), Request{Household: h, Pet: &h.Pets[0]})
		if err != nil {
			t.Fatal(err)
		}
		reachable := map[nutrients.LimitID]bool{}
		way := weighing.NewStepProgram(p, s, weighing.DosesFor(p, s.X), true)
		within, err := way.Reachable()
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range p.Rows {
			reachable[r.Limit] = within[i]
		}
		short++
		for _, n := range plan.Pet.Nutrients {
			risen, grows := reachable[nutrients.RisenMinimum(n.ID)]
			if n.State != household.StateLow || !reachable[nutrients.MinimumOf(n.ID)] || grows && !risen {
				continue
			}
			more++
			for i := range within {
				way.Rows[i].Elastic = way.Rows[i].Elastic && !within[i]
			}
			want := milp.Goal{Misses: true, MaxMiss: math.Inf(1), MaxSpent: math.Inf(1)}
			held, err := milp.New(way.Cols, way.Rows, want)
			if err != nil {
				t.Fatal(err)
			}
			if held.Run(func(steps []float64) (float64, bool) { return way.Accept(steps, want) }) != nil || !held.Proved {
				t.Errorf("seed %d: %s is missed, and it is not proved that it had to be", seed, n.Name)
			}
			break
		}
	}
	t.Logf("%d plans short, %d of them also of a limit that exact amounts keep and no whole steps", short, more)
	if short < sample.Count(6, 40) {
		t.Errorf("only %d short plans", short)
	}
}
