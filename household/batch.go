package household

import "bowlwright/nutrients"

// Identity is what tells one base from another.
type Identity struct {
	// Code is the base code as printed ("K7Q-2MX-4").
	Code string `json:"code"`
	// RecipeDigest covers what was cooked; FiguresDigest the composition used.
	RecipeDigest  string `json:"recipe_digest"`
	FiguresDigest string `json:"figures_digest"`
}

// Identity computes the digests and the code of the batch.
func (b *Batch) Identity() Identity {
	panic("household: Identity is being built")
}

// RawGrams is the weight of all ingredients before cooking.
func (b *Batch) RawGrams() float64 {
	panic("household: RawGrams is being built")
}

// CookedGrams is the declared weight of the cooked batch, or the computed one.
func (b *Batch) CookedGrams() float64 {
	panic("household: CookedGrams is being built")
}

// Composition returns the stored figures per 100 g of the cooked batch (apply
// Profile.For for a species), and notes about what cooking lost.
func (b *Batch) Composition() (nutrients.Profile, []string) {
	panic("household: Composition is being built")
}

// Snapshot returns the base as it is now, for a record.
func (b *Batch) Snapshot() BaseSnapshot {
	panic("household: Snapshot is being built")
}

// BaseSnapshot is a base as it was, kept in every plan.
type BaseSnapshot struct {
	Name string `json:"name"`
	File string `json:"file"`
	Identity
	// EnergyKcalPerG is by the dog's factors, EnergyKcalPerGCat by the cat's.
	EnergyKcalPerG    float64              `json:"energy_kcal_per_g"`
	EnergyKcalPerGCat float64              `json:"energy_kcal_per_g_cat"`
	RawG              float64              `json:"raw_g"`
	CookedG           float64              `json:"cooked_g"`
	Days              int                  `json:"days,omitempty"`
	Ingredients       []IngredientSnapshot `json:"ingredients"`
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
	// Grams as declared, Share of the raw weight (0 to 1).
	Grams  float64 `json:"grams"`
	Share  float64 `json:"share"`
	Method string  `json:"method,omitempty"`
	// Batches used as ingredients keep their own snapshot.
	Of *BaseSnapshot `json:"of,omitempty"`
}
