package optimize

import (
	"math"

	"bowlwright/household"
)

// dose says how an item is measured out.
type dose struct {
	// step is the grain of the daily amount in grams, least the smallest amount
	// that can be measured at all; an amount is zero or at least least.
	step, least float64
	servedAs    string // "weighed", "premix" or "unit"
	// every is the number of days that one helping is for, 0 or 1 for daily.
	every int
}

// helping is how many times the daily amount is given at once.
func (d dose) helping() float64 { return float64(max(1, d.every)) }

// The ways an add-on is served.
const (
	weighed   = "weighed"
	inPremix  = "premix"
	byUnit    = "unit"
	noMeasure = ""
)

// finest is the smallest step of any scale in the kitchen.
func finest(k household.Kitchen) float64 {
	if k.FineScaleG > 0 && (k.ScaleG <= 0 || k.FineScaleG < k.ScaleG) {
		return k.FineScaleG
	}
	return k.ScaleG
}

// dosesFor chooses a dose for every item near the amounts x: units and an item's
// own step first; the fine scale for amounts under twenty steps of the kitchen
// scale; and, when any powder is under twenty steps of the finest scale, all
// powders together in a premix.
func dosesFor(p *program, x []float64) []dose {
	k := p.kitchen
	fine := finest(k)
	d := make([]dose, len(x))
	d[0] = dose{step: k.ScaleG, servedAs: weighed}
	premix := false
	for j := 1; j < len(x); j++ {
		a := p.items[j].addon
		switch {
		case a.Unit != "":
			d[j] = dose{step: a.StepG, least: a.StepG, servedAs: byUnit}
		case a.StepG > 0:
			d[j] = dose{step: a.StepG, least: a.StepG, servedAs: weighed}
		case x[j] >= stepsToWeigh*k.ScaleG:
			d[j] = dose{step: k.ScaleG, least: stepsToWeigh * k.ScaleG, servedAs: weighed}
		default:
			d[j] = dose{step: fine, least: stepsToWeigh * fine, servedAs: weighed}
			premix = premix || a.Food.Powder && x[j] > 0 && x[j] < d[j].least
		}
	}
	if !premix || k.FineScaleG <= 0 || k.PremixDays < 1 {
		return d
	}
	days := float64(k.PremixDays)
	for j := 1; j < len(x); j++ {
		if a := p.items[j].addon; a.Unit == "" && a.StepG == 0 && a.Food.Powder {
			d[j] = dose{step: fine / days, least: stepsToWeigh * fine / days, servedAs: inPremix}
		}
	}
	return d
}

// everyDays are the intervals that a household keeps without counting (common
// practice): every second, third and fourth day, once a week.
var everyDays = [...]int{2, 3, 4, 7}

// sparse replaces daily doses that are too small to measure (oils, drops, parts of
// a capsule) by one helping for several days; nil when there are none. Powders of
// a premix stay as they are, and no helping is over what is allowed in a day. much
// says that some daily dose would be over twice what is wanted, so that helpings
// are better even where the daily dose keeps the limits.
func sparse(p *program, doses []dose, x []float64) (out []dose, much bool) {
	for j := 1; j < len(doses); j++ {
		d := doses[j]
		if d.servedAs == inPremix || d.step <= 0 || x[j] <= shadowTol || x[j] >= d.least {
			continue
		}
		for _, k := range everyDays {
			if x[j]*float64(k) < d.least || d.least > p.items[j].helping || d.least > p.items[j].cap*float64(k) {
				continue
			}
			much = much || 2*x[j] < d.least
			if out == nil {
				out = append([]dose(nil), doses...)
			}
			out[j] = dose{step: d.step / float64(k), least: d.least / float64(k), servedAs: d.servedAs, every: k}
			break
		}
	}
	return out, much
}

// amount turns a number of steps into grams without the last bits of the product.
func (d dose) amount(steps float64) float64 {
	g := steps * d.step
	if d.servedAs == inPremix || d.every > 1 {
		return g
	}
	return clean(g)
}

// clean removes the last bits of a product of grams.
func clean(g float64) float64 { return math.Round(g/cleanGrain) / (1 / cleanGrain) }
