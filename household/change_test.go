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

// A declared yield follows what cooking makes of the change: 100 g of kale boiled
// weigh what the cooking table says of kale.
func TestChangedYield(t *testing.T) {
	kale := catalogueFood(t, "kale-raw")
	was := &Batch{Ingredients: []Ingredient{{Food: kale, Grams: 1000, Method: "boiled"}}, YieldG: 900}
	cooked, err := nutrients.Cook(kale, "boiled")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := was.With(Change{kale, "boiled", 100}).YieldG, 900+100*cooked.YieldShare; math.Abs(got-want) > 1e-9 {
		t.Errorf("%g g, want %g g", got, want)
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
