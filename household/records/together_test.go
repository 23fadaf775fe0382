package records

import (
	"errors"
	"sync"
	"testing"

	"bowlwright/household"
	"bowlwright/household/safefile"
)

// TestManyRunsAtOnce: each run saves or is told that another one does; no number
// is given twice and nothing is lost.
func TestManyRunsAtOnce(t *testing.T) {
	dir := folder(t, map[string]string{"household.toml": twoPets})
	h := mustLoad(t, dir)
	plans := []*household.Plan{testPlan(h, "Marlow", 400), testPlan(h, "Žofka the 2nd", 90)}
	var wait sync.WaitGroup
	var mu sync.Mutex
	saved, weighed := 0, 0
	for range 8 {
		wait.Go(func() {
			for range 5 {
				_, err := Open(dir).SavePlans(plans)
				_, weighErr := Open(dir).Weigh(h, household.WeighIn{Date: testDay, Pet: "Marlow", Kg: 31}, testDay)
				mu.Lock()
				for _, e := range []error{err, weighErr} {
					var locked *safefile.LockedError
					if e != nil && !errors.As(e, &locked) {
						t.Error(e)
					}
				}
				if err == nil {
					saved++
				}
				if weighErr == nil {
					weighed++
				}
				mu.Unlock()
			}
		})
	}
	wait.Wait()
	got, found, err := Open(dir).Plans()
	if err != nil || len(found) > 0 || len(got) != 2*saved || saved == 0 {
		t.Fatalf("%d plans of %d, %v, %v", len(got), 2*saved, found, err)
	}
	for i, rec := range got {
		if rec.Seq != i+1 {
			t.Errorf("record %d has the number %d", i+1, rec.Seq)
		}
	}
	if log := mustLoad(t, dir).Weights; len(log) != weighed {
		t.Errorf("%d weighings of %d", len(log), weighed)
	}
}
