package household

import (
	"fmt"
	"slices"
	"testing"

	"bowlwright/nutrients"

	"pgregory.net/rapid"
)

var cookable = []string{
	"turkey-thigh-skinless-raw", "beef-heart-raw", "beef-liver-raw", "lamb-kidney-raw", "oats-rolled-dry", "kale-raw", "carrot-raw",
}

func food(t interface{ Fatalf(string, ...any) }, id string) *nutrients.Food {
	f, ok := nutrients.Default().Food(id)
	if !ok {
		t.Fatalf("the catalogue has no %s", id)
	}
	return f
}

// drawBatch draws a batch of two to six foods, perhaps with a batch within.
func drawBatch(t *rapid.T, depth int) *Batch {
	b := &Batch{File: rapid.StringMatching(`[a-z]{1,8}`).Draw(t, "file"), Name: rapid.String().Draw(t, "name")}
	ids := rapid.SliceOfNDistinct(rapid.SampledFrom(cookable), 2, 6, rapid.ID).Draw(t, "foods")
	for _, id := range ids {
		b.Ingredients = append(b.Ingredients, Ingredient{
			Food: food(t, id), Grams: float64(rapid.IntRange(10, 50000).Draw(t, "decigrams")) / 10,
			Method: rapid.SampledFrom([]string{"", "simmered", "boiled"}).Draw(t, "method"),
		})
	}
	if depth > 0 && rapid.Bool().Draw(t, "nested") {
		b.Ingredients = append(b.Ingredients, Ingredient{Batch: drawBatch(t, depth-1), Grams: float64(rapid.IntRange(50, 3000).Draw(t, "grams"))})
	}
	b.KeepsLiquid = rapid.Bool().Draw(t, "liquid kept")
	if rapid.Bool().Draw(t, "yield declared") {
		b.YieldG = b.RawGrams() * float64(rapid.IntRange(500, 1800).Draw(t, "yield")) / 1000
	}
	return b
}

// copyBatch copies a batch with its inner batches.
func copyBatch(b *Batch) *Batch {
	c := *b
	c.Ingredients = slices.Clone(b.Ingredients)
	for i, in := range c.Ingredients {
		if in.Batch != nil {
			c.Ingredients[i].Batch = copyBatch(in.Batch)
		}
	}
	return &c
}

// gramsPerPound is that of the international yard and pound agreement of 1959.
const gramsPerPound = 453.59237

// TestIdentityIgnoresWhatIsNotTheRecipe: order, names, size, days, price, the
// split of an ingredient in two and the last bits of a unit conversion.
func TestIdentityIgnoresWhatIsNotTheRecipe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBatch(t, 2)
		c := copyBatch(b)
		c.Name, c.File, c.Days = "other", "other", 9
		factor := rapid.SampledFrom([]float64{1, 2, 0.5, 3, 10, 1 / 3.0, 7.77}).Draw(t, "factor")
		for i := range c.Ingredients {
			c.Ingredients[i].Grams *= factor
			c.Ingredients[i].PricePerG = 0.01
			if rapid.Bool().Draw(t, "in pounds") {
				c.Ingredients[i].Grams = c.Ingredients[i].Grams / gramsPerPound * gramsPerPound
			}
		}
		c.YieldG *= factor
		if n := rapid.IntRange(0, len(c.Ingredients)-1).Draw(t, "split"); rapid.Bool().Draw(t, "split it") {
			half := c.Ingredients[n]
			half.Grams *= 0.25
			c.Ingredients[n].Grams *= 0.75
			c.Ingredients = append(c.Ingredients, half)
		}
		c.Ingredients = rapid.Permutation(c.Ingredients).Draw(t, "order")
		for i, in := range c.Ingredients {
			if in.Batch != nil {
				inner := copyBatch(in.Batch)
				inner.Name, inner.File = "renamed", "renamed"
				slices.Reverse(inner.Ingredients)
				c.Ingredients[i].Batch = inner
			}
		}
		if a, b := b.Identity(), c.Identity(); a != b {
			t.Fatalf("%+v became %+v\n%s", a, b, c.canonical(false))
		}
		if _, err := Pair(Sound{&Plan{Base: b.Snapshot()}}, c); err != nil {
			t.Fatalf("refused: %v", err)
		}
	})
}

