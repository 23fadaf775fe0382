package verify

import (
	"math"
	"slices"

	"bowlwright/nutrients"
)

// risen works out the minimum of a day that grows with another of its nutrients.
func (v *verifier) risen(l nutrients.Limit) *float64 {
	least := l.Lower
	for _, r := range v.targets.Rises {
		if r.Nutrient != l.Nutrient || least == nil {
			continue
		}
		if over := v.total(r.With).Hi - r.Above; over > 0 {
			sum := *l.Lower + over*r.PerUnit
			least = &sum
		}
	}
	return least
}

// unharmed checks that add-ons push no nutrient past the amount up to which no harm was
// seen, where food does not bring more by itself, and that a day past it says so.
func (v *verifier) unharmed() {
	for i, l := range v.targets.Limits {
		if l.NoHarm == nil || i >= len(v.plan.Pet.Nutrients) {
			continue
		}
		got := v.total(l.Nutrient).Hi
		said := v.plan.Pet.Nutrients[i].BeyondNoHarm()
		if past := got > *l.NoHarm*(1+overTol); past && (said == "" || !slices.Contains(v.plan.Pet.Cautions, said)) {
			v.fault("verify-no-harm", "%s: %.6g %s are more than is known to do no harm, and nothing says so", l.Nutrient.Info().Name, got, l.Nutrient.Info().Unit)
		}
		if most := math.Max(*l.NoHarm, v.fromFood(l.Nutrient)); got > most*(1+overTol) {
			v.fault("verify-no-harm", "%s: add-ons bring it to %.6g %s, past the %.6g that food alone or what is known to do no harm allow",
				l.Nutrient.Info().Name, got, l.Nutrient.Info().Unit, most)
		}
	}
}

// fromFood is the most of a nutrient that a day without add-ons holds, at the most base
// that the energy allows.
func (v *verifier) fromFood(id nutrients.ID) float64 {
	alone := &verifier{plan: v.plan, h: v.h, pet: v.pet}
	for _, x := range v.pet.Extras {
		alone.eat(x.Grams, &x.Food.Per100g)
	}
	extras, kcal := 0.0, 0.0
	if alone.grams > 0 {
		extras, kcal = alone.total(id).Hi, alone.total(nutrients.Energy).Lo
	}
	base := &verifier{plan: v.plan, h: v.h, pet: v.pet}
	base.eatBatch(100, 100, v.h.Base)
	per := base.total(nutrients.Energy).Lo
	if per <= 0 {
		return extras
	}
	left := math.Max(0, v.plan.Pet.EnergyKcal*(1+v.h.Kitchen.EnergySlack)-kcal)
	return extras + left/per*base.total(id).Hi
}
