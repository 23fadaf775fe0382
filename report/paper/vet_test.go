package paper

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/report"
	"bowlwright/report/internal/sample"
)

func TestVetLayout(t *testing.T) {
	base := sample.Base(t)
	for _, paper := range []string{"a4", "letter"} {
		for _, name := range sample.HardNames {
			p := sample.Short(sample.Plan(name, base))
			p.Pet.Nutrients[0].LowerSource = strings.Repeat("A source with a very long title. ", 12)
			p.Pet.Binding = []household.Binding{{Limit: nutrients.ParseLimitID("calcium lower"), Costs: "0.0026 g of add-on per mg"}}
			drawn, err := drawVet([]household.Paired{sample.Pair(t, p, base), sample.Pair(t, sample.Plan("Pip", base), base)}, Options{Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			checkLayout(t, "veterinarian "+paper, drawn)
		}
	}
	var refused *household.NotPrintableError
	if err := Vet(&bytes.Buffer{}, []household.Paired{sample.Pair(t, sample.Over(sample.Plan("Pip", base)), base)}, Options{}); !errors.As(err, &refused) {
		t.Errorf("a plan that is over: %v", err)
	}
}

// fullPlan holds as much as a real plan of a small old dog does: fifteen add-ons, twelve
// ingredients in the base, long notes.
func fullPlan(base *household.Batch) *household.Plan {
	p := sample.Short(sample.Plan("Tansy", base))
	for i := range 12 {
		p.Pet.Addons = append(p.Pet.Addons, household.AddonAmount{Food: "dicalcium-phosphate-dihydrate", Name: "Dicalcium phosphate dihydrate", G: 0.7546 + float64(i), ServedAs: household.ServedWeighed})
		p.Base.Ingredients = append(p.Base.Ingredients, household.IngredientSnapshot{Food: "rice-white-long-unenriched-raw", Name: "White rice, long grain, unenriched, raw", Share: 0.05, Method: "boiled"})
		p.Pet.Binding = append(p.Pet.Binding, household.Binding{Limit: nutrients.ParseLimitID("methionine-cystine lower"), Costs: "0.000847 g of add-on per mg"})
	}
	for i := range 4 {
		p.Base.CookingNotes = append(p.Base.CookingNotes, strings.Repeat("simmered: losses of cooking taken off, Thiamin 54 % (53 to 58) ", 4)+string(rune('a'+i)))
		p.Pet.Cautions = append(p.Pet.Cautions, "Holds so much vitamin A and D that a small slip is an overdose: weigh it, and go by the label of the bottle in hand.")
	}
	return p
}

// TestVetIsTwoSides a pet on both papers, in type that can be read; only what is far
// beyond a real plan goes on on a third, and loses nothing.
func TestVetIsTwoSides(t *testing.T) {
	base := sample.Base(t)
	for _, paper := range []string{"a4", "letter"} {
		drawn, err := drawVet([]household.Paired{sample.Pair(t, fullPlan(base), base), sample.Pair(t, sample.Plan("Pip", base), base)}, Options{Paper: paper})
		if err != nil {
			t.Fatal(err)
		}
		checkLayout(t, "veterinarian "+paper, drawn)
		if most := 5; drawn.area > most {
			t.Errorf("%s: two pets take %d pages", paper, drawn.area)
		}
		for _, b := range drawn.boxes {
			if b.text != "" && b.points < leastVetPoints {
				t.Errorf("%s: %q is set in %.1f points", paper, b.text, b.points)
			}
		}
	}
	p := sample.Crowded(fullPlan(base))
	drawn, err := drawVet([]household.Paired{sample.Pair(t, p, base)}, Options{Paper: "letter"})
	if err != nil {
		t.Fatal(err)
	}
	checkLayout(t, "veterinarian, crowded", drawn)
	text := strings.Join(strings.Fields(drawnText(drawn)), " ")
	for _, want := range []string{"Nutrient number 19, µg", "Add-on number 25", "Note 25,", p.Base.FiguresDigest[:20], "base " + base.Identity().Code + ", continued"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %d pages", want, drawn.area)
		}
	}
}

// TestVetPageNames the age, the water and the standard, and sets off what to mind.
func TestVetPageNames(t *testing.T) {
	base := sample.Base(t)
	p := sample.Plan("Marlow", base)
	p.Pet.Born, p.Pet.Stage = household.NewDate(2019, 3, 4), nutrients.Growth
	paired := sample.Pair(t, p, base)
	drawn, err := drawVet([]household.Paired{paired}, Options{Paper: "a4"})
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	heads := map[float64]bool{}
	for _, b := range drawn.boxes {
		all = append(all, b.text)
		if b.text == "Nutrient" || b.text == "state" || b.text == "src" {
			heads[b.points] = true
		}
	}
	if len(heads) != 1 {
		t.Errorf("the head of the table is set in sizes of %v", heads)
	}
	text := strings.Join(all, " ")
	for _, want := range []string{"Dog, growing, 7 years, 31.5 kg", "by NRC 2006", "born Mon 4 Mar 2019, 7 years old", "Moisture", "This plan is for a healthy animal.", "Reviewed by", "side 2 of 2"} {
		if !strings.Contains(report.Unbound(text), want) {
			t.Errorf("%q is not on the page", want)
		}
	}
}
