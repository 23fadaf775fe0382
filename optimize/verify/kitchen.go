package verify

import (
	"math"
	"slices"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// kitchen checks that the plan says of which add-ons it gives more than a kitchen does,
// and of no others.
func (v *verifier) kitchen() {
	said := map[string]household.OverKitchen{}
	for _, o := range v.plan.Pet.OverKitchen {
		said[o.Food] = o
		if !slices.Contains(v.plan.Pet.Cautions, o.Caution()) {
			v.fault("verify-kitchen", "%s: the caution that the day holds much of it is missing or different", o.Food)
		}
	}
	for _, a := range v.plan.Pet.Addons {
		for _, x := range v.h.Addons {
			c, ok := nutrients.KitchenCapOf(x.Food)
			if x.Food.ID != a.Food || !ok || x.MaxG > 0 || x.MaxGPerKg > 0 {
				continue
			}
			most := math.Max(c.GramsPerKg75*math.Pow(v.targets.Energy.IdealKg, 0.75), x.StepG)
			o, listed := said[a.Food]
			delete(said, a.Food)
			switch {
			case a.G > most*(1+excessTol) && !listed:
				v.fault("verify-kitchen", "%g g of %s are more than the %.3g g that a kitchen gives, and the plan does not say so", a.G, a.Food, most)
			case a.G < most*(1-excessTol) && listed:
				v.fault("verify-kitchen", "%g g of %s are called more than a kitchen gives, which is %.3g g", a.G, a.Food, most)
			case listed && (!v.near(o.G, a.G) || !v.near(o.CapG, most)):
				v.fault("verify-kitchen", "%s: the plan says %g g over %g g, it is %g g over %.3g g", a.Food, o.G, o.CapG, a.G, most)
			}
		}
	}
	for food := range said {
		v.fault("verify-kitchen", "%s is called more than a kitchen gives, and has no such cap here", food)
	}
}
