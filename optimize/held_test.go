package optimize

import (
	"context"
	"math/rand"
	"testing"

	"bowlwright/household"
)

// A plan that cannot be met misses what no exact amounts reach, and as a rule
// nothing else: scale steps are no reason to let go of a limit that can be kept.
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
		within, err := p.weighing(s, dosesFor(p, s.x), true).reachable()
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range p.rows {
			reachable[r.limit] = within[i]
		}
		short++
		for _, n := range plan.Pet.Nutrients {
			if n.State == household.StateLow && reachable[n.ID.String()+" lower"] {
				more++
				break
			}
		}
	}
	t.Logf("%d plans short, %d of them also of a limit that could be kept", short, more)
	if short < 40 || more > short/5 {
		t.Errorf("of %d short plans %d miss a limit that exact amounts keep", short, more)
	}
}
