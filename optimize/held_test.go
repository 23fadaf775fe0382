package optimize

import (
	"context"
	"math"
	"math/rand"
	"testing"

	"bowlwright/household"
)

// A plan that cannot be met misses what no exact amounts reach, and nothing else but
// where it is proved that no whole steps hold all that exact amounts keep.
func TestShortPlansMissOnlyWhatCannotBeReached(t *testing.T) {
	short, more := 0, 0
	for seed := range int64(120) {
		r := rand.New(rand.NewSource(seed))
		h := wellStocked(r)
		p, err := formulate(h, &h.Pets[0])
		if err != nil || p.rows[0].a[0] <= 0 {
			continue
		}
		s := drawnStages(t, p)
		if s.farkas != nil || s.violation == 0 {
			continue
		}
		plan, err := Solve(context.Background(), Request{Household: h, Pet: &h.Pets[0]})
		if err != nil {
			t.Fatal(err)
		}
		reachable := map[string]bool{}
		way := newWeighing(p, s, dosesFor(p, s.x), true)
		within, err := way.reachable()
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range p.rows {
			reachable[r.limit] = within[i]
		}
		short++
		for _, n := range plan.Pet.Nutrients {
			if n.State != household.StateLow || !reachable[n.ID.String()+" lower"] {
				continue
			}
			more++
			for i := range within {
				way.rows[i].elastic = way.rows[i].elastic && !within[i]
			}
			want := aim{misses: true, maxMiss: math.Inf(1), maxSpent: math.Inf(1)}
			held, err := newSearch(way.cols, way.rows, want)
			if err != nil {
				t.Fatal(err)
			}
			if held.run(func(steps []float64) (float64, bool) { return way.accept(steps, want) }) != nil || !held.proved {
				t.Errorf("seed %d: %s is missed, and it is not proved that it had to be", seed, n.Name)
			}
			break
		}
	}
	t.Logf("%d plans short, %d of them also of a limit that exact amounts keep and no whole steps", short, more)
	if short < 40 {
		t.Errorf("only %d short plans", short)
	}
}
