package main

import (
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/advice"
)

// Amounts stand in full, so that the pot as it is written has the code that was
// promised; of a food that stands in the file more than once it is said which entry is
// meant and what becomes of the others.
func TestChangeInToml(t *testing.T) {
	kale, oats := &nutrients.Food{ID: "kale-raw"}, &nutrients.Food{ID: "oats-rolled-dry"}
	in := func(f *nutrients.Food, method string) household.Ingredient {
		return household.Ingredient{Food: f, Method: method, Grams: 100}
	}
	nested := household.Ingredient{Batch: &household.Batch{File: "broth"}, Grams: 100}
	for _, c := range []struct {
		name string
		pot  []household.Ingredient
		ch   advice.BaseChange
		want string
	}{
		{"new", nil, advice.BaseChange{Food: "kale-raw", Method: "boiled", G: 40},
			"  [[ingredient]]\n  food = \"kale-raw\"\n  amount = \"40 g\"\n  method = \"boiled\"\n"},
		{"in pounds", []household.Ingredient{nested, in(kale, "boiled")}, advice.BaseChange{Food: "kale-raw", Method: "boiled", WasG: 1905.0879, G: 404},
			"  in the [[ingredient]] with food = \"kale-raw\"\n  amount = \"2309.0879 g\"\n"},
		{"two entries", []household.Ingredient{in(kale, "boiled"), in(oats, "boiled"), in(kale, "boiled")}, advice.BaseChange{Food: "kale-raw", Method: "boiled", WasG: 200, G: -50},
			"  in the [[ingredient]] with food = \"kale-raw\"\n  amount = \"150 g\"\n  and take out any other [[ingredient]] with food = \"kale-raw\"\n"},
		{"two methods", []household.Ingredient{in(kale, "boiled"), in(kale, "")}, advice.BaseChange{Food: "kale-raw", WasG: 100, G: 50},
			"  in the [[ingredient]] with food = \"kale-raw\" and no method\n  amount = \"150 g\"\n"},
		{"the other method", []household.Ingredient{in(kale, "boiled"), in(kale, "")}, advice.BaseChange{Food: "kale-raw", Method: "boiled", WasG: 100, G: -100},
			"  take out the [[ingredient]] with food = \"kale-raw\" and method = \"boiled\"\n"},
		{"out of two entries", []household.Ingredient{in(kale, "boiled"), in(kale, "boiled")}, advice.BaseChange{Food: "kale-raw", Method: "boiled", WasG: 200, G: -200},
			"  take out every [[ingredient]] with food = \"kale-raw\"\n"},
	} {
		got := inToml(&household.Batch{Ingredients: c.pot}, &advice.Improvement{Changes: []advice.BaseChange{c.ch}, CodeSettled: true})
		if got != c.want {
			t.Errorf("%s:\n%s\nwant:\n%s", c.name, got, c.want)
		}
	}
}
