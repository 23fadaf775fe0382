package verify

import (
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// amounts checks that every add-on may be given and can be measured.
func (v *verifier) amounts() {
	k := v.h.Kitchen
	if !WholeSteps(v.plan.Pet.BaseG, k.ScaleG) {
		v.fault("verify-step", "%g g of base is not a whole number of scale steps", v.plan.Pet.BaseG)
	}
	for _, a := range v.plan.Pet.Addons {
		for _, x := range v.h.Addons {
			if x.Food.ID == a.Food {
				v.addon(a, x)
			}
		}
	}
	v.concentratesTogether()
	v.excess()
}

func (v *verifier) addon(a household.AddonAmount, x household.Addon) {
	k := v.h.Kitchen
	meant := len(x.Pets) == 0
	for _, name := range x.Pets {
		meant = meant || strings.EqualFold(name, v.pet.Name)
	}
	if !meant {
		v.fault("verify-pets", "%s is not meant for %s", a.Food, v.pet.Name)
	}
	if household.Avoids(v.pet, x.Food) {
		v.fault("verify-avoid", "%s avoids %s", v.pet.Name, a.Food)
	}
	for _, part := range x.Food.Opened() {
		for _, hz := range nutrients.Hazards(part.Food, v.pet.Animal.Species) {
			if hz.Blocked {
				v.fault("verify-hazard", "%s must not be fed: %s", part.Food.ID, hz.Text)
			}
		}
		if len(x.Food.Parts) > 0 && household.Avoids(v.pet, part.Food) {
			v.fault("verify-avoid", "%s avoids %s, which is in %s", v.pet.Name, part.Food.ID, x.Food.Name)
		}
		alone := a
		alone.G *= part.Share
		v.concentrateAlone(alone, part.Food)
	}
	v.concentrateAlone(a, x.Food)
	v.dilution(x.Food)
	v.jar(a, x)
	if a.EveryDays != 0 && (a.EveryDays < 2 || a.EveryDays > 7) {
		v.fault("verify-days", "%s every %d days is not an interval that fits a week", a.Food, a.EveryDays)
		return
	}
	// What is measured out is the helping, not the average of its days.
	if a.EveryDays > 1 {
		a.G *= float64(a.EveryDays)
		if a.ServedAs == household.ServedPremix {
			v.fault("verify-days", "%s is in the premix, which is given daily", a.Food)
		}
	}
	most := math.Inf(1)
	if x.MaxG > 0 {
		most = x.MaxG
	}
	if x.MaxGPerKg > 0 {
		most = math.Min(most, x.MaxGPerKg*v.pet.Animal.WeightKg)
	}
	// A cap under one step is one step.
	if most = math.Max(most, x.StepG); a.G > most*(1+overTol) {
		v.fault("verify-cap", "%g g of %s is over the cap of %g g", a.G, a.Food, most)
	}
	kitchen, fine := k.ScaleG, k.FineScaleG
	if fine <= 0 {
		fine = kitchen
	}
	switch {
	case a.ServedAs == household.ServedByUnit:
		if !WholeSteps(a.G, x.StepG) {
			v.fault("verify-step", "%g g of %s is not a whole number of doses", a.G, a.Food)
		}
	case a.ServedAs == household.ServedPremix:
		if v.plan.Pet.Premix == nil {
			v.fault("verify-premix", "%s is in a premix that the plan does not have", a.Food)
		}
	case x.StepG > 0:
		if !WholeSteps(a.G, x.StepG) {
			v.fault("verify-step", "%g g of %s is not a whole number of its steps", a.G, a.Food)
		}
	case !WholeSteps(a.G, fine) && !WholeSteps(a.G, kitchen):
		v.fault("verify-step", "%g g of %s is not a whole number of scale steps", a.G, a.Food)
	case a.G < 20*math.Min(fine, kitchen)*(1-overTol):
		v.fault("verify-step", "%g g of %s is too little for the scales", a.G, a.Food)
	}
}

// dilution checks that a powder made at home holds what its steps leave of the pure
// compound, one hundredth each, of the vitamins it brings.
func (v *verifier) dilution(f *nutrients.Food) {
	if f.Dilution == nil {
		return
	}
	pure, ok := v.h.Catalogue.Food(f.Dilution.Of)
	if !ok {
		v.fault("verify-dilution", "%s is made of %s, which is not known", f.ID, f.Dilution.Of)
		return
	}
	for _, id := range []nutrients.ID{nutrients.Thiamin, nutrients.Riboflavin, nutrients.Niacin, nutrients.VitaminB6, nutrients.Folate, nutrients.VitaminB12, nutrients.Biotin} {
		want := pure.Per100g[id].Lo
		for range f.Dilution.Times {
			want *= 0.01
		}
		if got := f.Per100g[id].Lo; math.Abs(got-want) > 1e-9*math.Max(want, 1e-9) {
			v.fault("verify-dilution", "%s holds %g of %s in 100 g, its steps leave %g", f.ID, got, id, want)
		}
	}
}

// jar checks that a dose of a jar is one of the jar that the plan names, that the powders
// make up the jar, and that none of them stands beside it.
func (v *verifier) jar(a household.AddonAmount, x household.Addon) {
	if x.Jar == nil {
		if a.ServedAs == "jar" {
			v.fault("verify-jar", "%s is no jar", a.Food)
		}
		return
	}
	dose := v.plan.Pet.Jar
	if dose == nil || dose.Code != x.Jar.Code || dose.Mix.Digest != x.Jar.Digest || dose.DoseG != a.G || a.ServedAs != "jar" {
		v.fault("verify-jar", "the dose of the plan is not that of the jar %s", x.Jar.Code)
		return
	}
	whole := 0.0
	for _, part := range dose.Mix.Parts {
		whole += part.G
		if !WholeSteps(part.G, dose.Mix.StepG) {
			v.fault("verify-jar", "%g g of %s cannot be weighed for the jar", part.G, part.Food)
		}
		for _, other := range v.plan.Pet.Addons {
			if other.Food == part.Food && dose.Mix.Apart[v.pet.Name] != part.Food {
				v.fault("verify-jar", "%s is in the jar and stands beside it", part.Food)
			}
		}
	}
	if rate := dose.Mix.RateG; rate > 0 && math.Abs(dose.DoseG-rate/100*v.plan.Pet.BaseG) > v.plan.Pet.Scales.FinestG()/2*(1+1e-3) {
		v.fault("verify-rate", "%g g of the jar to %g g of base is not %g g to 100 g", dose.DoseG, v.plan.Pet.BaseG, rate)
	}
	if !dose.Mix.Sound() || math.Abs(whole-dose.Mix.MakesG) > 1e-6*whole {
		v.fault("verify-jar", "the code of the jar is not that of what it holds")
	}
}

// concentrateAlone checks what a concentrate brings of each nutrient for which the standard
// prints no upper limit.
func (v *verifier) concentrateAlone(a household.AddonAmount, f *nutrients.Food) {
	if !f.Concentrate() {
		return
	}
	used := f.Per100g.For(v.pet.Animal.Species)
	for _, l := range v.targets.Limits {
		daily, atOnce := nutrients.MostFromConcentrates(l.Nutrient)
		if l.Upper != nil || l.Lower == nil || daily == 0 {
			continue
		}
		got := a.G / 100 * used[l.Nutrient].Hi / *l.Lower
		if helping := got * math.Max(1, float64(a.EveryDays)); got > daily*(1+overTol) || helping > atOnce*(1+overTol) {
			v.fault("verify-open", "%g g of %s bring %.4g times the minimum of %s, %.4g times at once, and the standard prints no maximum",
				a.G, a.Food, got, l.Nutrient.Info().Name, helping)
		}
	}
}

// concentratesTogether checks the same of all concentrates together, on average and on a day
// when all their helpings fall together.
func (v *verifier) concentratesTogether() {
	type amount struct {
		g, days float64
		used    nutrients.Profile
	}
	var given []amount
	for _, a := range v.plan.Pet.Addons {
		i := slices.IndexFunc(v.h.Addons, func(x household.Addon) bool { return x.Food.ID == a.Food })
		if i >= 0 && v.h.Addons[i].Food.Concentrate() {
			given = append(given, amount{a.G, math.Max(1, float64(a.EveryDays)), v.h.Addons[i].Food.Per100g.For(v.pet.Animal.Species)})
		}
	}
	for _, l := range v.targets.Limits {
		daily, atOnce := nutrients.MostFromConcentrates(l.Nutrient)
		if l.Upper != nil || l.Lower == nil || *l.Lower <= 0 || daily == 0 {
			continue
		}
		average, heaviest := 0.0, 0.0
		for j := range given {
			a := &given[j]
			times := a.g / 100 * a.used[l.Nutrient].Hi / *l.Lower
			average += times
			heaviest += times * a.days
		}
		if average > daily*(1+overTol) || heaviest > atOnce*(1+overTol) {
			v.fault("verify-open-sum", "the concentrates together bring %.4g times the minimum of %s, %.4g times at once, and the standard prints no maximum",
				average, l.Nutrient.Info().Name, heaviest)
		}
	}
}

// excessTol is how far, relative, a day must be over for its excess to be missed, and
// under for it to be one too many.
const excessTol = 1e-6

// mostTimes is how many minimums of an element a day may hold without a caution.
const mostTimes = 5

// excess checks that a day that holds too much of an element which food can bring, and
// for which the standard prints no maximum, says so by how much, and that no other does.
// Records made before plans held this as data are not judged.
func (v *verifier) excess() {
	said := map[nutrients.ID]household.Excess{}
	for _, e := range v.plan.Pet.Excess {
		said[e.ID] = e
		if !slices.Contains(v.plan.Pet.Cautions, e.Caution()) {
			v.fault("verify-caution", "%s: the day holds too much of it, and the caution is missing or different", e.ID.Info().Name)
		}
	}
	for _, id := range []nutrients.ID{nutrients.Iron, nutrients.Copper, nutrients.Zinc, nutrients.Iodine, nutrients.Selenium} {
		times := 0.0
		for _, l := range v.targets.Limits {
			if l.Nutrient == id && l.Upper == nil && l.Lower != nil && *l.Lower > 0 {
				times = v.total(id).Hi / *l.Lower
			}
		}
		e, ok := said[id]
		delete(said, id)
		switch {
		case times > mostTimes*(1+excessTol) && !ok && v.plan.Pet.Excess != nil:
			v.fault("verify-caution", "%s: the day holds %.3g times the minimum, and the plan does not say so", id.Info().Name, times)
		case times < mostTimes*(1-excessTol) && ok:
			v.fault("verify-caution", "%s: the plan says that the day holds %.3g times the minimum, and it does not", id.Info().Name, e.Times)
		case ok && !v.near(e.Times, times):
			v.fault("verify-caution", "%s: the day holds %.6g times the minimum, the plan says %.6g times", id.Info().Name, times, e.Times)
		}
	}
	for id := range said {
		v.fault("verify-caution", "%s: the plan says that the day holds too much of it, which food does not bring", id.Info().Name)
	}
}

// WholeSteps allows for the rounding of a product.
func WholeSteps(g, step float64) bool {
	n := math.Round(g / step)
	return math.Abs(g-n*step) <= 1e-6*step
}

// premix checks that the period's weights are the daily amounts, whole steps of
// the fine scale, and evenly served.
func (v *verifier) premix() {
	mix := v.plan.Pet.Premix
	if mix == nil {
		return
	}
	fine := v.h.Kitchen.FineScaleG
	if mix.Days != min(v.h.Kitchen.PremixDays, household.PlanLasts(v.pet)) || fine <= 0 {
		v.fault("verify-premix", "a premix for %d days is not this kitchen's", mix.Days)
		return
	}
	total := 0.0
	for _, item := range mix.Items {
		total += item.G
		daily := 0.0
		for _, a := range v.plan.Pet.Addons {
			if a.Food == item.Food && a.ServedAs == household.ServedPremix {
				daily = a.G
			}
		}
		if math.Abs(daily*float64(mix.Days)-item.G) > 1e-6*fine {
			v.fault("verify-premix", "%s: %g g for %d days is not %g g a day", item.Food, item.G, mix.Days, daily)
		}
		if !WholeSteps(item.G, fine) || item.G < 20*fine*(1-overTol) {
			v.fault("verify-premix", "%g g of %s cannot be weighed", item.G, item.Food)
		}
	}
	inMix := 0
	for _, a := range v.plan.Pet.Addons {
		if a.ServedAs == household.ServedPremix {
			inMix++
		}
	}
	if inMix != len(mix.Items) || math.Abs(total-mix.TotalG) > 1e-6*fine {
		v.fault("verify-premix", "the premix does not add up")
	}
	if mix.ServeG < 20*fine*(1-overTol) {
		v.fault("verify-premix", "%g g of the premix a day is too little for the scale", mix.ServeG)
	}
	if math.Abs(mix.ServeG*float64(mix.Days)-mix.TotalG) > 1e-6*fine || !WholeSteps(mix.ServeG, fine) {
		v.fault("verify-premix", "%g g a day for %d days is not the %g g of the premix", mix.ServeG, mix.Days, mix.TotalG)
	}
}
