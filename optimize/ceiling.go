package optimize

import (
	"fmt"
	"math"
	"slices"
	"strings"

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

// fromConcentrates ends the name of a row that bounds what all concentrates together
// bring of a nutrient without an upper limit.
const fromConcentrates = " from concentrates"

// addTogether bounds what the concentrates bring together: two sources of iodine at
// their ceilings are twice the ceiling. Where their own ceilings and the household's
// caps leave them under it anyway there is no row.
func (p *program) addTogether() {
	most := make([]float64, len(p.items))
	for j := 1; j < len(p.items); j++ {
		x := &p.items[j]
		if concentrate(x.addon.Food) {
			most[j], _ = ceiling(x.addon.Food, &x.per, p.targets.Limits)
			most[j] = min(most[j], declaredCap(x.addon, p.pet))
		}
	}
	for _, l := range p.targets.Limits {
		times, once := openTimes(l.Nutrient)
		if l.Lower == nil || *l.Lower <= 0 || l.Upper != nil || times == 0 {
			continue
		}
		a := make([]float64, len(p.items))
		together := 0.0
		for j := 1; j < len(p.items); j++ {
			if brings := p.items[j].per[l.Nutrient].Hi; most[j] > 0 && brings > 0 {
				a[j] = brings
				together += brings * most[j]
			}
		}
		if upper := times * *l.Lower; together > upper*(1+limitTol) {
			p.rows = append(p.rows, row{limit: l.Nutrient.String() + fromConcentrates, a: a, lower: math.Inf(-1), upper: upper, size: upper, atOnce: once * *l.Lower})
		}
	}
}

// together turns the rows of what the concentrates bring, which the weighing states for
// the heaviest day as it does all hard rows, into those of the most at once, and adds
// rows for the average.
func (w *weighing) together() {
	for i, r := range w.p.rows {
		if r.atOnce == 0 {
			continue
		}
		w.rows[i].upper = r.atOnce
		daily := row{limit: r.limit, a: make([]float64, len(w.cols)), lower: r.lower, upper: r.upper, size: r.size}
		for k, j := range w.used {
			daily.a[k] = r.a[j]
		}
		w.rows = append(w.rows, daily)
	}
}

// openLimit is the limit of a row of concentrates; not ok for other rows.
func (p *program) openLimit(r row) (l nutrients.Limit, ok bool) {
	id, ok := strings.CutSuffix(r.limit, fromConcentrates)
	if !ok {
		return l, false
	}
	i := slices.IndexFunc(p.targets.Limits, func(l nutrients.Limit) bool { return l.Nutrient.String() == id })
	return p.targets.Limits[i], true
}

// poisonsInFood are the elements of which food alone can bring too much: oysters zinc,
// liver copper (common practice). Of protein and the other minerals food brings many
// times the need and does no harm.
var poisonsInFood = []nutrients.ID{nutrients.Iron, nutrients.Copper, nutrients.Zinc, nutrients.Iodine, nutrients.Selenium}

// overdose is more of a nutrient without an upper limit than a concentrate may bring.
type overdose struct {
	limit nutrients.Limit
	// times is the amount in lower limits, most what a concentrate may bring.
	times, most float64
}

// open lists the elements of which a day of the given amounts, food and all, holds more
// than a concentrate may bring.
func (p *program) open(grams []float64) []overdose {
	return p.overdoses(func(id nutrients.ID) float64 {
		sum := p.extras[id].Hi
		if !slices.Contains(poisonsInFood, id) {
			return 0
		}
		for j, g := range grams {
			sum += g * p.items[j].per[id].Hi
		}
		return sum
	})
}

// concentrated lists the nutrients of which concentrates, those of the shelf and those
// in the pot, bring more than they may. The profile is what the pot's bring in a gram of base.
func (p *program) concentrated(grams []float64, inPot *nutrients.Profile) []overdose {
	return p.overdoses(func(id nutrients.ID) float64 {
		sum := grams[0] * inPot[id].Hi
		for j := 1; j < len(grams); j++ {
			if concentrate(p.items[j].addon.Food) {
				sum += grams[j] * p.items[j].per[id].Hi
			}
		}
		return sum
	})
}

// overdoses judges amounts of the nutrients for which the standard prints no upper limit.
func (p *program) overdoses(amount func(nutrients.ID) float64) []overdose {
	var over []overdose
	for _, l := range p.targets.Limits {
		most, _ := openTimes(l.Nutrient)
		if l.Lower == nil || *l.Lower <= 0 || l.Upper != nil || most == 0 {
			continue
		}
		if times := amount(l.Nutrient) / *l.Lower; times > most*(1+feasibleTol) {
			over = append(over, overdose{l, times, most})
		}
	}
	return over
}

// openCautions say in words what a day holds too much of though no limit is printed.
// Food brings it, so it is no reason to refuse the day.
func (p *program) openCautions(grams []float64) []string {
	var all []string
	for _, o := range p.open(grams) {
		id := o.limit.Nutrient
		base, extras := grams[0]*p.items[0].per[id].Hi, p.extras[id].Hi
		from, most := "the base", base
		if extras > most {
			from, most = "the extras", extras
		}
		if addons := o.times**o.limit.Lower - base - extras; addons > most {
			from = "the add-ons"
		}
		all = append(all, fmt.Sprintf("%s: this day holds up to %s times the lower limit, the largest part from %s. The standard prints no upper limit, and much more than is needed can harm: ask a veterinarian, or change what brings it.",
			id.Info().Name, short(o.times), from))
	}
	return all
}
