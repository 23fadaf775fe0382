package weighing

import (
	"math"

	"bowlwright/household"
	"bowlwright/optimize/diet"
)

// dose says how an item is measured out.
type dose struct {
	// Step is the grain of the daily amount in grams, least the smallest amount
	// that can be measured at all; an amount is zero or at least least.
	Step, Least float64
	ServedAs    household.Served
	// Every is the number of days that one helping is for, 0 or 1 for daily.
	Every int
}

// Helping is how many times the daily amount is given at once.
func (d dose) Helping() float64 { return float64(max(1, d.Every)) }

const noMeasure = ""

// Finest is the smallest step of any scale in the kitchen.
func Finest(k household.Kitchen) float64 {
	if k.FineScaleG > 0 && (k.ScaleG <= 0 || k.FineScaleG < k.ScaleG) {
		return k.FineScaleG
	}
	return k.ScaleG
}

// DosesFor chooses a dose for every item near the amounts x: units and an item's
// own step first; the fine scale for amounts under twenty steps of the kitchen
// scale; and, when any powder is under twenty steps of the finest scale, all
// powders together in a premix.
func DosesFor(p *diet.Program, x []float64) []dose {
	k := p.Kitchen
	fine := Finest(k)
	d := make([]dose, len(x))
	d[0] = dose{Step: k.ScaleG, ServedAs: household.ServedWeighed}
	premix := false
	for j := 1; j < len(x); j++ {
		a := p.Items[j].Addon
		switch {
		case a.Jar != nil && a.StepG > 0:
			d[j] = dose{Step: a.StepG, Least: a.StepG, ServedAs: household.ServedFromJar}
		case a.Jar != nil:
			d[j] = dose{Step: fine, Least: StepsToWeigh * fine, ServedAs: household.ServedFromJar}
		case a.Unit != "":
			d[j] = dose{Step: a.StepG, Least: a.StepG, ServedAs: household.ServedByUnit}
		case a.StepG > 0:
			d[j] = dose{Step: a.StepG, Least: a.StepG, ServedAs: household.ServedWeighed}
		case x[j] >= StepsToWeigh*k.ScaleG:
			d[j] = dose{Step: k.ScaleG, Least: StepsToWeigh * k.ScaleG, ServedAs: household.ServedWeighed}
		default:
			d[j] = dose{Step: fine, Least: StepsToWeigh * fine, ServedAs: household.ServedWeighed}
			premix = premix || a.Food.Powder && x[j] > 0 && x[j] < d[j].Least
		}
	}
	if !premix || k.FineScaleG <= 0 || k.PremixDays < 1 {
		return d
	}
	days := float64(k.PremixDays)
	for j := 1; j < len(x); j++ {
		if a := p.Items[j].Addon; a.Unit == "" && a.StepG == 0 && a.Food.Powder {
			d[j] = dose{Step: fine / days, Least: StepsToWeigh * fine / days, ServedAs: household.ServedPremix}
		}
	}
	return d
}

// everyDays are the intervals that a household keeps without counting (common
// practice): every second, third and fourth day, once a week.
var everyDays = [...]int{2, 3, 4, 7}

// spreadOut replaces daily doses that are too small to measure (oils, drops, parts of
// a capsule) by one helping for several days; nil when there are none. Powders of
// a premix stay as they are, and no helping is over what is allowed in a day. much
// says that some daily dose would be over twice what is wanted, so that helpings
// are better even where the daily dose keeps the limits.
func spreadOut(p *diet.Program, doses []dose, x []float64) (out []dose, much bool) {
	for j := 1; j < len(doses); j++ {
		d := doses[j]
		if d.ServedAs == household.ServedPremix || d.Step <= 0 || x[j] <= diet.ShadowTol || x[j] >= d.Least {
			continue
		}
		for _, k := range everyDays {
			if x[j]*float64(k) < d.Least || d.Least > p.Items[j].Helping || d.Least > p.Items[j].Cap*float64(k) {
				continue
			}
			much = much || 2*x[j] < d.Least
			if out == nil {
				out = append([]dose(nil), doses...)
			}
			out[j] = dose{Step: d.Step / float64(k), Least: d.Least / float64(k), ServedAs: d.ServedAs, Every: k}
			break
		}
	}
	return out, much
}

// amount turns a number of steps into grams without the last bits of the product.
func (d dose) amount(steps float64) float64 {
	g := steps * d.Step
	if d.ServedAs == household.ServedPremix || d.Every > 1 {
		return g
	}
	return Clean(g)
}

// Clean removes the last bits of a product of grams.
func Clean(g float64) float64 { return math.Round(g/diet.CleanGrain) / (1 / diet.CleanGrain) }
