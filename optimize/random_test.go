package optimize

import (
	"fmt"
	"math"
	"math/rand"

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

// degenerate bends a program so that limits meet at its optimum: caps exactly
// there, rows exactly tight, columns twice and empty, costs of zero.
func degenerate(r *rand.Rand, p *program, x []float64) {
	for j := 1; j < len(p.items); j++ {
		switch r.Intn(6) {
		case 0:
			p.items[j].cap = math.Max(x[j], 1e-3)
		case 1:
			for i := range p.rows {
				p.rows[i].a[j] = 0
			}
		case 2:
			k := 1 + r.Intn(len(p.items)-1)
			for i := range p.rows {
				p.rows[i].a[j] = p.rows[i].a[k]
			}
			p.items[j].cap = p.items[k].cap
		}
	}
	for i := range p.rows {
		row := &p.rows[i]
		sum := 0.0
		for j := range x {
			sum += row.a[j] * x[j]
		}
		if r.Intn(5) == 0 && sum > 0 && row.limit != energyRow {
			if !math.IsInf(row.upper, 1) {
				row.upper = sum
			} else if row.elastic && row.lower > 0 {
				row.lower = sum
			}
		}
	}
}
