package nutrients

import (
	"math"
	"regexp"
	"strconv"
	"testing"
)

// TestBothFiguresStand: where a source that was looked up gives another figure than the
// table, both stand in the table and the careful one counts. The figures, the sources
// and the quotes are those of verified-2026-11.csv.
func TestBothFiguresStand(t *testing.T) {
	compared := 0
	for _, cell := range lookedUp(t) {
		if cell["verdict"] != "differs" {
			continue
		}
		found, err := strconv.ParseFloat(cell["value_found"], 64)
		if err != nil {
			t.Fatal(cell)
		}
		compared++
		stands, all := false, []float64{}
		var unit string
		for _, r := range Rows(StandardID(cell["standard"])) {
			if string(r.Species) == cell["species"] && r.Stage == cell["stage"] && r.Nutrient == cell["nutrient"] && string(r.Bound) == cell["bound"] && r.Basis == Per1000kcal {
				all, unit = append(all, r.Value), r.Unit
				stands = stands || math.Abs(r.Value-found) < 0.006
			}
		}
		if !stands || len(all) < 2 {
			t.Errorf("%s %s %s %s: %v %s in the table, a source gives %g", cell["standard"], cell["species"], cell["stage"], cell["nutrient"], all, unit, found)
		}
	}
	if compared < 14 {
		t.Errorf("only %d cells differ", compared)
	}
}

// TestCarefulFigureCounts pins the cells for machines without the list, per 1000 kcal
// at more than the reference energy, so that nothing is scaled. AAFCO 2014 draft p. 173
// and 181, AAFCO dog profile 0.35 mg selenium/kg, National Academies cat booklet p. 7.
func TestCarefulFigureCounts(t *testing.T) {
	dog := Animal{Species: Dog, Stage: Adult, WeightKg: 10, AgeWeeks: 200, Standard: AAFCO2016, EnergyKcal: 1000}
	cat := Animal{Species: Cat, Stage: Adult, WeightKg: 4, AgeWeeks: 200, Standard: AAFCO2016, EnergyKcal: 1000}
	puppy := Animal{Species: Dog, Stage: Growth, WeightKg: 10, AdultKg: 20, AgeWeeks: 20, Standard: FEDIAF2021, EnergyKcal: 1000}
	nrc := func(a Animal) Animal { a.Standard = NRC2006; return a }
	fediaf := func(a Animal) Animal { a.Standard = FEDIAF2021; return a }
	near(t, "selenium of dogs, AAFCO", *limits(t, dog)[Selenium].Lower, 87.5)
	near(t, "most calcium of dogs, AAFCO", *limits(t, dog)[Calcium].Upper, 4500)
	near(t, "linoleic acid of cats, AAFCO", *limits(t, cat)[LinoleicAcid].Lower, 1.5)
	near(t, "vitamin K of cats, NRC", *limits(t, nrc(cat))[VitaminK].Lower, 328)
	near(t, "folate of cats, FEDIAF", *limits(t, fediaf(cat))[Folate].Lower, 188)
	near(t, "calcium of cats, FEDIAF", *limits(t, fediaf(cat))[Calcium].Lower, 1475)
	near(t, "arginine of puppies, FEDIAF", *limits(t, puppy)[Arginine].Lower, 1.84)
	near(t, "sodium of dogs, NRC", *limits(t, nrc(dog))[Sodium].Lower, 200)
}

// TestSourcesNameDocuments: a source line names a document and a page, not somebody's
// site on the web.
func TestSourcesNameDocuments(t *testing.T) {
	site := regexp.MustCompile(`(?i)https?:|www\.|[a-z]\.(com|org|net|de|gov|uk|fr)\b|sandbox|blog`)
	for _, std := range Standards() {
		for _, r := range Rows(std) {
			if m := site.FindString(r.Source.Text + " " + r.Source.Note); m != "" {
				t.Errorf("%s %s %s %s: %q in %s, %s", std, r.Species, r.Stage, r.Nutrient, m, r.Source.Text, r.Source.Note)
			}
		}
	}
	for _, h := range hazards() {
		if m := site.FindString(h.Source.Text); m != "" {
			t.Errorf("%s: %q", h.Food, m)
		}
	}
}
