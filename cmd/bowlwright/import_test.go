package main

import (
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
)

func TestReadAmount(t *testing.T) {
	for _, c := range []struct{ text, unit, want, readAs string }{
		{"1.7 kg", "", "1.7 kg", ""}, {"1,7kg", "", "1.7 kg", "1,7 read as 1.7"}, {"200", "g", "200 g", ""},
		{"0,250", "kg", "0.250 kg", "0,250 read as 0.250"}, {"2 lb", "g", "2 lb", ""}, {"12,50", "g", "12.50 g", "12,50 read as 12.50"},
		{"1,500", "g", "", ""}, {"1.234,5", "g", "", ""}, {"", "g", "", ""}, {"-3", "g", "", ""}, {"3", "", "", ""}, {"three", "g", "", ""}, {"1e3", "g", "", ""},
	} {
		amount, readAs, err := readAmount(c.text, c.unit)
		if (err != nil) != (c.want == "") || amount != c.want || readAs != c.readAs {
			t.Errorf("%q with %q: %q, %q, %v", c.text, c.unit, amount, readAs, err)
		}
	}
}

// FuzzImportTable: no table makes the reader panic, and what it accepts is an amount
// above nothing of a food that exists.
func FuzzImportTable(f *testing.F) {
	for _, s := range []string{"food,amount_g\ncarrot-raw,200\n", "food;amount\nCarrot, raw;1,5 kg\n", "food\tcarrot-raw\namount_g\t3\n",
		"\ufefffood,amount\n\"", "name,kg,method\ncarrot-raw,1,boiled\n", "food,amount,unit\nbatch:x,1,g\n"} {
		f.Add(s)
	}
	h := &household.Household{Catalogue: nutrients.Default(), Batches: map[string]*household.Batch{}}
	f.Fuzz(func(t *testing.T, text string) {
		lines, err := readIngredients(text, h)
		if err != nil {
			if hintOf(err) == "" || strings.Contains(err.Error(), "%!") {
				t.Errorf("%q: no hint: %v", text, err)
			}
			return
		}
		for _, l := range lines {
			_, known := h.Catalogue.Food(l.ingredient.food)
			if !known || !(l.grams > 0) {
				t.Errorf("%q: %+v", text, l)
			}
		}
	})
}
