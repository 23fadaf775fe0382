package household

import (
	"slices"

	"bowlwright/nutrients"
)

// Change is grams more, or where negative less, of one food in a batch, raw weight.
type Change struct {
	Food *nutrients.Food
	// Method is the cooking method; the food with another method is another
	// ingredient.
	Method string
	Grams  float64
}

// noneLeft is the share of a food in a batch that counts as nothing left of it: the
// last bits of a sum of its entries.
const noneLeft = 1e-9

// With returns the batch with its ingredients changed and everything else as it
// was; entries of a changed food by the same method become one, and an ingredient of
// which nothing is left is gone. A declared yield stays the same share of what the
// cooking tables expect: a pot that came out light did so with every food in it.
// Taking out more than there is is a programmer's fault and panics.
func (b *Batch) With(changes ...Change) *Batch {
	out := *b
	out.Ingredients = slices.Clone(b.Ingredients)
	for _, c := range changes {
		out.change(c)
	}
	if b.YieldG > 0 {
		out.YieldG = b.YieldG * (out.ExpectedGrams() / b.ExpectedGrams())
	}
	return &out
}

func (b *Batch) change(c Change) {
	same := func(in Ingredient) bool { return in.Food != nil && in.Food.ID == c.Food.ID && in.Method == c.Method }
	i := slices.IndexFunc(b.Ingredients, same)
	if i < 0 {
		i = len(b.Ingredients)
		b.Ingredients = append(b.Ingredients, Ingredient{Food: c.Food, Method: c.Method})
	}
	was := 0.0
	for _, in := range b.Ingredients[i:] {
		if same(in) {
			was += in.Grams
		}
	}
	rest := slices.DeleteFunc(b.Ingredients[i+1:], same)
	b.Ingredients = b.Ingredients[:i+1+len(rest)]
	b.Ingredients[i].Grams = was + c.Grams
	switch left := was + c.Grams; {
	case left < -noneLeft*was:
		panic("household: more taken out of the batch than there is of " + c.Food.ID)
	case left <= noneLeft*was:
		b.Ingredients = slices.Delete(b.Ingredients, i, i+1)
	}
}

// Losses returns what a food of the batch keeps through cooking by a method.
func (b *Batch) Losses(f *nutrients.Food, method string) nutrients.Cooked {
	return Ingredient{Food: f, Method: method}.cook(b.KeepsLiquid)
}
