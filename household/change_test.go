package household

import (
	"math"
	"testing"

	"bowlwright/nutrients"
)

func catalogueFood(t *testing.T, id string) *nutrients.Food {
	t.Helper()
	f, ok := nutrients.Default().Food(id)
	if !ok {
		t.Fatalf("no food %s", id)
	}
	return f
}

// A changed batch is the batch that somebody would have written with the change.
func TestChangedBatch(t *testing.T) {
	turkey, kale := catalogueFood(t, "turkey-thigh-skinless-raw"), catalogueFood(t, "kale-raw")
	pot := func(in ...Ingredient) *Batch { return &Batch{File: "pot", Ingredients: in} }
	was := pot(Ingredient{Food: turkey, Grams: 1000, Method: "simmered"}, Ingredient{Food: kale, Grams: 200, Method: "boiled"})
	for _, c := range []struct {
		name    string
		changes []Change
		want    *Batch
	}{
		{"more", []Change{{kale, "boiled", 100}}, pot(was.Ingredients[0], Ingredient{Food: kale, Grams: 300, Method: "boiled"})},
		{"less", []Change{{turkey, "simmered", -250}}, pot(Ingredient{Food: turkey, Grams: 750, Method: "simmered"}, was.Ingredients[1])},
		{"none left", []Change{{kale, "boiled", -200}}, pot(was.Ingredients[0])},
		{"another method", []Change{{kale, "", 50}}, pot(was.Ingredients[0], was.Ingredients[1], Ingredient{Food: kale, Grams: 50})},
		{"two", []Change{{kale, "boiled", -200}, {turkey, "simmered", 1}}, pot(Ingredient{Food: turkey, Grams: 1001, Method: "simmered"})},
	} {
		got := was.With(c.changes...)
		if got.Identity() != c.want.Identity() || got.RawGrams() != c.want.RawGrams() {
			t.Errorf("%s: %+v", c.name, got.Ingredients)
		}
	}
	if was.RawGrams() != 1200 || len(was.Ingredients) != 2 {
		t.Error("the batch itself was changed")
	}
}

// A declared yield stays the same share of what the cooking tables expect: of a pot
// of one food, a tenth more of it weighs a tenth more.
func TestChangedYield(t *testing.T) {
	kale, oats := catalogueFood(t, "kale-raw"), catalogueFood(t, "oats-rolled-dry")
	was := &Batch{Ingredients: []Ingredient{{Food: kale, Grams: 1000, Method: "boiled"}}, YieldG: 900}
	if got, want := was.With(Change{kale, "boiled", 100}).YieldG, 990.0; math.Abs(got-want) > 1e-9 {
		t.Errorf("%g g, want %g g", got, want)
	}
	with := was.With(Change{oats, "boiled", 200})
	tables := *with
	tables.YieldG = 0
	if got, want := with.YieldG/tables.CookedGrams(), 900/was.ExpectedGrams(); math.Abs(got-want) > 1e-12 {
		t.Errorf("%g of what is expected, before %g", got, want)
	}
}

// Entries of one food by one method are one ingredient: together they can be taken
// out to the last gram, and the same food by another method stays.
func TestChangedBatchWithTwoEntries(t *testing.T) {
	kale, oats := catalogueFood(t, "kale-raw"), catalogueFood(t, "oats-rolled-dry")
	was := &Batch{Ingredients: []Ingredient{{Food: kale, Grams: 0.1, Method: "boiled"}, {Food: oats, Grams: 500, Method: "boiled"},
		{Food: kale, Grams: 0.2, Method: "boiled"}, {Food: kale, Grams: 50, Method: "steamed"}}}
	less := was.With(Change{kale, "boiled", -0.2})
	if n := len(less.Ingredients); n != 3 || math.Abs(less.Ingredients[0].Grams-0.1) > 1e-12 || less.Ingredients[2].Method != "steamed" {
		t.Errorf("%+v", less.Ingredients)
	}
	// 0.1 + 0.2 is not 0.3 to the last bit.
	if none := was.With(Change{kale, "boiled", -0.3}); len(none.Ingredients) != 2 || none.Ingredients[0].Food != oats || none.Ingredients[1].Grams != 50 {
		t.Errorf("%+v", none.Ingredients)
	}
	if len(was.Ingredients) != 4 || was.Ingredients[2].Grams != 0.2 {
		t.Error("the batch itself was changed")
	}
}

func TestMoreOutThanIn(t *testing.T) {
	kale := catalogueFood(t, "kale-raw")
	defer func() {
		if recover() == nil {
			t.Error("a pot with less than nothing")
		}
	}()
	(&Batch{Ingredients: []Ingredient{{Food: kale, Grams: 10, Method: "boiled"}}}).With(Change{kale, "boiled", -11})
}
