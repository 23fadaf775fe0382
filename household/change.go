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

// With returns the batch with its ingredients changed and everything else as it
// was; an ingredient of which nothing is left is gone. A declared yield moves by
// what the cooking tables expect of the change. Taking out more than there is is a
// programmer's fault and panics.
func (b *Batch) With(changes ...Change) *Batch {
	out := *b
	out.Ingredients = slices.Clone(b.Ingredients)
	for _, c := range changes {
		changed := Ingredient{Food: c.Food, Method: c.Method, Grams: c.Grams}
		i := slices.IndexFunc(out.Ingredients, func(in Ingredient) bool {
			return in.Food != nil && in.Food.ID == c.Food.ID && in.Method == c.Method
		})
		if i >= 0 {
			out.Ingredients[i].Grams += c.Grams
		} else {
			i = len(out.Ingredients)
			out.Ingredients = append(out.Ingredients, changed)
		}
		switch left := out.Ingredients[i].Grams; {
		case left < 0:
			panic("household: more taken out of the batch than there is of " + c.Food.ID)
		case left == 0:
			out.Ingredients = slices.Delete(out.Ingredients, i, i+1)
		}
		if b.YieldG > 0 {
			out.YieldG += c.Grams * changed.cook(b.KeepsLiquid).YieldShare
		}
	}
	return &out
}

// Losses returns what a food of the batch keeps through cooking by a method.
func (b *Batch) Losses(f *nutrients.Food, method string) nutrients.Cooked {
	return Ingredient{Food: f, Method: method}.cook(b.KeepsLiquid)
}
