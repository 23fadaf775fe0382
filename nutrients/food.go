package nutrients

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
)

// Source says where a figure comes from.
type Source struct {
	// Text names the publication and its record or page.
	Text string
	// Recalled is true for a value from memory, never seen in the source.
	Recalled bool
	// Note keeps the reason of a correction, or a warning.
	Note string
}

// Measure is a published household measure of a food.
type Measure struct {
	Name  string
	Grams float64
}

// Food is one entry of the catalogue: a food, a supplement, or a household's own.
type Food struct {
	// ID is stable and kebab-case; Name is for people; Group and State are the
	// catalogue's ("poultry", "raw"; supplements have the group "supplement").
	ID, Name, Group, State string
	// Own is true for a food that a household wrote for itself: other figures make it
	// another food, where in a catalogue they are a correction.
	Own bool
	// Per100g holds the stored figures per 100 g edible portion, without the
	// derived ones. For a food sold by the unit whose weight is not published it
	// is empty, and PerUnit holds the figures of one unit.
	Per100g Profile
	PerUnit *Profile
	// UnitName is "capsule", "tablet" or empty.
	UnitName string
	// UnitGrams is the weight of one unit, 0 when not published.
	UnitGrams float64
	// Refuse is the share (0 to 1) of the bought food that is thrown away.
	Refuse float64
	// Measures are the published household measures; powders of minerals and
	// vitamins have none, because they must be weighed.
	Measures []Measure
	// Source is the record the food comes from.
	Source Source
	// Figures keeps the source of single figures where it is not Source: a
	// correction, a range, a second table.
	Figures map[ID]Source
	// Powder may be mixed into a dry premix; oils and drops may not.
	Powder bool
	// Carrier is food in powder or meal form that can carry a premix.
	Carrier bool
	// Dilution says how it is made at home of a pure compound, nil for all others.
	Dilution *Dilution
	// Rest is what 100 g of a pure compound weigh beside the nutrients it holds.
	Rest Rest
	// Cautions are short sentences to show wherever the food is used.
	Cautions []string
	// Parts are what a mixture is made of; empty for everything else.
	Parts []Part

	// excludesFiber is true where the source's carbohydrate leaves fibre out.
	excludesFiber bool
}

// Dilution is one gram of a pure compound in 99 grams of starch, and of that one gram in
// 99 again so many times, for vitamins of which no scale weighs a day's need.
type Dilution struct {
	Of    string
	Times int
}

// Rest names the part of a pure compound that is no nutrient: the acid of a salt,
// its water. Grams are per 100 g.
type Rest struct {
	Grams float64
	What  string
}

// Supplement says whether the food is a supplement of the catalogue.
func (f *Food) Supplement() bool { return f.Group == "supplement" }

// SourceOf says where the figure of one nutrient comes from: its own note where
// there is one, else the food's record.
func (f *Food) SourceOf(id ID) Source {
	if s, ok := f.Figures[id]; ok {
		if s.Text == "" {
			s.Text = f.Source.Text
		}
		return s
	}
	return f.Source
}

// ByUnit returns the food with its per-unit figures spread over the weight of
// one unit in grams, so that it can be added up like any other.
func (f *Food) ByUnit(grams float64) *Food {
	if f.PerUnit == nil || grams <= 0 {
		panic("nutrients: ByUnit of a food without units or weight")
	}
	g := *f
	g.UnitGrams = grams
	for id := range g.Per100g {
		g.Per100g[id] = f.PerUnit[id].Scale(100 / grams)
	}
	return &g
}

// Digest identifies the composition: the same figures give the same digest
// ("sha256:" and hex), whatever the names, sources and measures.
func (f *Food) Digest() string {
	h := sha256.New()
	fmt.Fprintf(h, "%s\n", f.ID)
	for id, figure := range f.Per100g {
		if figure.IsKnown() {
			fmt.Fprintf(h, "%s %g %g %g\n", ID(id), figure.Lo, figure.Hi, figure.Coverage)
		}
	}
	if f.PerUnit != nil {
		for id, figure := range f.PerUnit {
			if figure.IsKnown() {
				fmt.Fprintf(h, "unit %s %g %g\n", ID(id), figure.Lo, figure.Hi)
			}
		}
	}
	return "sha256:" + hex.EncodeToString(h.Sum(nil))
}
