package optimize

import (
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/verify"
)

// TestLiquidKept: a batch that keeps its broth keeps the minerals in it; the plan
// verifies, and less of them has to be added.
func TestLiquidKept(t *testing.T) {
	h := sample.QuinceLane(t)
	pet, ok := h.Pet("Marlow")
	if !ok {
		t.Fatal("no Marlow")
	}
	poured := solve(t, h, pet)
	base := *h.Base
	base.KeepsLiquid = true
	h.Base = &base
	kept := solve(t, h, pet)
	if found := verify.Verify(kept, h, pet); len(found) > 0 {
		t.Fatal(found)
	}
	inPot := func(p *household.Plan) float64 {
		return p.Base.Composition[nutrients.Potassium].Lo * p.Base.CookedG
	}
	if inPot(kept) <= inPot(poured) {
		t.Errorf("potassium in the pot: %g poured off, %g kept", inPot(poured), inPot(kept))
	}
	if poured.Base.RecipeDigest == kept.Base.RecipeDigest {
		t.Error("both are the same recipe")
	}
	if !strings.Contains(strings.Join(kept.Base.CookingNotes, " "), "liquid") {
		t.Errorf("the notes do not say so: %v", kept.Base.CookingNotes)
	}
}
