package household

import (
	"slices"

	"bowlwright/nutrients"
)

// Identity is what tells one base from another.
type Identity struct {
	// Code is the base code as printed ("K7Q-2MX-4").
	Code string `json:"code"`
	// RecipeDigest covers what was cooked; FiguresDigest the composition used.
	RecipeDigest  string `json:"recipe_digest"`
	FiguresDigest string `json:"figures_digest"`
}

// RawGrams is the weight of all ingredients before cooking.
func (b *Batch) RawGrams() float64 {
	raw := 0.0
	for _, in := range b.inOrder() {
		raw += in.Grams
	}
	return raw
}

// CookedGrams is the declared weight of the cooked batch, or the computed one:
// each ingredient's raw weight times the yield of its cooking method. A nested
// batch is cooked already and keeps its weight.
func (b *Batch) CookedGrams() float64 {
	if b.YieldG > 0 {
		return b.YieldG
	}
	return b.ExpectedGrams()
}

// ExpectedGrams is what the cooking tables expect the cooked batch to weigh, whatever
// yield is declared.
func (b *Batch) ExpectedGrams() float64 {
	cooked := 0.0
	for _, in := range b.inOrder() {
		if in.Batch != nil {
			cooked += in.Grams
			continue
		}
		cooked += in.Grams * in.cook(b.KeepsLiquid).YieldShare
	}
	return cooked
}

// Composition returns the stored figures per 100 g of the cooked batch (apply
// Profile.For for a species), and notes about what cooking lost.
func (b *Batch) Composition() (nutrients.Profile, []string) {
	var mix nutrients.Mix
	var notes []string
	note := func(who string, texts []string) {
		for _, t := range texts {
			if line := who + ": " + t; !slices.Contains(notes, line) {
				notes = append(notes, line)
			}
		}
	}
	for _, in := range b.inOrder() {
		if in.Batch != nil {
			inner, innerNotes := in.Batch.Composition()
			mix.Add(in.Grams, &inner)
			note(in.Batch.File, innerNotes)
			continue
		}
		cooked := in.cook(b.KeepsLiquid)
		mix.Add(in.Grams, &cooked.Kept)
		note(in.Food.ID, cooked.Notes)
	}
	return mix.Per100g(b.CookedGrams()), notes
}

// Snapshot returns the base as it is now, for a record.
func (b *Batch) Snapshot() BaseSnapshot {
	composition, notes := b.Composition()
	s := BaseSnapshot{
		Name: b.Name, File: b.File, Identity: b.Identity(),
		RawG: b.RawGrams(), CookedG: b.CookedGrams(), YieldDeclared: b.YieldG > 0, Days: b.Days, KeepsLiquid: b.KeepsLiquid,
		Ingredients: make([]IngredientSnapshot, 0, len(b.Ingredients)),
		Composition: map[nutrients.ID]nutrients.Figure{}, CookingNotes: notes,
	}
	for id, f := range composition {
		if f.IsKnown() {
			s.Composition[nutrients.ID(id)] = f
		}
	}
	dog, cat := composition.For(nutrients.Dog), composition.For(nutrients.Cat)
	s.EnergyKcalPerG = dog[nutrients.Energy].Lo / 100
	s.EnergyKcalPerGCat = cat[nutrients.Energy].Lo / 100
	for _, in := range b.Ingredients {
		one := IngredientSnapshot{Grams: in.Grams, Share: in.Grams / s.RawG, Method: in.Method}
		if in.Batch != nil {
			inner := in.Batch.Snapshot()
			one.Batch, one.Name, one.Digest, one.Of = in.Batch.File, in.Batch.Name, inner.RecipeDigest, &inner
		} else {
			one.Food, one.Name, one.Digest = in.Food.ID, in.Food.Name, in.Food.Digest()
			one.Own = in.Food.Own
		}
		s.Ingredients = append(s.Ingredients, one)
	}
	return s
}

// BaseSnapshot is a base as it was, kept in every plan.
type BaseSnapshot struct {
	Name string `json:"name"`
	File string `json:"file"`
	Identity
	// EnergyKcalPerG is by the dog's factors, EnergyKcalPerGCat by the cat's.
	EnergyKcalPerG    float64 `json:"energy_kcal_per_g"`
	EnergyKcalPerGCat float64 `json:"energy_kcal_per_g_cat"`
	RawG              float64 `json:"raw_g"`
	CookedG           float64 `json:"cooked_g"`
	// YieldDeclared is true when CookedG is the household's own figure, false
	// when it was computed from the cooking tables.
	YieldDeclared bool                 `json:"yield_declared"`
	Days          int                  `json:"days,omitempty"`
	KeepsLiquid   bool                 `json:"keeps_liquid,omitempty"`
	Ingredients   []IngredientSnapshot `json:"ingredients"`
	// Composition holds the stored figures per 100 g cooked, known ones only.
	Composition  map[nutrients.ID]nutrients.Figure `json:"composition"`
	CookingNotes []string                          `json:"cooking_notes,omitempty"`
}

// IngredientSnapshot is one ingredient as it was.
type IngredientSnapshot struct {
	Food   string `json:"food,omitempty"`
	Batch  string `json:"batch,omitempty"`
	Name   string `json:"name"`
	Digest string `json:"digest"`
	// Own says that the food is the household's own and known by its digest; records
	// of earlier versions do not say it.
	Own bool `json:"own,omitempty"`
	// Grams as declared, Share of the raw weight (0 to 1).
	Grams  float64 `json:"grams"`
	Share  float64 `json:"share"`
	Method string  `json:"method,omitempty"`
	// Batches used as ingredients keep their own snapshot.
	Of *BaseSnapshot `json:"of,omitempty"`
}