// TestIdentityNoticesEveryChange: another food, an ingredient more or less, a
// share moved by more than the grain, method, yield, and a change within a batch.
func TestIdentityNoticesEveryChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBatch(t, 2)
		c := copyBatch(b)
		what := change(t, c)
		if what == "" {
			t.Skip("that change cannot be made here")
		}
		if b.Identity().Code == c.Identity().Code {
			t.Fatalf("the code stayed after: %s\n%s\n%s", what, b.canonical(false), c.canonical(false))
		}
		_, err := Pair(Sound{&Plan{Base: b.Snapshot()}}, c)
		mix, ok := err.(*MixUpError)
		if !ok {
			t.Fatalf("paired after: %s (%v)", what, err)
		}
		if len(mix.Differences) == 0 || len(mix.Ways) != 3 {
			t.Fatalf("the refusal does not say enough after: %s: %+v", what, mix)
		}
	})
}

// change makes one change to a batch and says which.
func change(t *rapid.T, c *Batch) string {
	n := rapid.IntRange(0, len(c.Ingredients)-1).Draw(t, "which")
	in := &c.Ingredients[n]
	switch rapid.SampledFrom([]string{"food", "remove", "add", "share", "method", "yield", "liquid", "inside"}).Draw(t, "change") {
	case "food":
		if in.Food == nil {
			return ""
		}
		in.Food = food(t, "egg-whole-hard-boiled")
		return "another food"
	case "remove":
		c.Ingredients = slices.Delete(c.Ingredients, n, n+1)
		return "an ingredient less"
	case "add":
		c.Ingredients = append(c.Ingredients, Ingredient{Food: food(t, "egg-whole-hard-boiled"), Grams: 0.001 * c.RawGrams()})
		return "an ingredient more"
	case "share":
		raw := c.RawGrams()
		share := in.Grams / raw
		by := 3 * shareStep / (1 - share)
		if len(c.Ingredients) < 2 {
			return ""
		}
		in.Grams += by * raw
		c.YieldG *= c.RawGrams() / raw
		return fmt.Sprintf("a share of %g up by %g", share, in.Grams/c.RawGrams()-share)
	case "method":
		if in.Food == nil {
			return ""
		}
		in.Method = "baked"
		return "method"
	case "liquid":
		c.KeepsLiquid = !c.KeepsLiquid
		return "liquid"
	case "yield":
		if c.YieldG == 0 {
			c.YieldG = c.CookedGrams()
			return "yield declared"
		}
		c.YieldG += 2 * yieldStep * c.RawGrams()
		return "yield"
	}
	if in.Batch == nil {
		return ""
	}
	if inner := change(t, in.Batch); inner != "" {
		return "inside: " + inner
	}
	return ""
}

// TestFiguresAreNotTheRecipe: corrected figures change the figures digest and
// nothing else.
func TestFiguresAreNotTheRecipe(t *testing.T) {
	b := &Batch{File: "pot", Name: "Pot", Ingredients: []Ingredient{
		{Food: food(t, "beef-heart-raw"), Grams: 400, Method: "simmered"}, {Food: food(t, "kale-raw"), Grams: 100, Method: "boiled"}}}
	corrected := *food(t, "kale-raw")
	corrected.Per100g[nutrients.Calcium] = nutrients.Known(1)
	c := copyBatch(b)
	c.Ingredients[1].Food = &corrected
	was, now := b.Identity(), c.Identity()
	if was.Code != now.Code || was.RecipeDigest != now.RecipeDigest || was.FiguresDigest == now.FiguresDigest {
		t.Fatalf("%+v, corrected %+v", was, now)
	}
	p, err := Pair(Sound{&Plan{Base: b.Snapshot()}}, c)
	if err != nil {
		t.Fatal(err)
	}
	if what, changed := FiguresChanged(p); !changed || !slices.Equal(what, []string{"kale-raw"}) {
		t.Errorf("changed %v: %v", changed, what)
	}
	same, err := Pair(Sound{&Plan{Base: b.Snapshot()}}, b)
	if err != nil {
		t.Fatal(err)
	}
	if what, changed := FiguresChanged(same); changed {
		t.Errorf("nothing changed, but: %v", what)
	}
}

