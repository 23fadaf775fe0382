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
}

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

// amount turns a number of steps into grams without the last bits of the product.
func (d dose) amount(steps float64) float64 {
	g := steps * d.step
	if d.servedAs == inPremix {
		return g
	}
	return clean(g)
}

// clean removes the last bits of a product of grams.
func clean(g float64) float64 { return math.Round(g/cleanGrain) / (1 / cleanGrain) }
