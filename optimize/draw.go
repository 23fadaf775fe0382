package optimize

import (
	"fmt"
	"math/rand"
	"slices"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// randomHousehold draws a household on real foods: one base of three to seven
// ingredients, one pet of any kind, and a shelf of 3 to 30 items.
func randomHousehold(r *rand.Rand) *household.Household {
	all := nutrients.Default().All()
	var foods, supplements []*nutrients.Food
	for _, f := range all {
		switch {
		case f.Supplement() && f.PerUnit == nil:
			supplements = append(supplements, f)
		case !f.Supplement():
			foods = append(foods, f)
		}
	}
	b := &household.Batch{File: "pot", Name: "Pot"}
	for range 3 + r.Intn(5) {
		b.Ingredients = append(b.Ingredients, household.Ingredient{Food: foods[r.Intn(len(foods))], Grams: 100 + 900*r.Float64()})
	}
	h := &household.Household{Name: "Drawn", Standard: nutrients.Standards()[r.Intn(3)], Base: b,
		Batches: map[string]*household.Batch{"pot": b}, Catalogue: nutrients.Default(),
		Kitchen: household.Kitchen{Meals: 2, ScaleG: 1, FineScaleG: 0.01, PremixDays: 28, EnergySlack: 0.01, AddonEnergyShare: 0.2}}
	taken := map[string]bool{}
	for range 3 + r.Intn(28) {
		f := foods[r.Intn(len(foods))]
		if r.Intn(3) > 0 {
			f = supplements[r.Intn(len(supplements))]
		}
		if taken[f.ID] {
			continue
		}
		taken[f.ID] = true
		a := household.Addon{Food: f, PricePerG: 0.01 * float64(r.Intn(9))}
		if r.Intn(4) == 0 {
			a.MaxG = float64(1 + r.Intn(20))
		}
		h.Addons = append(h.Addons, a)
	}
	h.Pets = []household.Pet{randomPet(r)}
	return h
}

// wellStocked is a randomHousehold with nearly every supplement of the catalogue on
// its shelf, so that many of the pets can be met.
func wellStocked(r *rand.Rand) *household.Household {
	h := randomHousehold(r)
	for _, f := range nutrients.Default().All() {
		has := slices.ContainsFunc(h.Addons, func(a household.Addon) bool { return a.Food == f })
		if f.Supplement() && f.PerUnit == nil && !has && r.Intn(10) < 9 {
			h.Addons = append(h.Addons, household.Addon{Food: f})
		}
	}
	return h
}

func randomPet(r *rand.Rand) household.Pet {
	a := nutrients.Animal{Species: nutrients.Dog, Stage: nutrients.Adult, WeightKg: 3 + 45*r.Float64(), Condition: 4 + r.Intn(4),
		Activity: nutrients.Moderate, Neutered: true, AgeWeeks: 200}
	if r.Intn(3) == 0 {
		a.Species, a.WeightKg = nutrients.Cat, 2.5+4*r.Float64()
	}
	if r.Intn(4) == 0 {
		a.Stage, a.Condition, a.AgeWeeks = nutrients.Growth, 5, 16+r.Intn(20)
		a.AdultKg = a.WeightKg * (1.3 + r.Float64())
	}
	return household.Pet{Name: fmt.Sprintf("Pet %d", r.Intn(100)), Animal: a, Prefer: "least"}
}

// quantile is the value under which a share of the numbers lies.
func quantile(ns []float64, share float64) float64 {
	sorted := slices.Sorted(slices.Values(ns))
	return sorted[int(share*float64(len(sorted)-1))]
}
