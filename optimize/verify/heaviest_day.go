package verify

import (
	"bowlwright/household"
	"bowlwright/nutrients"
)

// heaviestDay adds up the day on which every helping for several days falls
// together and the serving of the premix is one scale step too heavy: no upper
// limit may be exceeded then, and the energy stays within dayEnergyRoom of its slack.
func (v *verifier) heaviestDay() {
	extra := map[string]float64{}
	lighter := 0.0 // kcal that a day without a helping lacks
	mix := v.plan.Pet.Premix
	for _, a := range v.plan.Pet.Addons {
		switch {
		case a.EveryDays > 1:
			extra[a.Food] = a.G * float64(a.EveryDays-1)
		case a.ServedAs == household.ServedPremix && mix != nil && mix.ServeG > 0:
			extra[a.Food] = a.G * v.h.Kitchen.FineScaleG / mix.ServeG
		}
	}
	if len(extra) == 0 {
		return
	}
	heavy := *v
	heavy.found = nil
	kcal := 0.0
	several := false
	for _, x := range v.h.Addons {
		g := extra[x.Food.ID]
		if g == 0 {
			continue
		}
		heavy.eat(g, &x.Food.Per100g)
		for _, a := range v.plan.Pet.Addons {
			if a.Food == x.Food.ID && a.EveryDays > 1 {
				several = true
				kcal += v.kcalOf(&x.Food.Per100g) * g / 100
				lighter += v.kcalOf(&x.Food.Per100g) * a.G / 100
			}
		}
	}
	for _, l := range v.targets.Limits {
		if l.Upper != nil && heavy.total(l.Nutrient).Hi > *l.Upper+*l.Upper*overTol {
			v.fault("verify-heaviest-day", "%s: the heaviest day holds %.6g, above the maximum of %.6g %s",
				l.Nutrient.Info().Name, heavy.total(l.Nutrient).Hi, *l.Upper, l.Nutrient.Info().Unit)
		}
	}
	if !several {
		return
	}
	pp := &v.plan.Pet
	got := v.total(nutrients.Energy).Lo
	slack := (v.h.Kitchen.EnergySlack + dayEnergyRoom) * pp.EnergyKcal * (1 + overTol)
	if got+kcal > pp.EnergyKcal+slack || got-lighter < pp.EnergyKcal-slack {
		v.fault("verify-heaviest-day", "single days hold %.1f to %.1f kcal, too far from the %.1f kcal needed",
			got-lighter, got+kcal, pp.EnergyKcal)
	}
	if most := v.h.Kitchen.AddonEnergyShare * pp.EnergyKcal; v.addonsKcal+kcal > most*(1+overTol) {
		v.fault("verify-share", "add-ons bring %.1f kcal on the heaviest day, more than %.1f kcal", v.addonsKcal+kcal, most)
	}
}

// dayEnergyRoom is how far, as a share of the need, the energy of a single day may be
// outside its slack when helpings for several days fall on it (common practice).
const dayEnergyRoom = 0.1
