package household

import "bowlwright/nutrients"

// Makeup is what the food of an average day is made of. A pointer is nil where too
// much of the food has no figure for it.
type Makeup struct {
	// WeightG is the weight as fed: base, add-ons, extras.
	WeightG float64 `json:"weight_g"`
	// WaterG and DryMatterG sum to WeightG.
	WaterG     *float64 `json:"water_g"`
	DryMatterG *float64 `json:"dry_matter_g"`
	FibreG     *float64 `json:"fibre_g"`
	// The energy by source, by the factors that the plan is made with.
	ProteinKcal      *float64 `json:"protein_kcal"`
	FatKcal          *float64 `json:"fat_kcal"`
	CarbohydrateKcal *float64 `json:"carbohydrate_kcal"`
}

// makeupSlack is how far the least and the greatest value of a sum may lie apart,
// relative to the greatest, for it to be recorded: the three digits shown must not
// pretend more than is known.
const makeupSlack = 0.02

// MakeupOf works out what the food of a day is made of from its totals, in grams
// per day as the species uses them. A part without a figure may be water or hold
// none, so it widens the sum by its weight; of the other nutrients, by the share
// that is not known.
func MakeupOf(sp nutrients.Species, weightG float64, total func(nutrients.ID) nutrients.Figure) *Makeup {
	m := &Makeup{WeightG: weightG}
	water := total(nutrients.Water)
	open := (1 - water.Coverage) * weightG
	least, most := max(0, weightG-open-water.Hi), max(0, weightG-open-water.Lo)+open
	if most > 0 && (most-least)/most <= makeupSlack {
		dry := (least + most) / 2
		wet := weightG - dry
		m.DryMatterG, m.WaterG = &dry, &wet
	}
	known := func(id nutrients.ID, factor float64) *float64 {
		f := total(id)
		if 1-f.Coverage > makeupSlack {
			return nil
		}
		x := f.Lo * factor
		return &x
	}
	m.FibreG = known(nutrients.Fiber, 1)
	factors := nutrients.Atwater(sp)
	m.ProteinKcal = known(nutrients.Protein, factors.Protein)
	m.FatKcal = known(nutrients.Fat, factors.Fat)
	m.CarbohydrateKcal = known(nutrients.DigestibleCarbohydrate, factors.Carbohydrate)
	return m
}

// withWater is the makeup of the same food with more water in it, or with less.
func (m *Makeup) withWater(g float64) *Makeup {
	if m == nil {
		return nil
	}
	n := *m
	n.WeightG += g
	if m.WaterG != nil {
		wet := *m.WaterG + g
		n.WaterG = &wet
	}
	return &n
}
