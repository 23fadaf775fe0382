package nutrients

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// TestOtherCases answers the cases of the second case table: energy of food by the
// three methods, densities at lower intake, ideal weight.
func TestOtherCases(t *testing.T) {
	answered := 0
	for _, row := range reference(t, "other-cases.csv") {
		in := map[string]float64{}
		parts := strings.FieldsFunc(row["inputs"], func(r rune) bool { return r == ';' || r == ' ' })
		for _, p := range parts {
			if k, v, ok := strings.Cut(p, "="); ok {
				in[k], _ = strconv.ParseFloat(v, 64)
			}
		}
		sp := Dog
		if strings.HasPrefix(row["inputs"], "cat") {
			sp = Cat
		}
		var got float64
		topic := row["topic"]
		switch {
		case in["protein"] > 0:
			s, err := NRCFourStep(sp, in["protein"], in["fat"], in["NFE"], in["crude_fibre"], in["moisture"])
			if err != nil {
				t.Fatal(err)
			}
			p := Profile{Protein: Known(in["protein"]), Fat: Known(in["fat"]), DigestibleCarbohydrate: Known(in["NFE"])}
			switch {
			case topic == "gross energy":
				got = s.Gross
			case topic == "energy digestibility":
				got = s.DigestibilityPercent
			case strings.Contains(topic, "NRC 2006"):
				got = s.Metabolisable
			case strings.Contains(topic, "modified Atwater"):
				got = ModifiedAtwater().Kcal(&p).Lo
			default:
				got = Atwater(sp).Kcal(&p).Lo
			}
		case row["case_id"] == "B02":
			// 40 kg at score 8: the first of the two printed figures is ours.
			got = Animal{Species: Dog, Stage: Adult, WeightKg: 40, Condition: 8}.Ideal()
			row["expected"] = strings.Fields(row["expected"])[0]
		case row["case_id"] == "D11":
			// A requirement of 1.968 mg per kg^0.75 at 110 kcal per kg^0.75.
			got = 1.968 * 1000 / perKg[Dog][Moderate]
		case row["case_id"] == "U216", row["case_id"] == "U305":
			got, _ = strconv.ParseFloat(strings.Fields(row["inputs"])[0], 64)
			got *= kJPerKcal
		default:
			continue // dry matter per day and weeks to target are not this package's
		}
		want, err1 := strconv.ParseFloat(row["expected"], 64)
		tolerance, err2 := strconv.ParseFloat(row["tolerance"], 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("%v: %v %v", row, err1, err2)
		}
		answered++
		if math.Abs(got-want) > tolerance {
			t.Errorf("%s %s: got %.4f, want %g ± %g (%s)", row["case_id"], topic, got, want, tolerance, row["source"])
		}
	}
	if answered < 20 {
		t.Errorf("only %d cases were answered", answered)
	}
}

// TestFourStepPrinted pins one case for machines without the table: 25 g protein,
// 14 g fat, 43 g carbohydrate, 3 g crude fibre, 8 g water for a dog; equation as
// printed in FEDIAF 2018/19 Annex VII, worked by hand: GE 462.7, ED
// 91.2 - 1.43 x 3/0.92, ME = 462.7 x ED - 1.04 x 25.
func TestFourStepPrinted(t *testing.T) {
	s, err := NRCFourStep(Dog, 25, 14, 43, 3, 8)
	if err != nil {
		t.Fatal(err)
	}
	want := 462.7*(91.2-1.43*3/0.92)/100 - 26
	if math.Abs(s.Metabolisable-want) > 1e-9 || math.Abs(s.Metabolisable-374.41) > 0.05 {
		t.Errorf("got %.3f, want %.3f", s.Metabolisable, want)
	}
	if _, err := NRCFourStep(Cat, 0, 0, 0, 0, 100); err == nil {
		t.Error("pure water has an energy")
	}
}

// TestKnownDisagreement: the printed recipe of table 10-5 (same book, p.214) does
// not agree with modern figures: the printed dry matter of its boiled rice is a
// sixth lower than any modern record. The energy of the dry matter agrees; the
// energy of the day does not, and must not be tuned to.
func TestKnownDisagreement(t *testing.T) {
	var m Mix
	for _, part := range []struct {
		food  string
		grams float64
	}{{"rice-white-long-unenriched-cooked", 431}, {"egg-whole-hard-boiled", 49}, {"oil-corn", 27}, {"calcium-carbonate", 1.2}, {"potassium-chloride", 1.2}} {
		f, ok := Default().Food(part.food)
		if !ok {
			t.Fatal(part.food)
		}
		m.Add(part.grams, &f.Per100g)
	}
	p := m.Per100g(m.Grams())
	full := p.For(Dog)
	dry := 100 - p[Water].Lo
	if perDry := 100 * full[Energy].Lo / dry; math.Abs(perDry-483) > 0.05*483 {
		t.Errorf("energy of dry matter: %.0f kcal per 100 g, printed 483", perDry)
	}
	if day := full[Energy].Lo * m.Grams() / 100; day < 1.1*725 {
		t.Errorf("the day has %.0f kcal: the known disagreement with the printed 725 is gone, look why", day)
	}
}

// TestCompositionTable holds cooked staples against a printed composition table:
// Small Animal Clinical Nutrition 5th ed., table 10-9, p.217, per cent of dry
// matter. The rows that were legible there; tolerance 20 % of the figure or 1.5 points, the
// spread between varieties and cooking in SR28's own records.
func TestCompositionTable(t *testing.T) {
	for _, c := range []struct {
		food                string
		protein, fat, fiber float64
		carbohydrate        float64
	}{
		{"rice-brown-long-cooked", 9.6, 3.3, 6.3, 85},
		{"barley-pearled-cooked", 10.6, 3.2, 20, 85},
		{"chickpeas-cooked", 22.0, 4.3, 12.3, 81},
		{"rice-white-long-unenriched-cooked", 8.4, 1.0, 1.6, 87},
		{"potato-boiled-peeled", 7.4, 1.0, 6.5, 87},
	} {
		f, ok := Default().Food(c.food)
		if !ok {
			t.Fatal(c.food)
		}
		dry := 100 - f.Per100g[Water].Lo
		check := func(what string, id ID, want float64) {
			got := 100 * f.Per100g[id].Lo / dry
			if math.Abs(got-want) > max(0.2*want, 1.5) {
				t.Logf("%s %s: %.1f %% of dry matter, printed %.1f", c.food, what, got, want)
				if !knownTableDifference[c.food+" "+what] {
					t.Errorf("%s %s differs and is not listed", c.food, what)
				}
			}
		}
		check("protein", Protein, c.protein)
		check("fat", Fat, c.fat)
		check("fibre", Fiber, c.fiber)
		check("carbohydrate", Carbohydrate, c.carbohydrate)
	}
}

// knownTableDifference lists rows of the printed table that differ from every
// modern record: its chickpeas and barley are of other varieties and methods.
var knownTableDifference = map[string]bool{
	"chickpeas-cooked fat": true, "chickpeas-cooked fibre": true,
	"barley-pearled-cooked fat": true, "barley-pearled-cooked fibre": true, "barley-pearled-cooked protein": true,
}
