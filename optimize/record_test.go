package optimize

import (
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize/verify"
)

// Notes stand beside cautions on every document and are written as they are: from a
// capital to a full stop.
func TestNotesAreSentences(t *testing.T) {
	h := sample.QuinceLane(t)
	h.Kitchen.FineScaleG, h.Kitchen.PremixDays = 0.03, 56
	notes := 0
	for i := range h.Pets {
		pet := &h.Pets[i]
		pet.Prefer = household.PreferCheapest
		plan := solve(t, h, pet)
		notes += len(plan.Pet.Notes)
		for _, n := range append(plan.Pet.Notes, plan.Pet.Cautions...) {
			if first := n[:1]; first != strings.ToUpper(first) || !strings.HasSuffix(n, ".") {
				t.Errorf("%s: %q", pet.Name, n)
			}
		}
	}
	if notes < len(h.Pets) {
		t.Errorf("only %d notes in all", notes)
	}
	for in, want := range map[string]string{"ö fehlt": "Ö fehlt.", "Is it?": "Is it?", "": ""} {
		if got := sentence(in); got != want {
			t.Errorf("%q became %q", in, got)
		}
	}
}

// The birthday goes into the record as the household gives it, and what the record says
// otherwise is found.
func TestBirthdayIsRecorded(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := &h.Pets[0]
	plan := solve(t, h, pet)
	if plan.Pet.Born.IsZero() || plan.Pet.Born != pet.Born {
		t.Fatalf("born %s, recorded %s", pet.Born, plan.Pet.Born)
	}
	if found := verify.Verify(plan, h, pet); len(found) > 0 {
		t.Errorf("verified: %v", found)
	}
	plan.Pet.Born = pet.Born.AddDays(1)
	if found := verify.Verify(plan, h, pet); len(found) != 1 || found[0].Code != "verify-born" {
		t.Errorf("another birthday: %v", found)
	}
	plan.Pet.Born = household.Date{}
	if found := verify.Verify(plan, h, pet); len(found) > 0 {
		t.Errorf("a record from before there was a birthday: %v", found)
	}
}