// TestFiguresOfABatchWithinABatch: figures corrected in a batch within are other figures
// of the whole.
func TestFiguresOfABatchWithinABatch(t *testing.T) {
	inner := &Batch{File: "broth", Ingredients: []Ingredient{{Food: food(t, "kale-raw"), Grams: 100, Method: "boiled"}}}
	outer := &Batch{File: "pot", Ingredients: []Ingredient{{Food: food(t, "beef-heart-raw"), Grams: 400}, {Batch: inner, Grams: 50}}}
	was := outer.Identity()
	corrected := *food(t, "kale-raw")
	corrected.Per100g[nutrients.Calcium] = nutrients.Known(1)
	inner.Ingredients[0].Food = &corrected
	if now := outer.Identity(); now.RecipeDigest != was.RecipeDigest || now.FiguresDigest == was.FiguresDigest {
		t.Errorf("%+v, was %+v", now, was)
	}
}

// TestGrainOfTheRecipe: shares to 1e-5 and a declared yield to 1e-3 tell recipes apart
// (the household's promise: design, base code); a tenth of that does not.
func TestGrainOfTheRecipe(t *testing.T) {
	of := func(kale, yield float64) string {
		return (&Batch{YieldG: yield, Ingredients: []Ingredient{{Food: food(t, "beef-heart-raw"), Grams: 5000}, {Food: food(t, "kale-raw"), Grams: kale}}}).RecipeDigest()
	}
	was := of(5000, 8000)
	for _, c := range []struct {
		kale, yield float64
		other       bool
	}{{5000.4, 8000, true}, {5000.02, 8000, false}, {5000, 8020, true}, {5000, 8001, false}} {
		if (of(c.kale, c.yield) != was) != c.other {
			t.Errorf("%+v", c)
		}
	}
}

// TestPairComparesTheWholeDigest: a code is 30 bits of a digest of 256; another recipe
// that happens to have the same code is another recipe.
func TestPairComparesTheWholeDigest(t *testing.T) {
	b := &Batch{File: "pot", Ingredients: []Ingredient{{Food: food(t, "kale-raw"), Grams: 100}}}
	plan := &Plan{Base: b.Snapshot()}
	last := len(plan.Base.RecipeDigest) - 1
	other := byte('0')
	if plan.Base.RecipeDigest[last] == other {
		other = '1'
	}
	plan.Base.RecipeDigest = plan.Base.RecipeDigest[:last] + string(other)
	if codeOf(plan.Base.RecipeDigest) != b.Identity().Code {
		t.Fatal("the two do not share their code")
	}
	if _, err := Pair(Sound{plan}, b); err == nil {
		t.Error("paired by the code")
	}
}

// TestCompositionOfABatchWithinABatch: half of a batch in another batch brings
// half of what it holds; nothing is lost or gained on the way.
func TestCompositionOfABatchWithinABatch(t *testing.T) {
	inner := &Batch{File: "broth", Ingredients: []Ingredient{
		{Food: food(t, "beef-heart-raw"), Grams: 1000, Method: "simmered"}}, YieldG: 700}
	outer := &Batch{File: "pot", Ingredients: []Ingredient{{Batch: inner, Grams: 350}}}
	if got := outer.CookedGrams(); got != 350 {
		t.Errorf("350 g of a cooked batch weigh %g g", got)
	}
	a, _ := inner.Composition()
	b, _ := outer.Composition()
	for id := range a {
		if d := a[id].Lo - b[id].Lo; d > 1e-9*a[id].Lo || -d > 1e-9*a[id].Lo {
			t.Errorf("%s: %g per 100 g alone, %g within", nutrients.ID(id), a[id].Lo, b[id].Lo)
		}
	}
	// 700 g hold what 1000 g of raw heart kept.
	cooked, err := nutrients.Cook(food(t, "beef-heart-raw"), "simmered")
	if err != nil {
		t.Fatal(err)
	}
	want := cooked.Kept[nutrients.Protein].Lo * 1000 / 700
	if got := a[nutrients.Protein].Lo; got < want*(1-1e-9) || got > want*(1+1e-9) {
		t.Errorf("protein %g g per 100 g, want %g", got, want)
	}
}

// TestShareOnTheBorder: a share of 1/64 lies exactly between two grains; no unit or
// size of the batch may decide which of them it falls into.
func TestShareOnTheBorder(t *testing.T) {
	batch := func(unit float64) *Batch {
		return &Batch{Ingredients: []Ingredient{{Food: food(t, "kale-raw"), Grams: 1 * unit}, {Food: food(t, "carrot-raw"), Grams: 63 * unit}}}
	}
	want := batch(1).canonical(false)
	for i := range 2000 {
		unit := gramsPerPound * float64(i+1) / 7
		if got := batch(unit).canonical(false); got != want {
			t.Fatalf("in units of %g g:\n%s\nwant:\n%s", unit, got, want)
		}
	}
}
