package optimize

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/nutrients"
)

// ceiling is the most grams of an add-on, a day on average and at once, for which the
// limits without an upper side leave room; infinite for what is no concentrate. The
// profile is per gram.
func ceiling(f *nutrients.Food, per *nutrients.Profile, limits []nutrients.Limit) (daily, atOnce float64) {
	daily, atOnce = math.Inf(1), math.Inf(1)
	if !f.Concentrate() {
		return daily, atOnce
	}
	for _, l := range limits {
		times, once := nutrients.MostFromConcentrates(l.Nutrient)
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
		if x.addon.Food.Concentrate() {
			most[j], _ = ceiling(x.addon.Food, &x.per, p.targets.Limits)
			most[j] = min(most[j], declaredCap(x.addon, p.pet))
		}
	}
	for _, l := range p.targets.Limits {
		times, once := nutrients.MostFromConcentrates(l.Nutrient)
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
			if p.items[j].addon.Food.Concentrate() {
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
		most, _ := nutrients.MostFromConcentrates(l.Nutrient)
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
