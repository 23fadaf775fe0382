package advice

import (
	"slices"
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
)

// What is put on the shelf is fed as it is: raw meat, offal, egg and fish are no
// suggestion, and raw leaves may be one.
func TestSuggestNothingToBeCooked(t *testing.T) {
	h := sample.QuinceLane(t)
	all := candidates(h, sample.PetNamed(t, h, "Marlow"))
	leaves := false
	for _, a := range all {
		leaves = leaves || a.Food.ID == "parsley-raw" || a.Food.ID == "spinach-raw"
		switch f := a.Food; f.Group {
		case "poultry", "beef", "pork", "lamb", "veal", "game", "organ", "fish", "shellfish", "egg":
			if f.State == "raw" {
				t.Errorf("%s is suggested raw", f.ID)
			}
		}
	}
	if !leaves || len(all) < 100 {
		t.Errorf("%d candidates, raw leaves among them: %v", len(all), leaves)
	}
}

// A household's own raw food is known by its name, and what stands on the shelf stays.
func TestOwnRawFoodIsCookedFirst(t *testing.T) {
	for name, want := range map[string]bool{"Minced beef, raw": true, "Minced beef": false, "Courgette, raw": false} {
		state := "cooked"
		if strings.HasSuffix(name, "raw") {
			state = "raw"
		}
		f := &nutrients.Food{ID: "own", Name: name, Group: "other", State: state}
		if got := cookedFirst(f, nutrients.Dog); got != want {
			t.Errorf("%s: %v", name, got)
		}
	}
	h := sample.QuinceLane(t)
	liver, _ := h.Catalogue.Food("lamb-liver-raw")
	h.Addons = append(h.Addons, household.Addon{Food: liver})
	p, err := diet.Formulate(h, sample.PetNamed(t, h, "Marlow"))
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(p.Items, func(x diet.Item) bool { return x.Id == liver.ID }) {
		t.Error("the liver on the shelf is gone")
	}
}
