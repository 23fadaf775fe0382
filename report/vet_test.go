package report

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"bowlwright/household"
	"bowlwright/nutrients"
)

func TestVetLayout(t *testing.T) {
	base := testBase(t)
	for _, paper := range []string{"a4", "letter"} {
		for _, name := range hardNames {
			p := short(testPlan(name, base))
			p.Pet.Nutrients[0].LowerSource = strings.Repeat("A source with a very long title. ", 12)
			p.Pet.Binding = []household.Binding{{Limit: "calcium lower", Costs: "0.0026 g of add-on per mg"}}
			drawn, err := drawVet([]household.Paired{pair(t, p, base), pair(t, testPlan("Pip", base), base)}, PaperOptions{Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			checkLayout(t, "veterinarian "+paper, drawn)
		}
	}
	var refused *household.NotPrintableError
	if err := VetPDF(&bytes.Buffer{}, []household.Paired{pair(t, over(testPlan("Pip", base)), base)}, PaperOptions{}); !errors.As(err, &refused) {
		t.Errorf("a plan that is over: %v", err)
	}
}

// The bases are worked out by hand: 1804.2 mg in 1312 kcal of a dog of 31.5 kg,
// whose metabolic weight is 31.5^0.75 = 13.2964 kg.
func TestVetBases(t *testing.T) {
	base := testBase(t)
	v, err := newVetView(pair(t, testPlan("Marlow", base), base))
	if err != nil {
		t.Fatal(err)
	}
	calcium, k := v.rows[0], v.rows[2]
	if calcium.day != "1804" || calcium.per1000 != "1375" || calcium.perMetabolic != "136" || calcium.lower != "1801" || calcium.upper != "–" {
		t.Errorf("calcium: %+v", calcium)
	}
	if k.day != "unknown" || k.per1000 != "–" || k.perMetabolic != "–" || k.perDry != "–" || k.known != "0%" {
		t.Errorf("vitamin K without a figure: %+v", k)
	}
	if chloride := v.rows[3]; !strings.HasSuffix(chloride.source, "†") || chloride.state != "met*" {
		t.Errorf("chloride, recalled and known in part: %+v", chloride)
	}
	if len(v.sources) != 1 || v.sources[0] != "NRC 2006" {
		t.Errorf("sources: %q", v.sources)
	}
}

// fullPlan holds as much as a real plan of a small old dog does: fifteen add-ons, twelve
// ingredients in the base, long notes.
func fullPlan(base *household.Batch) *household.Plan {
	p := short(testPlan("Tansy", base))
	for i := range 12 {
		p.Pet.Addons = append(p.Pet.Addons, household.AddonAmount{Food: "dicalcium-phosphate-dihydrate", Name: "Dicalcium phosphate dihydrate", G: 0.7546 + float64(i), ServedAs: "weighed"})
		p.Base.Ingredients = append(p.Base.Ingredients, household.IngredientSnapshot{Food: "rice-white-long-unenriched-raw", Name: "White rice, long grain, unenriched, raw", Share: 0.05, Method: "boiled"})
		p.Pet.Binding = append(p.Pet.Binding, household.Binding{Limit: "methionine-cystine lower", Costs: "0.000847 g of add-on per mg"})
	}
	for i := range 4 {
		p.Base.CookingNotes = append(p.Base.CookingNotes, strings.Repeat("simmered: losses of cooking taken off, Thiamin 54 % (53 to 58) ", 4)+string(rune('a'+i)))
		p.Pet.Cautions = append(p.Pet.Cautions, "Holds so much vitamin A and D that a small slip is an overdose: weigh it, and go by the label of the bottle in hand.")
	}
	return p
}

// TestVetIsOnePage: one page a pet on both papers, in type that can be read; only what
// is far beyond a real plan goes on on the next, and loses nothing.
func TestVetIsOnePage(t *testing.T) {
	base := testBase(t)
	for _, paper := range []string{"a4", "letter"} {
		drawn, err := drawVet([]household.Paired{pair(t, fullPlan(base), base), pair(t, testPlan("Pip", base), base)}, PaperOptions{Paper: paper})
		if err != nil {
			t.Fatal(err)
		}
		checkLayout(t, "veterinarian "+paper, drawn)
		if drawn.area != 2 {
			t.Errorf("%s: two pets take %d pages", paper, drawn.area)
		}
		for _, b := range drawn.boxes {
			if b.text != "" && b.points < leastVetPoints {
				t.Errorf("%s: %q is set in %.1f points", paper, b.text, b.points)
			}
		}
	}
	p := crowded(fullPlan(base))
	drawn, err := drawVet([]household.Paired{pair(t, p, base)}, PaperOptions{Paper: "letter"})
	if err != nil {
		t.Fatal(err)
	}
	checkLayout(t, "veterinarian, crowded", drawn)
	text := strings.Join(strings.Fields(drawnText(drawn)), " ")
	for _, want := range []string{"Nutrient number 19, µg", "Add-on number 25", "Note 25,", inGroups(p.Base.FiguresDigest)[:20], "base " + base.Identity().Code + ", continued"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %d pages", want, drawn.area)
		}
	}
}

// The foods of a note are put together where the same is noted of them.
func TestSameNotes(t *testing.T) {
	got := sameNotes([]string{"kale-raw: boiled", "beef: simmered", "carrot-raw: boiled", "all of it"})
	if want := []string{"kale-raw, carrot-raw: boiled", "beef: simmered", "all of it"}; !slices.Equal(got, want) {
		t.Errorf("notes: %q", got)
	}
}

// TestDryMatterOfAPot: a pot that came out lighter holds the same food, so the day holds
// the same dry matter and less water.
func TestDryMatterOfAPot(t *testing.T) {
	base := testBase(t)
	plan := testPlan("Marlow", base)
	plan.Pet.Makeup = &household.Makeup{WeightG: 861, DryMatterG: known(261), WaterG: known(600)}
	before := pair(t, plan, base)
	snapshot := base.Snapshot()
	pot := &household.Cooking{Base: snapshot, RawG: snapshot.RawG, ExpectedG: snapshot.CookedG, CookedG: 0.8 * snapshot.CookedG}
	after, err := pot.ForPot(before)
	if err != nil {
		t.Fatal(err)
	}
	lighter, m := after.Plan().Pet.BaseG-plan.Pet.BaseG, after.Plan().Pet.Makeup
	if lighter >= 0 || *m.DryMatterG != 261 || *m.WaterG != 600+lighter || m.WeightG != 861+lighter || *plan.Pet.Makeup.WaterG != 600 {
		t.Errorf("lighter by %g g: %+v", lighter, m)
	}
}

func TestAge(t *testing.T) {
	day := household.NewDate(2026, time.November, 25)
	for _, c := range []struct {
		born household.Date
		want string
	}{
		{household.Date{}, "age not given"},
		{household.NewDate(2026, 7, 15), "born 2026-07-15, 19 weeks old"},
		{household.NewDate(2026, 5, 20), "born 2026-05-20, 6 months old"},
		{household.NewDate(2024, 11, 26), "born 2024-11-26, 23 months old"},
		{household.NewDate(2024, 11, 25), "born 2024-11-25, 2 years old"},
		{household.NewDate(2014, 12, 2), "born 2014-12-02, 11 years old"},
		{day, "born 2026-11-25, 0 weeks old"},
	} {
		if got := ageText(c.born, day); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// TestVetSaysWater: what is unknown or not recorded is never nothing.
func TestVetSaysWater(t *testing.T) {
	for want, m := range map[string]*household.Makeup{
		"water in the food about 150 g a day, 75 % of it":                 {WeightG: 200, WaterG: known(150)},
		"water in the food unknown, because too much of it has no figure": {WeightG: 200},
		"water in the food not recorded":                                  nil,
	} {
		if got := waterText(m); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestVetPageNames the age, the water and the standard, and sets off what to mind.
func TestVetPageNames(t *testing.T) {
	base := testBase(t)
	p := testPlan("Marlow", base)
	p.Pet.Born, p.Pet.Stage = household.NewDate(2019, 3, 4), nutrients.Growth
	paired := pair(t, p, base)
	drawn, err := drawVet([]household.Paired{paired}, PaperOptions{Paper: "a4"})
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	heads := map[float64]bool{}
	for _, b := range drawn.boxes {
		all = append(all, b.text)
		if b.text == "Nutrient" || b.text == "per 1000 kcal" || b.text == "src" {
			heads[b.points] = true
		}
	}
	if len(heads) != 1 {
		t.Errorf("the head of the table is set in sizes of %v", heads)
	}
	text := strings.Join(all, " ")
	for _, want := range []string{"dog, growing, 31.5 kg", "standard NRC 2006", "born 2019-03-04, 7 years old", "water in the food", "• This plan is for a healthy animal."} {
		if !strings.Contains(unbound(text), want) {
			t.Errorf("%q is not on the page", want)
		}
	}
}

func TestStagesAreSaidOfTheAnimal(t *testing.T) {
	for stage, want := range map[nutrients.Stage]string{nutrients.Adult: "cat, adult, ", nutrients.Growth: "cat, growing, ", nutrients.Gestation: "cat, pregnant, ", nutrients.Lactation: "cat, nursing, "} {
		if got := about(&household.PetPlan{Species: nutrients.Cat, Stage: stage, WeightKg: 4}); !strings.HasPrefix(got, want) {
			t.Errorf("%s: %q", stage, got)
		}
	}
}
