package nutrients

import (
	"math"
	"strconv"
	"testing"
)

// widestSpread bounds a standard deviation as a multiple of the mean. The widest
// true one in SR28 is 5.4, of a trace with one high sample; a slip of the unit is
// a hundred times that.
const widestSpread = 6

func TestSpreads(t *testing.T) {
	for key, s := range spreads() {
		f, ok := Default().Food(key.food)
		if !ok {
			t.Errorf("a spread for the unknown food %s", key.food)
			continue
		}
		x := f.Per100g[key.id]
		if !x.IsKnown() {
			t.Errorf("a spread for the unknown %s of %s", key.id, key.food)
		}
		if s.SD > widestSpread*x.Hi && x.Hi > 0 {
			t.Errorf("%s of %s: %g, spread %g", key.id, key.food, x.Hi, s.SD)
		}
	}
	// USDA SR28, record 05062: protein n 6, standard error 0.238 g; 0.238 x sqrt(6).
	breast, _ := Default().Food("chicken-breast-skinless-raw")
	s, ok := SpreadOf(breast, Protein)
	if want := 0.238 * math.Sqrt(6); !ok || s.N != 6 || math.Abs(s.SD-want) > 1e-4 {
		t.Errorf("spread of protein %v, want n 6 and %.4f", s, want)
	}
	own := *breast
	own.Per100g[Protein] = Known(10)
	if _, ok := SpreadOf(&own, Protein); ok {
		t.Error("a household's own figure has the spread of another")
	}
}

func TestSpreadsAgainstReference(t *testing.T) {
	leftOut := map[spreadKey]bool{
		{"turkey-liver-simmered", Iron}: true, {"chickpeas-raw", Manganese}: true, {"chickpeas-raw", Selenium}: true,
		{"lentils-raw", Selenium}: true, {"lentils-red-raw", Selenium}: true,
		{"mackerel-atlantic-cooked", LinoleicAcid}: true, {"mackerel-atlantic-cooked", AlphaLinolenicAcid}: true,
		{"mackerel-atlantic-cooked", ArachidonicAcid}: true, {"mackerel-atlantic-cooked", EPA}: true,
		{"mackerel-atlantic-cooked", DHA}: true, {"mackerel-atlantic-cooked", DPA}: true,
	}
	n := 0
	for _, row := range reference(t, "foods-sr28-sd.csv") {
		id, _, ok := referenceID(row["nutrient"])
		if !ok || leftOut[spreadKey{row["id"], id}] {
			continue
		}
		n++
		s := spreads()[spreadKey{row["id"], id}]
		sd, _ := strconv.ParseFloat(row["sd"], 64)
		if strconv.Itoa(s.N) != row["n"] || s.SD != sd {
			t.Errorf("%s of %s: %v, want n %s and %s", id, row["id"], s, row["n"], row["sd"])
		}
	}
	if n != len(spreads()) {
		t.Errorf("%d spreads, the reference has %d", len(spreads()), n)
	}
}

func TestBrokenSpreadsAreRefused(t *testing.T) {
	for _, text := range []string{"protein 6 0.5", "food x\nprotein 6", "food x\nprotein 1 0.5", "food x\nnothing 6 0.5",
		"food x\nprotein 6 -1", "food x\nprotein 6 1\nprotein 6 1"} {
		if _, err := parseSpreads(text); err == nil {
			t.Errorf("%q was read", text)
		}
	}
}
