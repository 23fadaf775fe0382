package reading

import (
	"math"
	"os"
	"strings"
	"testing"

	"bowlwright/nutrients"
)

func houseStandard(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("testdata/standard/house-2025.toml")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestOwnStandard: the example loads, and its figures are worked out by hand for a dog of
// 31.5 kg that gets 1000 kcal: 110 x 31.5^0.75 = 1462.6 kcal count for the minima.
func TestOwnStandard(t *testing.T) {
	files := map[string]string{"standards/house-2025.toml": houseStandard(t), "household.toml": strings.Replace(goodHousehold, "base = ", "standard = \"house-2025\"\nbase = ", 1) + "energy = \"1000 kcal\"\n"}
	h := mustLoad(t, folder(t, files))
	a := h.Pets[0].Animal
	targets, err := nutrients.TargetsFor(a)
	if err != nil {
		t.Fatal(err)
	}
	metabolic := math.Pow(31.5, 0.75)
	counted := 110 * metabolic / 1000
	want := map[nutrients.ID][2]float64{nutrients.Protein: {45 * counted, 0}, nutrients.Fat: {13.75, 0}, nutrients.Calcium: {1250 * counted, 6250}, nutrients.Phosphorus: {1000 * counted, 0},
		nutrients.Zinc: {math.Max(18*counted, 2*metabolic), 0}, nutrients.VitaminD: {139 * 0.025 * counted, 20}}
	for _, l := range targets.Limits {
		w, known := want[l.Nutrient]
		near := func(got *float64, want float64) bool {
			return got == nil && want == 0 || got != nil && math.Abs(*got-want) < 1e-9*want
		}
		if !known || !near(l.Lower, w[0]) || !near(l.Upper, w[1]) || l.LowerSource.Text != "the household's own table, an example" {
			t.Errorf("%s: %+v, want %v", l.Nutrient, l, w)
		}
		delete(want, l.Nutrient)
	}
	if len(want) > 0 || len(targets.Ratios) != 1 || *targets.Ratios[0].Upper != 1.6 {
		t.Errorf("missing %v, ratios %+v", want, targets.Ratios)
	}
}

// TestFaultsOfAStandard changes one cell of the example at a time: each fault stands at
// its line.
func TestFaultsOfAStandard(t *testing.T) {
	good := houseStandard(t)
	for _, c := range []struct{ was, now, want string }{
		{"protein = \"45 g\"", "protien = \"45 g\"", "unknown-nutrient"}, {"\"45 g\"", "\"45\"", "no-unit"}, {"\"45 g\"", "\"45 kcal\"", "unknown-unit"},
		{"\"45 g\"", "\"4,5 g\"", "decimal-comma"}, {"\"45 g\"", "\"-45 g\"", "not-positive"}, {"calcium = \"6.25 g\"", "calcium = \"1 g\"", "limits-cross"},
		{"zinc = \"2 mg\"", "iron = \"2 mg\"", "per-kg-alone"}, {"\"1 to 1.6\"", "\"1:1.6\"", "ratio-form"}, {"\"1 to 1.6\"", "\"1.6 to 1\"", "ratio-form"},
		{"\"growth\", ", "\"adult\", ", "stage-twice"}, {"\"growth\"", "\"young\"", "unknown-choice"}, {"\"110 kcal\"", "\"1100 kcal\"", "absurd-energy"},
		{"reference_energy = \"110 kcal\"", "# none", "missing-key"}, {"source = ", "sorce = ", "unknown-key"}, {"species = \"dog\"", "species = \"dgo\"", "unknown-choice"},
	} {
		line := 1 + strings.Count(good[:strings.Index(good, c.was)], "\n")
		_, list, err := Load(folder(t, map[string]string{"standards/house-2025.toml": strings.Replace(good, c.was, c.now, 1)}), testDay)
		if err != nil || len(list) == 0 {
			t.Fatalf("%s: no fault, %v", c.now, err)
		}
		if c.want == "missing-key" {
			line -= 3 // the header of the table
		}
		if got := list[0]; got.Code != c.want || got.At.Line != line || got.At.File != "standards/house-2025.toml" || got.Hint.IsZero() {
			t.Errorf("%s: %s:%d %s, want line %d %s", c.now, got.At.File, got.At.Line, got.Code, line, c.want)
		}
	}
	_, list, _ := Load(folder(t, map[string]string{"standards/nrc2006.toml": good}), testDay)
	if codesOf(list) != "standards/nrc2006.toml:0 standard-name" {
		t.Error(codesOf(list))
	}
}
