package optimize

import (
	"fmt"
	"math"
	"slices"

	"bowlwright/nutrients"
)

// Where a standard prints no upper limit, a concentrate on the shelf could bring any
// amount: grams of potassium iodide are a source of potassium, and twenty grams, the
// least that a kitchen scale weighs, are years of iron. So no concentrate brings more
// of such a nutrient than its lower limit so many times (common practice).
const (
	// mostOfOpen holds for minerals, amino acids and choline: with NRC's lower limits
	// it is under each maximum that AAFCO prints for the minerals of an adult.
	mostOfOpen = 5
	// mostOfVitamin holds for vitamin E, K and the B vitamins, whose excess leaves the
	// body or harms only in hundreds of times the need.
	mostOfVitamin = 20
	// twiceAtOnce is how many days' ceilings of a mineral one helping for several days
	// may hold: iron harms by what is in the stomach, whatever the week brings. A
	// vitamin may come once a week.
	twiceAtOnce, weekAtOnce = 2, 7
)

// openTimes is how many times its lower limit a concentrate may bring of a nutrient
// without an upper limit, on average and at once; 0 for what is not bounded so: fat,
// protein and fatty acids are bounded by the energy of the add-ons.
func openTimes(id nutrients.ID) (daily, atOnce float64) {
	switch id {
	case nutrients.Protein, nutrients.Fat, nutrients.LinoleicAcid, nutrients.AlphaLinolenicAcid, nutrients.ArachidonicAcid,
		nutrients.EPA, nutrients.DHA, nutrients.EPADHA:
		return 0, 0
	case nutrients.VitaminE, nutrients.VitaminK, nutrients.Thiamin, nutrients.Riboflavin, nutrients.VitaminB6, nutrients.Niacin,
		nutrients.PantothenicAcid, nutrients.VitaminB12, nutrients.Folate, nutrients.Biotin:
		return mostOfVitamin, weekAtOnce * mostOfVitamin
	}
	return mostOfOpen, twiceAtOnce * mostOfOpen
}

// concentrate says whether grams of a food may be a dose: supplements, what is given
// by the unit, powders that carry nothing, seaweed for its iodine, and what the
// household brought in itself without saying what it is.
func concentrate(f *nutrients.Food) bool {
	return f.Supplement() || f.PerUnit != nil || f.Powder && !f.Carrier || f.Group == "seaweed" || f.State == "own" || f.Group == "imported"
}

// ceiling is the most grams of an add-on, a day on average and at once, for which the
// limits without an upper side leave room; infinite for what is no concentrate. The
// profile is per gram.
func ceiling(f *nutrients.Food, per *nutrients.Profile, limits []nutrients.Limit) (daily, atOnce float64) {
	daily, atOnce = math.Inf(1), math.Inf(1)
	if !concentrate(f) {
		return daily, atOnce
	}
	for _, l := range limits {
		times, once := openTimes(l.Nutrient)
		if l.Lower != nil && l.Upper == nil && times > 0 && per[l.Nutrient].Hi > 0 {
			daily = min(daily, times**l.Lower/per[l.Nutrient].Hi)
			atOnce = min(atOnce, once**l.Lower/per[l.Nutrient].Hi)
		}
	}
	return daily, atOnce
}

// poisonsInFood are the elements of which food alone can bring too much: oysters zinc,
// liver copper (common practice). Of protein and the other minerals food brings many
// times the need and does no harm.
var poisonsInFood = []nutrients.ID{nutrients.Iron, nutrients.Copper, nutrients.Zinc, nutrients.Iodine, nutrients.Selenium}

// open is the most that a day of the given amounts holds of such an element where it
// has no upper limit, in units of what a concentrate may bring of it, one at least,
// and which one that is.
func (p *program) open(grams []float64) (most float64, text string) {
	most = 1
	for _, l := range p.targets.Limits {
		times, _ := openTimes(l.Nutrient)
		if l.Lower == nil || *l.Lower <= 0 || l.Upper != nil || !slices.Contains(poisonsInFood, l.Nutrient) {
			continue
		}
		sum := p.extras[l.Nutrient].Hi
		for j, g := range grams {
			sum += g * p.items[j].per[l.Nutrient].Hi
		}
		if share := sum / (times * *l.Lower); share > most {
			most, text = share, fmt.Sprintf("not more than %g times the lower limit of %s", times, lower(l.Nutrient.Info().Name))
		}
	}
	return most, text
}
