package reading

import (
	"fmt"
	"testing"

	"bowlwright/household"
)

// TestCollidingCodesAreRefused searches for two recipes with one code (among forty
// thousand, two of 2^30 codes are likely to be the same) and puts both into bases/.
func TestCollidingCodesAreRefused(t *testing.T) {
	heart, kale := food(t, "beef-heart-raw"), food(t, "kale-raw")
	recipe := func(n int) *household.Batch {
		return &household.Batch{YieldG: float64(300 + n%700), Ingredients: []household.Ingredient{{Food: heart, Grams: 1000}, {Food: kale, Grams: float64(1 + n/700)}}}
	}
	text := func(n int) string {
		b := recipe(n)
		return fmt.Sprintf("yield = \"%g g\"\n[[ingredient]]\nfood = \"beef-heart-raw\"\namount = \"1000 g\"\n[[ingredient]]\nfood = \"kale-raw\"\namount = \"%g g\"\n", b.YieldG, b.Ingredients[1].Grams)
	}
	seen := map[string]int{}
	digests := map[int]string{}
	for n := range 700 * 400 {
		digest := recipe(n).RecipeDigest()
		code := household.CodeOf(digest)
		digests[n] = digest
		first, taken := seen[code]
		if !taken || digests[first] == digest {
			seen[code] = n
			continue
		}
		_, list, err := Load(folder(t, map[string]string{"bases/one.toml": text(first), "bases/two.toml": text(n)}), testDay)
		if err != nil || codesOf(list) != "bases/two.toml:0 code-collision" {
			t.Errorf("%s for %d and %d: %s, %v", code, first, n, codesOf(list), err)
		}
		mustLoad(t, folder(t, map[string]string{"bases/one.toml": text(first), "bases/two.toml": text(first)}))
		return
	}
	t.Fatal("no two codes were the same")
}
