package diet

import (
	"math"
	"slices"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// ConcentrateCap is the most grams of an add-on, a day on average and at once, for which the
// limits without an upper side leave room; infinite for what is no concentrate. The
// profile is per gram.
func ConcentrateCap(f *nutrients.Food, per *nutrients.Profile, limits []nutrients.Limit) (daily, atOnce float64) {
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

// addConcentrates bounds what the concentrates bring together: two sources of iodine at
// their ceilings are twice the ceiling. Where their own ceilings and the household's
// caps leave them under it anyway there is no row.
func (p *Program) addConcentrates() {
	most := make([]float64, len(p.Items))
	for j := 1; j < len(p.Items); j++ {
		x := &p.Items[j]
		if x.Addon.Food.Concentrate() {
			most[j], _ = ConcentrateCap(x.Addon.Food, &x.Per, p.Targets.Limits)
			most[j] = min(most[j], declaredCap(x.Addon, p.Pet))
		}
	}
	for _, l := range p.Targets.Limits {
		times, once := nutrients.MostFromConcentrates(l.Nutrient)
		if l.Lower == nil || *l.Lower <= 0 || l.Upper != nil || times == 0 {
			continue
		}
		a := make([]float64, len(p.Items))
		together := 0.0
		for j := 1; j < len(p.Items); j++ {
			if brings := p.Items[j].Per[l.Nutrient].Hi; most[j] > 0 && brings > 0 {
				a[j] = brings
				together += brings * most[j]
			}
		}
		if upper := times * *l.Lower; together > upper*(1+LimitTol) {
			p.Rows = append(p.Rows, Row{Limit: nutrients.MostConcentrated(l.Nutrient), A: a, Lower: math.Inf(-1), Upper: upper, Size: upper, AtOnce: once * *l.Lower})
		}
	}
}

// limitOf is the standard's limit of the nutrient that a row is about.
func (p *Program) limitOf(r Row) nutrients.Limit {
	i := slices.IndexFunc(p.Targets.Limits, func(l nutrients.Limit) bool { return l.Nutrient == r.Limit.Nutrient })
	return p.Targets.Limits[i]
}

// poisonsInFood are the elements of which food alone can bring too much: oysters zinc,
// liver copper (common practice). Of protein and the other minerals food brings many
// times the need and does no harm.
var poisonsInFood = []nutrients.ID{nutrients.Iron, nutrients.Copper, nutrients.Zinc, nutrients.Iodine, nutrients.Selenium}

// overdose is more of a nutrient without an upper limit than a concentrate may bring.
type overdose struct {
	Limit nutrients.Limit
	// Times is the amount in lower limits, most what a concentrate may bring.
	Times, Most float64
}

// ElementOverdoses lists the elements of which a day of the given amounts, food and all, holds more
// than a concentrate may bring.
func (p *Program) ElementOverdoses(grams []float64) []overdose {
	return p.overdoses(func(id nutrients.ID) float64 {
		sum := p.extras[id].Hi
		if !slices.Contains(poisonsInFood, id) {
			return 0
		}
		for j, g := range grams {
			sum += g * p.Items[j].Per[id].Hi
		}
		return sum
	})
}

// ConcentrateOverdoses lists the nutrients of which concentrates, those of the shelf and those
// in the pot, bring more than they may. The profile is what the pot's bring in a gram of base.
func (p *Program) ConcentrateOverdoses(grams []float64, inPot *nutrients.Profile) []overdose {
	return p.overdoses(func(id nutrients.ID) float64 {
		sum := grams[0] * inPot[id].Hi
		for j := 1; j < len(grams); j++ {
			if p.Items[j].Addon.Food.Concentrate() {
				sum += grams[j] * p.Items[j].Per[id].Hi
			}
		}
		return sum
	})
}

// overdoses judges amounts of the nutrients for which the standard prints no upper limit.
func (p *Program) overdoses(amount func(nutrients.ID) float64) []overdose {
	var over []overdose
	for _, l := range p.Targets.Limits {
		most, _ := nutrients.MostFromConcentrates(l.Nutrient)
		if l.Lower == nil || *l.Lower <= 0 || l.Upper != nil || most == 0 {
			continue
		}
		if times := amount(l.Nutrient) / *l.Lower; times > most*(1+FeasibleTol) {
			over = append(over, overdose{l, times, most})
		}
	}
	return over
}

// Excess lists the elements that a day holds too much of though no maximum is printed,
// and where the largest part of each comes from.
func (p *Program) Excess(grams []float64) []household.Excess {
	all := []household.Excess{}
	for _, o := range p.ElementOverdoses(grams) {
		id := o.Limit.Nutrient
		base, extras := grams[0]*p.Items[0].Per[id].Hi, p.extras[id].Hi
		from, most := "base", base
		if extras > most {
			from, most = "extras", extras
		}
		if addons := o.Times**o.Limit.Lower - base - extras; addons > most {
			from = "addons"
		}
		all = append(all, household.Excess{ID: id, Times: o.Times, From: from})
	}
	return all
}
