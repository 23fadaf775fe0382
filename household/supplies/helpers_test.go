package supplies

import (
	"testing"

	"bowlwright/household"
)

// paired is a plan with the base that it is made for; its numbers are not examined.
func paired(t *testing.T, plan *household.Plan, base *household.Batch) household.Paired {
	t.Helper()
	plan.Base = base.Snapshot()
	pair, err := household.Pair(household.Unexamined(t, plan), base)
	if err != nil {
		t.Fatal(err)
	}
	return pair
}
