package optimize

import (
	"fmt"
	"strings"

	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// extrasOver says which limits the extras alone exceed.
func (p *program) extrasOver() []string {
	var over []string
	if p.rows[0].upper < 0 {
		over = append(over, fmt.Sprintf("the extras alone bring %.0f kcal, more than the %.0f kcal of the day",
			p.extras[nutrients.Energy].Lo, p.targets.Energy.Kcal))
	}
	return append(over, p.overAt(0, "the extras alone bring")...)
}

// baseOver says which upper limits the base alone exceeds at the energy that the
// extras leave for it.
func (p *program) baseOver() []string {
	portion := p.rows[0].upper / p.rows[0].a[0]
	with := fmt.Sprintf("%.0f g of the base bring", portion)
	if len(p.pet.Extras) > 0 {
		with = fmt.Sprintf("%.0f g of the base and the extras bring", portion)
	}
	return p.overAt(portion, with)
}

func (p *program) overAt(portion float64, what string) []string {
	var over []string
	for _, l := range p.targets.Limits {
		amount := p.extras[l.Nutrient].Hi + portion*p.items[0].per[l.Nutrient].Hi
		if l.Upper != nil && amount > *l.Upper*(1+limitTol) {
			info := l.Nutrient.Info()
			over = append(over, fmt.Sprintf("%s %s %s of %s, over the upper limit of %s %s",
				what, short(amount), info.Unit, lower(info.Name), short(*l.Upper), info.Unit))
		}
	}
	return over
}

// conflict says in words which hard limits cannot hold together.
func (p *program) conflict() []string {
	rows, caps := p.irreducible(false)
	set := p.listed(rows, caps)
	if len(set) == 0 {
		return []string{"no amounts on this shelf keep every upper limit and the energy"}
	}
	return []string{"on this shelf these cannot hold together: " + strings.Join(set, "; ")}
}

// listed writes a set of limits and caps.
func (p *program) listed(rows, caps []bool) []string {
	var set []string
	for i, r := range p.rows {
		if rows[i] {
			set = append(set, p.inWords(r))
		}
	}
	for j := range caps {
		if caps[j] {
			set = append(set, fmt.Sprintf("at most %s g of %s", short(p.items[j].cap), p.items[j].name))
		}
	}
	return set
}

// inWords says a limit with its figure.
func (p *program) inWords(r row) string {
	switch r.limit {
	case energyRow:
		return fmt.Sprintf("the energy of %.0f kcal", p.targets.Energy.Kcal)
	case shareRow:
		return fmt.Sprintf("at most %.0f %% of the energy from add-ons", 100*p.kitchen.AddonEnergyShare)
	}
	if l, ok := p.openLimit(r); ok {
		info := l.Nutrient.Info()
		return fmt.Sprintf("at most %s %s of %s from all concentrates together, %g times the lower limit", short(r.upper), info.Unit, lower(info.Name), r.upper / *l.Lower)
	}
	for _, l := range p.targets.Limits {
		info := l.Nutrient.Info()
		switch r.limit {
		case l.Nutrient.String() + " lower":
			return fmt.Sprintf("at least %s %s of %s", short(*l.Lower), info.Unit, lower(info.Name))
		case l.Nutrient.String() + " upper":
			return fmt.Sprintf("at most %s %s of %s", short(*l.Upper), info.Unit, lower(info.Name))
		}
	}
	for _, ratio := range p.targets.Ratios {
		switch r.limit {
		case ratio.Key + " lower":
			return fmt.Sprintf("%s at least %s", nutrients.RatioName(ratio.Key), short(*ratio.Lower))
		case ratio.Key + " upper":
			return fmt.Sprintf("%s at most %s", nutrients.RatioName(ratio.Key), short(*ratio.Upper))
		}
	}
	return r.limit
}

// short formats a figure with three significant digits, without an exponent.
func short(v float64) string { return number.Short(v) }

// lower writes a nutrient's name inside a sentence.
func lower(name string) string { return nutrients.InSentence(name) }
