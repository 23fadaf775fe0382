package household

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/nutrients"
)

const (
	// recipeForm names the canonical form; a change of it changes every code.
	recipeForm = "bowlwright/recipe/1"
	// recipeWithOwnForm is that of recipes with foods of the household's own.
	recipeWithOwnForm = "bowlwright/recipe/2"

	figuresForm = "bowlwright/figures/1"
	// digestPrefix names the hash in every digest.
	digestPrefix = "sha256:"
	// shareStep and yieldStep are the grains of the canonical form: smaller
	// changes are the scatter of weighing, not another recipe.
	shareStep, yieldStep = 1e-5, 1e-3
	// tieNudge moves the border between two grains off the round shares that
	// people write (1/64 lies exactly on a border), so that the last bit of a
	// unit conversion cannot decide which grain a share falls into.
	tieNudge = 1e-4
)

// ownPrefix begins the key of an own food.
const ownPrefix = "own "

// grains counts the steps in x, rounded.
func grains(x, step float64) int64 { return int64(math.Floor(x/step + 0.5 + tieNudge)) }

// DigestOf hashes text.
func DigestOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return digestPrefix + hex.EncodeToString(sum[:])
}

// ingredientKey is what makes two ingredients the same: the food's id, for an own food
// its figures too, or a nested batch's recipe digest, and the method.
type ingredientKey struct{ what, method string }

func (k ingredientKey) compare(other ingredientKey) int {
	return cmp.Or(strings.Compare(k.what, other.what), strings.Compare(k.method, other.method))
}

// key is the ingredient's; byName knows own foods by their ids alone.
func (in Ingredient) key(byName bool) ingredientKey {
	if in.Batch != nil {
		return ingredientKey{"batch " + DigestOf(in.Batch.canonical(byName)), in.Method}
	}
	if content := in.content(); content != "" && !byName {
		return ingredientKey{ownPrefix + in.Food.ID + " " + content, in.Method}
	}
	return ingredientKey{"food " + in.Food.ID, in.Method}
}

// inOrder returns the ingredients in an order that does not depend on that of the
// file: sums over them must come out the same to the last bit.
func (b *Batch) inOrder() []Ingredient {
	type keyed struct {
		key ingredientKey
		in  Ingredient
	}
	all := make([]keyed, 0, len(b.Ingredients))
	for _, in := range b.Ingredients {
		all = append(all, keyed{in.key(false), in})
	}
	slices.SortFunc(all, func(x, y keyed) int {
		return cmp.Or(x.key.compare(y.key), cmp.Compare(x.in.Grams, y.in.Grams))
	})
	out := make([]Ingredient, 0, len(all))
	for _, k := range all {
		out = append(out, k.in)
	}
	return out
}

// partsOf adds up equal ingredients and returns them in a fixed order.
func (b *Batch) partsOf(byName bool) ([]ingredientKey, map[ingredientKey]float64) {
	each := make(map[ingredientKey][]float64, len(b.Ingredients))
	for _, in := range b.Ingredients {
		k := in.key(byName)
		each[k] = append(each[k], in.Grams)
	}
	keys := make([]ingredientKey, 0, len(each))
	grams := make(map[ingredientKey]float64, len(each))
	for k, parts := range each {
		keys = append(keys, k)
		slices.Sort(parts)
		for _, g := range parts {
			grams[k] += g
		}
	}
	slices.SortFunc(keys, ingredientKey.compare)
	return keys, grams
}

// canonical is the text behind the recipe digest: one line an ingredient with
// its share of the raw weight and its method, and the yield. A yield that is
// computed from the cooking tables enters as such: better tables are other
// figures, not another recipe.
func (b *Batch) canonical(byName bool) string {
	keys, grams := b.partsOf(byName)
	raw := 0.0
	for _, k := range keys {
		raw += grams[k]
	}
	var s strings.Builder
	form := recipeForm
	if slices.ContainsFunc(keys, func(k ingredientKey) bool { return strings.HasPrefix(k.what, ownPrefix) }) {
		form = recipeWithOwnForm
	}
	s.WriteString(form + "\n")
	for _, k := range keys {
		fmt.Fprintf(&s, "%s|%d|%s\n", k.what, grains(grams[k]/raw, shareStep), k.method)
	}
	if b.KeepsLiquid {
		s.WriteString("liquid|kept\n")
	}
	if b.YieldG > 0 {
		fmt.Fprintf(&s, "yield|%d\n", grains(b.YieldG/raw, yieldStep))
	} else {
		s.WriteString("yield|computed\n")
	}
	return s.String()
}

// RecipeDigest covers what was cooked: see the Identity of the batch.
func (b *Batch) RecipeDigest() string { return DigestOf(b.canonical(false)) }

// Identity computes the digests and the code of the batch.
func (b *Batch) Identity() Identity {
	recipe := b.RecipeDigest()
	return Identity{Code: CodeOf(recipe), RecipeDigest: recipe, FiguresDigest: b.figuresDigest()}
}

// figuresDigest covers the composition of every ingredient and what the cooking
// tables make of it.
func (b *Batch) figuresDigest() string {
	lines := make([]string, 0, len(b.Ingredients))
	for _, in := range b.Ingredients {
		if in.Batch != nil {
			lines = append(lines, "batch "+in.Batch.RecipeDigest()+" "+in.Batch.figuresDigest())
			continue
		}
		lines = append(lines, in.figures(b.KeepsLiquid))
	}
	slices.Sort(lines)
	return DigestOf(figuresForm + "\n" + strings.Join(slices.Compact(lines), "\n"))
}

// figures is one food ingredient's line in the figures digest.
func (in Ingredient) figures(keepsLiquid bool) string {
	cooked := in.cook(keepsLiquid)
	var s strings.Builder
	fmt.Fprintf(&s, "food %s %s yield %g", in.Food.Digest(), in.Method, cooked.YieldShare)
	for id, f := range cooked.Kept {
		if f.IsKnown() {
			fmt.Fprintf(&s, " %s %g %g %g", nutrients.ID(id), f.Lo, f.Hi, f.Coverage)
		}
	}
	return s.String()
}

// cook applies the cooking tables. The loader has checked the method, so a fault
// here is a programmer's.
func (in Ingredient) cook(keepsLiquid bool) nutrients.Cooked {
	cook := nutrients.Cook
	if keepsLiquid {
		cook = nutrients.CookKeepingLiquid
	}
	cooked, err := cook(in.Food, in.Method)
	if err != nil {
		panic("household: " + in.Food.ID + ": " + err.Error())
	}
	return cooked
}
