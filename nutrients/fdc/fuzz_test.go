package fdc

import (
	"math"
	"strings"
	"testing"

	"bowlwright/nutrients"
)

// checkResult holds what every result must keep, whatever the input: unique ids,
// figures that are finite, ordered and not negative, and nothing derived stored.
func checkResult(t *testing.T, r Result) {
	t.Helper()
	ids := map[string]bool{}
	for _, f := range r.Foods {
		if f.ID == "" || ids[f.ID] || f.Name == "" {
			t.Fatalf("id %q, name %q", f.ID, f.Name)
		}
		ids[f.ID] = true
		for i, x := range f.Per100g {
			id := nutrients.ID(i)
			if x.Lo < 0 || x.Hi < x.Lo || math.IsNaN(x.Lo+x.Hi) || math.IsInf(x.Hi, 0) {
				t.Fatalf("%s of %s is %v", id, f.ID, x)
			}
			if !x.IsKnown() && x != nutrients.Unknown {
				t.Fatalf("%s of %s is unknown and yet %v", id, f.ID, x)
			}
			if id.Derived() && x.IsKnown() {
				t.Fatalf("%s of %s was stored", id, f.ID)
			}
		}
		for _, m := range f.Measures {
			if !(m.Grams > 0) || m.Name == "" {
				t.Fatalf("measure %v of %s", m, f.ID)
			}
		}
	}
}

func FuzzReadJSON(f *testing.F) {
	f.Add(legacyJSON)
	f.Add(`{"FoundationFoods":[{"description":"x","foodNutrients":[{"nutrient":{"number":"203","unitName":"g"},"amount":-1}]}],"more":[1,{}]}`)
	f.Add(`{"SRLegacyFoods":[{"description":"x","foodNutrients":[{"nutrient":{"number":"301","unitName":"g"},"amount":1e308}]}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ReadJSON(strings.NewReader(text))
		if err == nil {
			checkResult(t, r)
		}
	})
}

func FuzzReadCSV(f *testing.F) {
	f.Add("101,sr_legacy_food,Otter,7\n", "101,1003,20.5,49\n")
	f.Add("1,foundation_food,\"a, b\",\n1,foundation_food,c,\n", "1,1003,NaN,\n1,1087,1e400,\n1,9,1,\n")
	f.Fuzz(func(t *testing.T, foods, figures string) {
		in := sampleFiles()
		in.Food = strings.NewReader("fdc_id,data_type,description,food_category_id\n" + foods)
		in.FoodNutrient = strings.NewReader("fdc_id,nutrient_id,amount,derivation_id\n" + figures)
		r, err := ReadCSV(in)
		if err == nil {
			checkResult(t, r)
		}
	})
}

func FuzzReadPlain(f *testing.F) {
	f.Add("id,name,protein_g\na,b,1\na,c,<2\n")
	f.Add("name,vitamin-e (IU),refuse_percent\n\"x\",NaN,101\n,1,2\nx,1e9\n")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ReadPlain(strings.NewReader(text))
		if err == nil {
			checkResult(t, r)
		}
	})
}
