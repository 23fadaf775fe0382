package optimize

import (
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
)

// Assess holds what a pet eats now against its limits: what the household declares, or
// where it declares nothing the plan in use, paired with the base. Minimums are those of
// a plan; maximums go by the energy that is really eaten. The error is
// nutrients.EnergyFor's.
func Assess(h *household.Household, pet *household.Pet, inUse *household.Paired) (*household.Assessment, error) {
	animal := diet.AnimalOf(h, pet)
	targets, err := nutrients.TargetsFor(animal)
	if err != nil {
		return nil, err
	}
	out := assessing{&household.Assessment{Declared: len(pet.Eats) > 0}}
	pp := &out.Pet
	*pp = household.PetPlan{Pet: pet.Name, Species: animal.Species, Stage: animal.Stage, Standard: animal.Standard,
		WeightKg: animal.WeightKg, IdealWeightKg: targets.Energy.IdealKg, WeightDate: pet.WeightDate, Condition: animal.Condition,
		Born: pet.Born, EnergyKcal: targets.Energy.Kcal, ReferenceKcal: targets.Energy.ReferenceKcal,
		EnergyMethod: targets.Energy.Method, Losing: targets.Energy.Losing, Meals: h.Kitchen.Meals,
		Addons: []household.AddonAmount{}, Extras: []household.ExtraAmount{}, Nutrients: []household.NutrientLine{},
		Ratios: []household.RatioLine{}, Binding: []household.Binding{}, Cautions: append([]string{}, targets.Cautions...)}
	var day dayParts
	switch {
	case out.Declared:
		out.declared(pet, &day)
	case inUse != nil:
		out.planned(h, pet, *inUse, &day)
	default:
		return nil, &household.NothingEatenError{Pet: pet.Name}
	}
	eaten := totals(&day.all, animal.Species)[nutrients.Energy].Lo
	if eaten > 0 {
		if err := limitsAtEnergy(&targets, animal, eaten); err != nil {
			return nil, err
		}
	}
	judge(pp, targets, &day)
	pp.Status = statusOf(pp)
	return out.Assessment, nil
}

// assessing fills an assessment.
type assessing struct{ *household.Assessment }

// limitsAtEnergy takes the maximums from the energy that is really eaten.
func limitsAtEnergy(targets *nutrients.Targets, animal nutrients.Animal, kcal float64) error {
	animal.EnergyKcal = kcal
	real, err := nutrients.TargetsFor(animal)
	if err != nil {
		return err
	}
	upper := map[nutrients.ID]*float64{}
	for _, l := range real.Limits {
		upper[l.Nutrient] = l.Upper
	}
	for i := range targets.Limits {
		targets.Limits[i].Upper = upper[targets.Limits[i].Nutrient]
	}
	return nil
}

// declared adds up what the household says the pet eats, treats included.
func (a assessing) declared(pet *household.Pet, day *dayParts) {
	eats := append([]household.Eaten{}, pet.Eats...)
	for _, x := range pet.Extras {
		eats = append(eats, household.Eaten{Food: x.Food, Grams: x.Grams})
	}
	for _, e := range eats {
		if e.Batch != nil {
			composition, _ := e.Batch.Composition()
			a.Pet.BaseG += e.Grams
			a.ate("base "+e.Batch.File, e.Batch.Name, e.Grams, &composition)
			day.add(&day.base, e.Grams, &composition)
			a.Pet.Cautions = append(a.Pet.Cautions, household.FoodCautions(&household.Pet{Animal: pet.Animal}, e.Batch, nil)...)
			continue
		}
		a.ate(e.Food.ID, e.Food.Name, e.Grams, &e.Food.Per100g)
		day.add(&day.extras, e.Grams, &e.Food.Per100g)
		for _, hz := range nutrients.Hazards(e.Food, pet.Animal.Species) {
			a.Pet.Cautions = append(a.Pet.Cautions, e.Food.Name+": "+hz.Text)
		}
	}
}

// planned adds up the plan in use from its printed amounts and today's figures.
func (a assessing) planned(h *household.Household, pet *household.Pet, inUse household.Paired, day *dayParts) {
	plan := inUse.Plan()
	a.Made = plan.Date
	composition, _ := inUse.Base().Composition()
	a.Pet.BaseG, a.Pet.Addons, a.Pet.Extras, a.Pet.Premix = plan.Pet.BaseG, plan.Pet.Addons, plan.Pet.Extras, plan.Pet.Premix
	a.ate("base "+inUse.Base().File, inUse.Base().Name, plan.Pet.BaseG, &composition)
	day.add(&day.base, plan.Pet.BaseG, &composition)
	for _, x := range plan.Pet.Addons {
		if jar := plan.Pet.Jar; x.ServedAs == household.ServedFromJar && jar != nil {
			for _, part := range jar.Mix.Parts {
				a.fed(h, part.Food, part.Name+", from the jar "+jar.Code, x.G*part.G/jar.Mix.MakesG, &day.addons, day)
			}
			continue
		}
		a.fed(h, x.Food, x.Name, x.G, &day.addons, day)
	}
	for _, x := range plan.Pet.Extras {
		a.fed(h, x.Food, x.Name, x.G, &day.extras, day)
	}
	a.Pet.Cautions = append(a.Pet.Cautions, plan.Pet.Cautions...)
}

// fed adds an amount of the plan; a food that the catalogue no longer has counts as
// wholly unknown.
func (a assessing) fed(h *household.Household, id, name string, grams float64, part *nutrients.Mix, day *dayParts) {
	var nothing nutrients.Profile
	per100g := &nothing
	for i := range h.Addons {
		if h.Addons[i].Food.ID == id {
			per100g = &h.Addons[i].Food.Per100g
		}
	}
	if f, ok := h.Catalogue.Food(id); ok && per100g == &nothing {
		per100g = &f.Per100g
	}
	a.ate(id, name, grams, per100g)
	day.add(part, grams, per100g)
}

// ate lists one food of the day.
func (a assessing) ate(id, name string, grams float64, per100g *nutrients.Profile) {
	used := per100g.For(a.Pet.Species)
	a.Eats = append(a.Eats, household.ExtraAmount{Food: id, Name: name, G: grams, Kcal: used[nutrients.Energy].Lo * grams / 100})
}

// statusOf judges a day that nobody planned: over where a maximum is exceeded, short
// where a minimum is missed or its nutrient unknown.
func statusOf(pp *household.PetPlan) household.Status {
	status := household.Met
	for _, n := range pp.Nutrients {
		switch {
		case n.State == household.StateHigh:
			return household.Over
		case n.State == household.StateLow, n.State == household.StateUnknown && n.Lower != nil:
			status = household.Short
		}
	}
	for _, r := range pp.Ratios {
		if r.State != household.StateMet {
			status = household.Short
		}
	}
	return status
}
