package household

import (
	"strings"
	"testing"

	"bowlwright/nutrients"
)

// TestFoodCautions: raw meat is warned of unless it is cooked, each food once.
func TestFoodCautions(t *testing.T) {
	p := &Pet{Animal: nutrients.Animal{Species: nutrients.Dog}}
	heart := food(t, "beef-heart-raw")
	warned := func(b *Batch, addons ...*nutrients.Food) string {
		return strings.Join(FoodCautions(p, b, addons), "\n")
	}
	raw := &Batch{Ingredients: []Ingredient{{Food: heart, Grams: 1}, {Food: heart, Grams: 2}}}
	if got := warned(raw); strings.Count(got, "Beef heart, raw: ") != 1 {
		t.Errorf("raw: %q", got)
	}
	cooked := &Batch{Ingredients: []Ingredient{{Food: heart, Grams: 1, Method: "simmered"}}}
	if got := warned(cooked); got != "" {
		t.Errorf("cooked: %q", got)
	}
	if got := warned(&Batch{Ingredients: []Ingredient{{Batch: raw, Grams: 1}}}); got == "" {
		t.Error("nothing about raw meat in an inner batch")
	}
	if got := warned(cooked, food(t, "cod-liver-oil")); !strings.Contains(got, "Cod liver oil: ") {
		t.Errorf("fish liver oil: %q", got)
	}
}
