package sheet

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

func TestReadAmount(t *testing.T) {
	for _, c := range []struct {
		text, unit   string
		commas       bool
		want, readAs string
	}{
		{"1.7 kg", "", false, "1.7 kg", ""}, {"1,7kg", "", false, "1.7 kg", "1,7 read as 1.7"}, {"200", "g", false, "200 g", ""},
		{"0,250", "kg", true, "0.250 kg", "0,250 read as 0.250"}, {"2 lb", "g", false, "2 lb", ""}, {"12,50", "g", true, "12.50 g", "12,50 read as 12.50"},
		// Two readings: refused, whichever is meant; a point only in a table of commas.
		{"1,500", "g", false, "", ""}, {"1,500", "g", true, "", ""}, {"1.500", "kg", true, "", ""}, {"1.500", "kg", false, "1.500 kg", ""},
		{"0.500", "kg", true, "0.500 kg", ""}, {"1.5", "kg", true, "1.5 kg", ""}, {"1234,500", "g", true, "1234.500 g", "1234,500 read as 1234.500"},
		// One reading.
		{"1.234,5", "g", true, "1234.5 g", "1.234,5 read as 1234.5"}, {"1,234.5", "g", false, "1234.5 g", "1,234.5 read as 1234.5"},
		{"1 234", "g", false, "1234 g", "1 234 read as 1234"}, {"1\u202f234,5 g", "", true, "1234.5 g", "1 234,5 read as 1234.5"},
		{"1'234", "g", false, "1234 g", "1'234 read as 1234"}, {"1,234,567", "mg", false, "1234567 mg", "1,234,567 read as 1234567"},
		{"1.234.567 mg", "", false, "1234567 mg", "1.234.567 read as 1234567"}, {"12\u00a0345.25", "g", false, "12345.25 g", "12 345.25 read as 12345.25"},
		// None.
		{"", "g", false, "", ""}, {"-3", "g", false, "", ""}, {"3", "", false, "", ""}, {"three", "g", false, "", ""}, {"1e3", "g", false, "", ""},
		{"1,2,3", "g", false, "", ""}, {"1 23", "g", false, "", ""}, {"1.2,3", "g", false, "", ""}, {"1,23.4", "g", false, "", ""}, {",5", "g", false, "", ""}, {"5,", "g", false, "", ""},
	} {
		amount, readAs, err := readAmount(c.text, c.unit, c.commas)
		if (err != nil) != (c.want == "") || amount != c.want || readAs != c.readAs {
			t.Errorf("%q with %q: %q, %q, %v", c.text, c.unit, amount, readAs, err)
		}
		if err != nil && noHint(err) {
			t.Errorf("%q: no hint: %v", c.text, err)
		}
	}
}

// TestExportedAmountsReadBack: an amount that was written with a point or a comma is
// read as the same number.
func TestExportedAmountsReadBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		digits := rapid.IntRange(0, 6).Draw(rt, "digits")
		grams := math.Round(rapid.Float64Range(0.001, 20000).Draw(rt, "grams")*math.Pow10(digits)) / math.Pow10(digits)
		if grams == 0 {
			return
		}
		for _, comma := range []bool{false, true} {
			lines := strings.Split(string(CSV([][]string{{"x", Cell(grams)}}, comma)), "\n")
			_, text, _ := strings.Cut(lines[0], map[bool]string{false: ",", true: ";"}[comma])
			amount, _, err := readAmount(text, "g", comma)
			number, _, _ := strings.Cut(amount, " ")
			if back, fault := strconv.ParseFloat(number, 64); err != nil || fault != nil || back != grams {
				rt.Fatalf("%v was written as %q and read as %q, %v", grams, text, amount, err)
			}
		}
	})
}

// FuzzReadAmount: whatever a cell holds is read as a number that stands in it, digit by
// digit, or refused with a hint.
func FuzzReadAmount(f *testing.F) {
	for _, s := range []string{"1.7 kg", "1,7kg", "1.234,5", "1 234", "1'234", "1,500", "0,250", "5,", "1\u202f234,5 g", "999999999999999999999 g"} {
		f.Add(s, "g", false)
		f.Add(s, "", true)
	}
	digits := func(s string) string {
		return strings.Map(func(r rune) rune {
			if r < '0' || r > '9' {
				return -1
			}
			return r
		}, s)
	}
	f.Fuzz(func(t *testing.T, text, unit string, commas bool) {
		amount, readAs, err := readAmount(text, unit, commas)
		if err != nil {
			if noHint(err) {
				t.Fatalf("%q: no hint: %v", text, err)
			}
			return
		}
		number, _, _ := strings.Cut(amount, " ")
		if _, err := strconv.ParseFloat(number, 64); err != nil || digits(number) != digits(text) {
			t.Fatalf("%q with %q is read as %q (%s)", text, unit, amount, readAs)
		}
	})
}

// FuzzImportTable: no table makes the reader panic, and what it accepts is an amount
// above nothing of a food that exists.
func FuzzImportTable(f *testing.F) {
	for _, s := range []string{"food,amount_g\ncarrot-raw,200\n", "food;amount\nCarrot, raw;1,5 kg\n", "food\tcarrot-raw\namount_g\t3\n",
		"\ufefffood,amount\n\"", "name,kg,method\ncarrot-raw,1,boiled\n", "food,amount,unit\nbatch:x,1,g\n", "sep=;\nfood;amount_g\ncarrot-raw;1.234,5\n", "food,amount_kg\ncarrot-raw,1,5\n", "food\tamount_kg\tnote\ncarrot-raw\t\t5\n"} {
		f.Add(s)
	}
	h := &household.Household{Catalogue: nutrients.Default(), Batches: map[string]*household.Batch{}}
	f.Fuzz(func(t *testing.T, text string) {
		lines, _, err := ReadIngredients(text, h)
		if err != nil {
			if noHint(err) || strings.Contains(err.Error(), "%!") {
				t.Errorf("%q: no hint: %v", text, err)
			}
			return
		}
		for _, l := range lines {
			_, known := h.Catalogue.Food(l.Ingredient.Food)
			if !known || !(l.Grams > 0) {
				t.Errorf("%q: %+v", text, l)
			}
		}
	})
}

func noHint(err error) bool {
	var hinted interface{ Hint() diag.Hint }
	return !errors.As(err, &hinted) || hinted.Hint().IsZero()
}
