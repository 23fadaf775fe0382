package records

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/quantity"
	"bowlwright/household/upkeep"
)

// DiffPlans lists what differs between two plans, in words: every amount that is
// weighed, and the nutrients that moved by more than a hundredth.
func DiffPlans(was, now *household.Plan) []string {
	var out []string
	say := func(what, a, b string) {
		if a != b {
			out = append(out, fmt.Sprintf("%s: %s, now %s", what, cmp.Or(a, "none"), cmp.Or(b, "none")))
		}
	}
	a, b := was.Pet, now.Pet
	say("pet", a.Pet, b.Pet)
	say("base", was.Base.Code, now.Base.Code)
	if was.Base.RecipeDigest != now.Base.RecipeDigest {
		for _, d := range household.DiffBases(was.Base, now.Base) {
			out = append(out, "base, "+d)
		}
	} else {
		say("figures behind the base", shortened(was.Base.FiguresDigest), shortened(now.Base.FiguresDigest))
	}
	say("stage", string(a.Stage), string(b.Stage))
	say("standard", string(a.Standard), string(b.Standard))
	say("condition", upkeep.ConditionText(a.Condition), upkeep.ConditionText(b.Condition))
	say("weight", quantity.Text(a.WeightKg)+" kg", quantity.Text(b.WeightKg)+" kg")
	say("energy", wholeKcal(a.EnergyKcal), wholeKcal(b.EnergyKcal))
	say("status", string(a.Status), string(b.Status))
	say("base a day", quantity.Text(a.BaseG)+" g", quantity.Text(b.BaseG)+" g")
	say("meals", fmt.Sprint(a.Meals), fmt.Sprint(b.Meals))
	out = append(out, diffAmounts("add-on", addonGrams(a), addonGrams(b))...)
	out = append(out, diffAmounts("extra", extraGrams(a), extraGrams(b))...)
	return append(out, diffNutrients(a, b)...)
}

func shortened(digest string) string {
	_, d, _ := strings.Cut(digest, ":")
	return d[:min(digestInName, len(d))]
}

func wholeKcal(x float64) string { return fmt.Sprintf("%.0f kcal", x) }

func addonGrams(p household.PetPlan) map[string]float64 {
	m := map[string]float64{}
	for _, a := range p.Addons {
		m[a.Food] += a.G
	}
	return m
}

func extraGrams(p household.PetPlan) map[string]float64 {
	m := map[string]float64{}
	for _, e := range p.Extras {
		m[e.Food] += e.G
	}
	return m
}

// scaleDigits is how many digits behind the point a fine scale shows, in grams. What
// goes into a premix is a share of its weight and has many more.
const scaleDigits = 2

func diffAmounts(what string, was, now map[string]float64) []string {
	all := map[string]bool{}
	for k := range was {
		all[k] = true
	}
	for k := range now {
		all[k] = true
	}
	var out []string
	for _, k := range slices.Sorted(maps.Keys(all)) {
		a, had := was[k]
		b, has := now[k]
		switch {
		case had && !has:
			out = append(out, fmt.Sprintf("%s %s: %s g, now none", what, k, inDigits(a, scaleDigits)))
		case !had && has:
			out = append(out, fmt.Sprintf("%s %s: none, now %s g", what, k, inDigits(b, scaleDigits)))
		case a != b:
			out = append(out, fmt.Sprintf("%s %s: %s g, now %s g", what, k, inDigits(a, scaleDigits), inDigits(b, scaleDigits)))
		}
	}
	return out
}

// nutrientMoved is the share by which a nutrient must differ to be listed.
const nutrientMoved = 0.01

// diffNutrients lists nutrients whose state changed or that moved.
func diffNutrients(was, now household.PetPlan) []string {
	before := map[string]household.NutrientLine{}
	for _, n := range was.Nutrients {
		before[n.ID.String()] = n
	}
	var out []string
	for _, n := range now.Nutrients {
		o, ok := before[n.ID.String()]
		if !ok {
			continue
		}
		x, y := amountOf(o), amountOf(n)
		moved := math.Abs(y-x) > nutrientMoved*math.Max(math.Abs(x), math.Abs(y))
		moved = moved || (o.Amount == nil) != (n.Amount == nil)
		if o.State != n.State {
			out = append(out, fmt.Sprintf("%s: %s, now %s (%s, now %s)", n.Name, o.State, n.State, figureOf(o), figureOf(n)))
		} else if moved {
			out = append(out, fmt.Sprintf("%s: %s, now %s", n.Name, figureOf(o), figureOf(n)))
		}
	}
	return out
}

// figureOf writes an amount with four digits: more is noise.
func figureOf(n household.NutrientLine) string {
	if n.Amount == nil {
		return "unknown"
	}
	return inDigits(*n.Amount, 0) + " " + n.Unit
}

// inDigits writes a number with four digits, and with no less than some behind the
// point.
func inDigits(x float64, behind int) string {
	if size := math.Abs(x); size > 0 {
		behind = max(behind, 3-int(math.Floor(math.Log10(size))))
	}
	pow := math.Pow(10, float64(behind))
	return quantity.Text(math.Round(x*pow) / pow)
}

func amountOf(n household.NutrientLine) float64 {
	if n.Amount == nil {
		return 0
	}
	return *n.Amount
}
