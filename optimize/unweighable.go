package optimize

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/weighing"
)

// unweighable says honestly what the scales could not give, and what to buy.
func (r *record) unweighable(s *diet.Solution, day *weighing.Day) {
	if r.plan.Pet.Status != household.Short {
		return
	}
	k := r.req.Household.Kitchen
	var wanted []string
	least, powders, liquids := 0.0, false, false
	for _, j := range r.p.AsOnShelf() {
		x, d := s.X[j], day.Doses[j]
		if day.Grams[j] != 0 || x <= diet.ShadowTol || x >= d.Least {
			continue
		}
		if made, ok := r.dilutionOf(r.p.Items[j].Addon.Food); ok {
			r.plan.Pet.Notes = append(r.plan.Pet.Notes, fmt.Sprintf("no scale weighs what a day needs of %s: put its dilution on the shelf, food = %q", r.p.Items[j].Name, made))
			continue
		}
		wanted = append(wanted, number.Short(x)+" g of "+r.p.Items[j].Name)
		least = max(least, d.Least)
		if r.p.Items[j].Addon.Food.Powder {
			powders = true
		} else {
			liquids = true
		}
	}
	note := func(format string, args ...any) {
		r.plan.Pet.Notes = append(r.plan.Pet.Notes, fmt.Sprintf(format, args...))
	}
	if off, near := r.nearMisses(); near && s.Violation == 0 {
		r.plan.Pet.ButForScale = true
		note("met but for the scale: exact amounts meet every target, and whole steps give %s%s", strings.Join(off, ", "), r.finerScale(s))
	} else if len(wanted) == 0 && s.Violation == 0 {
		note("exact amounts would meet every target: the shortfall comes from the steps of the scales")
	}
	if len(wanted) > 0 {
		note("too little to weigh out in this kitchen, where the least is %s g: a day would need %s", number.Short(least), strings.Join(wanted, ", "))
	}
	switch {
	case len(wanted) > 0 && k.FineScaleG <= 0:
		note("to buy: a powder scale with steps of 0.01 g; then set fine_scale in household.toml")
	case liquids:
		note("to buy: a weaker form, or capsules, of what is not a powder; or a finer scale")
	}
	if powders && k.FineScaleG > 0 && !r.hasCarrier() {
		if names := r.carriers(); names != "" {
			note("to buy: a powder that carries a premix, such as %s; then add it to the shelf", names)
		}
	}
}

// dilutionOf finds the home dilution of a pure compound, by its id.
func (r *record) dilutionOf(pure *nutrients.Food) (id string, ok bool) {
	for _, f := range r.req.Household.Catalogue.All() {
		if f.Dilution != nil && f.Dilution.Of == pure.ID {
			return f.ID, true
		}
	}
	return "", false
}

// hasCarrier says whether the pet may have anything on the shelf that carries a premix.
func (r *record) hasCarrier() bool {
	for _, x := range r.p.Items[1:] {
		if x.Addon.Food.Carrier {
			return true
		}
	}
	return false
}

// mostCarriers is how many carriers a note names.
const mostCarriers = 3

// carriers names foods of the catalogue that can carry a premix and that the pet may have.
func (r *record) carriers() string {
	var names []string
	for _, f := range r.req.Household.Catalogue.All() {
		if !f.Carrier || len(names) == mostCarriers || !diet.MayGet(r.req.Pet, f) {
			continue
		}
		names = append(names, nutrients.InSentence(f.Name))
	}
	return strings.Join(names, " or ")
}

// nearMiss is the share of a limit under which a shortfall is the scale's, not the
// animal's: published figures are not known so well (common practice).
const nearMiss = 0.005

// nearMisses says what a plan misses, and whether all of it is by less than nearMiss.
func (r *record) nearMisses() (off []string, near bool) {
	near = true
	miss := func(name, unit string, amount, limit float64) {
		off = append(off, strings.TrimSuffix(fmt.Sprintf("%s %.5g of %.5g %s", name, amount, limit, unit), " "))
		near = near && math.Abs(amount/limit-1) < nearMiss
	}
	for _, n := range r.plan.Pet.Nutrients {
		switch {
		case n.State == household.StateUnknown && n.Lower != nil || n.State == household.StateHigh:
			near = false
		case n.State == household.StateLow:
			miss(nutrients.InSentence(n.Name), n.Unit, *n.Amount, *n.Lower)
		}
	}
	for _, q := range r.plan.Pet.Ratios {
		switch {
		case q.State == household.StateMet:
		case q.State == household.StateLow && q.Amount != nil && q.Lower != nil:
			miss(nutrients.RatioName(q.ID), "", *q.Amount, *q.Lower)
		case q.State == household.StateHigh && q.Amount != nil && q.Upper != nil:
			miss(nutrients.RatioName(q.ID), "", *q.Amount, *q.Upper)
		default:
			near = false
		}
	}
	return off, near && len(off) > 0
}

// finerScale names the finer scale with which whole steps would meet everything, nothing
// where none does.
func (r *record) finerScale(s *diet.Solution) string {
	for _, fine := range []bool{false, true} {
		p := *r.p
		name, step := "kitchen", &p.Kitchen.ScaleG
		if fine {
			name, step = "powder", &p.Kitchen.FineScaleG
		}
		if *step /= 10; *step <= 0 {
			continue
		}
		if day, err := weighing.Weigh(&p, s); err == nil && day != nil && p.Missed(day.Grams) == 0 {
			return fmt.Sprintf("; a %s scale with steps of %g g would meet all", name, *step)
		}
	}
	return ""
}
