package optimize

import (
	"context"

	"bowlwright/household"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/jar"
	"bowlwright/optimize/weighing"
)

// JarOffer is what one jar for everybody would save and cost, in exact amounts.
type JarOffer struct {
	Weighings, WeighingsAlone int
	// MoreG is the grams of add-on a day that the jar costs, More the same as a share.
	MoreG, More float64
}

// OfferJar works out what one jar for all pets would save and cost beside their plans; nil
// where no one jar serves them all, or it would save no weighing.
func OfferJar(ctx context.Context, h *household.Household, plans []*household.Plan) (*JarOffer, error) {
	composition, _ := h.Base.Composition()
	var pets []jar.Pet
	out := &JarOffer{}
	least := 0.0
	for _, plan := range plans {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		pet, ok := h.Pet(plan.Pet.Pet)
		if !ok || !plan.Pet.Status.Printable() {
			return nil, nil
		}
		p, err := diet.FormulateOn(h, pet, &composition)
		if err != nil {
			return nil, err
		}
		s, _, err := p.LeastAddon()
		if err != nil || s.Farkas != nil {
			return nil, err
		}
		pets = append(pets, programOfJar(p, s))
		out.WeighingsAlone += weighings(plan)
		least += s.LeastG
	}
	mix, err := jar.Compose(pets, jar.Rules{Fair: true})
	if err != nil {
		mix, err = jar.Compose(pets, jar.Rules{})
	}
	if err != nil {
		// Whatever speaks against it, there is nothing to offer.
		return nil, nil
	}
	for _, share := range mix.Shares {
		if share > diet.ShadowTol {
			out.Weighings++
		}
	}
	if out.Weighings >= out.WeighingsAlone || least <= 0 {
		return nil, nil
	}
	out.MoreG = mix.Total() - least
	out.More = out.MoreG / least
	return out, nil
}

// StepOf is the step of the scale that a jar is mixed by: its own, or the finest of the
// kitchen.
func StepOf(h *household.Household, spec household.JarSpec) float64 {
	if spec.StepG > 0 {
		return spec.StepG
	}
	return weighing.Finest(h.Kitchen)
}
