package optimize

import (
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize/verify"
)

// A batch within a batch that lost weight in cooking, with figures that are not all
// known: both computations count the known share alike, and the plan is verified.
func TestNestedBatchVerifies(t *testing.T) {
	h := sample.QuinceLane(t)
	inner := *h.Base
	inner.File, inner.Name, inner.YieldG = "inner", "Inner", 0.7*inner.RawGrams()
	outer := *h.Base
	outer.Ingredients = append([]household.Ingredient{{Batch: &inner, Grams: 1500}}, outer.Ingredients...)
	h.Base = &outer
	for i := range h.Pets {
		plan := solve(t, h, &h.Pets[i])
		if !plan.Pet.Status.Printable() {
			t.Errorf("%s: %s", h.Pets[i].Name, plan.Pet.Status)
		}
		if found := verify.Verify(plan, h, &h.Pets[i]); len(found) > 0 {
			t.Error(found)
		}
	}
}
