package nutrients

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// TestFoodsAgainstReference compares every figure of every food with the tables
// it was taken from. A figure may differ only where the catalogue says why.
func TestFoodsAgainstReference(t *testing.T) {
	for _, table := range []string{"foods-sr28.csv", "foods-ciqual-extra.csv"} {
		compared, changed := 0, 0
		for _, row := range reference(t, table) {
			f, ok := Default().Food(row["id"])
			if !ok {
				t.Errorf("%s is not in the catalogue", row["id"])
				continue
			}
			for column, printed := range row {
				id, unit, ok := referenceID(column)
				if !ok {
					continue
				}
				if unit != id.Info().Unit {
					t.Fatalf("%s is in %s, the catalogue keeps %s", column, unit, id.Info().Unit)
				}
				got := f.Per100g[id]
				_, explained := f.Figures[id]
				if printed == "" {
					if got.IsKnown() && !explained && (got.Lo != 0 || got.Hi != 0) {
						t.Errorf("%s %s: blank in the table, %v in the catalogue", f.ID, id, got)
					}
					continue
				}
				want, err := strconv.ParseFloat(printed, 64)
				if err != nil {
					t.Fatal(err)
				}
				compared++
				if got.IsKnown() && got.Lo == want && got.Hi == want {
					continue
				}
				changed++
				if !explained {
					t.Errorf("%s %s: table %g, catalogue %v, and no reason", f.ID, id, want, got)
				}
			}
		}
		t.Logf("%s: %d figures compared, %d corrected or dropped with a reason", table, compared, changed)
	}
}

// TestErrorsAreNotKept: each value that the list of suspect values calls an error
// is corrected or dropped.
func TestErrorsAreNotKept(t *testing.T) {
	for _, row := range reference(t, "suspect-values-sr28.csv") {
		if row["severity"] != "error" {
			continue
		}
		f, _ := Default().Food(row["id"])
		id, _, ok := referenceID(row["nutrient"])
		if !ok {
			t.Fatal(row)
		}
		printed, _ := strconv.ParseFloat(row["sr28_value"], 64)
		if got := f.Per100g[id]; got.IsKnown() && got.Lo == printed && got.Hi == printed {
			t.Errorf("%s %s still holds the printed %g: %s", f.ID, id, printed, row["reason"])
		}
		if _, explained := f.Figures[id]; !explained {
			t.Errorf("%s %s has no reason", f.ID, id)
		}
	}
}

func TestCatalogueIsWellFormed(t *testing.T) {
	all := Default().All()
	foods, supplements := 0, 0
	for _, f := range all {
		if f.Supplement() {
			supplements++
		} else {
			foods++
		}
		if f.Name == "" || f.Group == "" || f.State == "" || f.Source.Text == "" {
			t.Errorf("%s: name, group, state or source is missing", f.ID)
		}
		if strings.ToLower(f.ID) != f.ID || strings.ContainsAny(f.ID, " _") {
			t.Errorf("%s is not kebab-case", f.ID)
		}
		for id := ID(0); id < Count; id++ {
			x := f.Per100g[id]
			if id.Derived() && x.IsKnown() {
				t.Errorf("%s stores %s, which is derived", f.ID, id)
			}
			if x.Lo < 0 || x.Lo > x.Hi || math.IsNaN(x.Lo) || math.IsInf(x.Hi, 0) {
				t.Errorf("%s %s: %v", f.ID, id, x)
			}
			if limit := perHundred(id.Info().Unit); x.Hi > limit*1.0001 {
				t.Errorf("%s %s: %g is more than the food weighs", f.ID, id, x.Hi)
			}
		}
	}
	if foods < 355+8 || supplements < 70 {
		t.Errorf("%d foods and %d supplements", foods, supplements)
	}
}

// perHundred is 100 g in a unit.
func perHundred(u Unit) float64 {
	switch u {
	case Gram:
		return 100
	case Milligram:
		return 100e3
	case Microgram:
		return 100e6
	}
	return math.Inf(1)
}

// TestAssumedZeroIsUnknown: SR28 prints zero vitamin D for organs that nobody
// measured; in the catalogue that is not a zero.
func TestAssumedZeroIsUnknown(t *testing.T) {
	for _, id := range []string{"turkey-heart-simmered", "beef-tripe-raw", "chicken-gizzard-simmered", "mussel-blue-raw"} {
		f, ok := Default().Food(id)
		if !ok {
			t.Fatal(id)
		}
		if x := f.Per100g[VitaminD]; x.IsKnown() && x.Hi == 0 {
			t.Errorf("%s: vitamin D is taken for zero", id)
		}
		if !strings.Contains(f.SourceOf(VitaminD).Note+f.SourceOf(VitaminD).Text, "zero") && !strings.Contains(f.SourceOf(VitaminD).Note, "0") {
			t.Errorf("%s: the reason is not kept: %+v", id, f.SourceOf(VitaminD))
		}
	}
}

// TestSourcesDisagree: taurine of raw beef heart is published as 25 to 85 mg per
// 100 g; the low end counts toward the lower limit, the high end toward the upper.
func TestSourcesDisagree(t *testing.T) {
	f, _ := Default().Food("beef-heart-raw")
	x := f.Per100g[Taurine]
	if !(x.Lo < 30 && x.Hi > 80) {
		t.Errorf("taurine of beef heart: %v", x)
	}
}

func TestFindAndNearest(t *testing.T) {
	found := Default().Find("turkey", "thigh")
	if len(found) == 0 || !strings.HasPrefix(found[0].ID, "turkey-thigh") {
		t.Errorf("found %v", found)
	}
	if got, ok := Default().Nearest("turkey-thigh-raw"); !ok || got != "turkey-thigh-skinless-raw" {
		t.Errorf("nearest to turkey-thigh-raw: %q", got)
	}
	if got, ok := Default().Nearest("egshell-powder"); !ok || got != "eggshell-powder" {
		t.Errorf("nearest to egshell-powder: %q", got)
	}
	if got, ok := Default().Nearest("zzzzqqq"); ok {
		t.Errorf("nearest to nonsense: %q", got)
	}
}

// The embedded catalogue: 1.4 ms measured on two cores in November 2026, budget 5 ms.
func BenchmarkLoadCatalogue(b *testing.B) {
	for b.Loop() {
		for _, text := range []string{foodsText, supplementsText} {
			if _, err := parseFoods(text); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// TestBrokenDataIsRefused: the loader must not swallow a slip in the data.
func TestBrokenDataIsRefused(t *testing.T) {
	for name, text := range map[string]string{
		"unknown nutrient": "food a\nname A\nin b c\nfrom text d\n= calcum 3\n",
		"no number":        "food a\n= calcium x\n",
		"range":            "food a\n= calcium 5..3\n",
		"derived":          "food a\n= vitamin-a 3\n",
		"unknown word":     "food a\ncolour red\n",
		"no food":          "name A\n",
		"unknown source":   "food a\nfrom nowhere 12\n",
	} {
		if _, err := parseFoods(text); err == nil {
			t.Errorf("%s was accepted", name)
		}
	}
}
