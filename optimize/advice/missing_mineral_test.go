package advice

import (
	"context"
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize"
)

// Without zinc and potassium on the shelf the explanation says what is missing, and
// the suggestion brings it back.
func TestMissingMineral(t *testing.T) {
	h := sample.QuinceLane(t)
	pet := sample.PetNamed(t, h, "Pip")
	pet.Prefer = household.PreferLeast
	var shelf []household.Addon
	for _, a := range h.Addons {
		if !strings.Contains(a.Food.ID, "potassium") && !strings.Contains(a.Food.ID, "zinc") {
			shelf = append(shelf, a)
		}
	}
	h.Addons = shelf
	req := optimize.Request{Household: h, Pet: pet, Today: household.DateOf(sample.Day)}
	e, err := optimize.Explain(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	if e.Plan.Pet.Status != household.Short {
		t.Fatalf("status %s", e.Plan.Pet.Status)
	}
	t.Log(e.Conflict, e.Words, e.Relaxation)
	if len(e.Conflict) == 0 || len(e.Words) == 0 || len(e.Relaxation) == 0 {
		t.Errorf("short without an explanation: %v %v %v", e.Conflict, e.Words, e.Relaxation)
	}
	list, err := Suggest(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	t.Log(list)
	if len(list) == 0 || !list[0].Reaches {
		t.Fatalf("no suggestion: %v", list)
	}
	for _, a := range list[0].Additions {
		f, ok := h.Catalogue.Food(a.Food)
		if !ok {
			t.Fatalf("%s is not in the catalogue", a.Food)
		}
		h.Addons = append(h.Addons, household.Addon{Food: f})
	}
	if p := solve(t, h, pet).Pet; p.Status != household.Met {
		t.Errorf("with the suggestion the plan is %s: %v", p.Status, p.Notes)
	}
}
