package supplies

import (
	"slices"

	"bowlwright/household"
)

// PricePerGram is what a gram of the cooked batch costs in the household's money. The
// prices are of food as bought, waste included; a batch within it costs what its line
// says, or else what its own ingredients do. Unpriced names each food without a price,
// once: it counts as nothing.
func PricePerGram(b *household.Batch) (price float64, unpriced []string) {
	total := 0.0
	for _, in := range b.Ingredients {
		switch {
		case in.PricePerG > 0 && in.Food != nil:
			total += in.Grams / (1 - in.Food.Refuse) * in.PricePerG
		case in.PricePerG > 0:
			total += in.Grams * in.PricePerG
		case in.Batch != nil:
			inner, missing := PricePerGram(in.Batch)
			total += in.Grams * inner
			for _, name := range missing {
				unpriced = addOnce(unpriced, name)
			}
		default:
			unpriced = addOnce(unpriced, in.Food.Name)
		}
	}
	return total / b.CookedGrams(), unpriced
}

func addOnce(names []string, name string) []string {
	if slices.Contains(names, name) {
		return names
	}
	return append(names, name)
}

// DayCost is what a day of one pet costs in the household's money.
type DayCost struct {
	Base, Addons float64
	// Unpriced names what has no price and counts as nothing, treats included.
	Unpriced []string
}

// Total is what is known of the cost of the day.
func (c DayCost) Total() float64 { return c.Base + c.Addons }

// CostOf adds up what the base and the add-ons of a planned day cost.
func CostOf(p household.Paired) DayCost {
	pet := &p.Plan().Pet
	perGram, unpriced := PricePerGram(p.Base())
	c := DayCost{Base: perGram * pet.BaseG, Unpriced: unpriced}
	for _, a := range pet.Addons {
		if c.Addons += a.Price; a.Price == 0 {
			c.Unpriced = addOnce(c.Unpriced, a.Name)
		}
	}
	for _, e := range pet.Extras {
		c.Unpriced = addOnce(c.Unpriced, e.Name)
	}
	return c
}

// weighingDays is the period for which weighings are counted.
const weighingDays = 28

// Weighings is how often something other than base is weighed out in four weeks: each
// powder of the premix once in its days, the premix and every add-on that is given
// directly at each helping. What is counted in capsules or tablets is not weighed.
func Weighings(p *household.PetPlan) float64 {
	n := 0.0
	for _, a := range p.Addons {
		if a.ServedAs == "weighed" {
			n += weighingDays / float64(max(1, a.EveryDays))
		}
	}
	if p.Premix != nil && p.Premix.Days > 0 {
		n += weighingDays * (1 + float64(len(p.Premix.Items))/float64(p.Premix.Days))
	}
	return n
}
