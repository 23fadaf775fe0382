package diet

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// ExtrasOver says which limits the extras alone exceed.
func (p *Program) ExtrasOver() []string {
	var over []string
	if p.Rows[0].Upper < 0 {
		over = append(over, fmt.Sprintf("the extras alone bring %.0f kcal, more than the %.0f kcal of the day",
			p.extras[nutrients.Energy].Lo, p.Targets.Energy.Kcal))
	}
	return append(over, p.overAt(0, "the extras alone bring")...)
}

// BaseOver says which upper limits the base alone exceeds at the energy that the
// extras leave for it.
func (p *Program) BaseOver() []string {
	portion := p.Rows[0].Upper / p.Rows[0].A[0]
	with := fmt.Sprintf("%.0f g of the base bring", portion)
	if len(p.Pet.Extras) > 0 {
		with = fmt.Sprintf("%.0f g of the base and the extras bring", portion)
	}
	return p.overAt(portion, with)
}

func (p *Program) overAt(portion float64, what string) []string {
	var over []string
	for _, l := range p.Targets.Limits {
		amount := p.extras[l.Nutrient].Hi + portion*p.Items[0].Per[l.Nutrient].Hi
		if l.Upper != nil && amount > *l.Upper*(1+LimitTol) {
			info := l.Nutrient.Info()
			over = append(over, fmt.Sprintf("%s %s %s of %s, over the upper limit of %s %s",
				what, number.Short(amount), info.Unit, nutrients.InSentence(info.Name), number.Short(*l.Upper), info.Unit))
		}
	}
	return over
}

// Conflict says in words which hard limits cannot hold together.
func (p *Program) Conflict() []string {
	rows, caps := p.Irreducible(false)
	set := p.Listed(rows, caps)
	if len(set) == 0 {
		return []string{"no amounts on this shelf keep every upper limit and the energy"}
	}
	return []string{"on this shelf these cannot hold together: " + strings.Join(set, "; ")}
}

// Listed writes a set of limits and caps.
func (p *Program) Listed(rows, caps []bool) []string {
	var set []string
	for i, r := range p.Rows {
		if rows[i] {
			set = append(set, p.InWords(r))
		}
	}
	for j := range caps {
		if caps[j] {
			set = append(set, fmt.Sprintf("at most %s g of %s", number.Short(p.Items[j].Cap), p.Items[j].Name))
		}
	}
	return set
}

// InWords says a limit with its figure.
func (p *Program) InWords(r Row) string {
	switch r.Limit {
	case EnergyRow:
		return fmt.Sprintf("the energy of %.0f kcal", p.Targets.Energy.Kcal)
	case ShareRow:
		return fmt.Sprintf("at most %.0f %% of the energy from add-ons", 100*p.Kitchen.AddonEnergyShare)
	}
	if l, ok := p.concentrateLimit(r); ok {
		info := l.Nutrient.Info()
		return fmt.Sprintf("at most %s %s of %s from all concentrates together, %g times the lower limit", number.Short(r.Upper), info.Unit, nutrients.InSentence(info.Name), r.Upper / *l.Lower)
	}
	for _, l := range p.Targets.Limits {
		info := l.Nutrient.Info()
		switch r.Limit {
		case l.Nutrient.String() + " lower":
			return fmt.Sprintf("at least %s %s of %s", number.Short(*l.Lower), info.Unit, nutrients.InSentence(info.Name))
		case l.Nutrient.String() + " upper":
			return fmt.Sprintf("at most %s %s of %s", number.Short(*l.Upper), info.Unit, nutrients.InSentence(info.Name))
		}
	}
	for _, ratio := range p.Targets.Ratios {
		switch r.Limit {
		case ratio.Key + " lower":
			return fmt.Sprintf("%s at least %s", nutrients.RatioName(ratio.Key), number.Short(*ratio.Lower))
		case ratio.Key + " upper":
			return fmt.Sprintf("%s at most %s", nutrients.RatioName(ratio.Key), number.Short(*ratio.Upper))
		}
	}
	return r.Limit
}

// Price says what one unit of a limit costs in grams of add-on.
func (p *Program) Price(r Row, dual float64) string {
	perUnit := math.Abs(dual) / r.Size
	for _, l := range p.Targets.Limits {
		if name := l.Nutrient.String(); r.Limit == name+" lower" || r.Limit == name+" upper" || r.Limit == name+FromConcentrates {
			return fmt.Sprintf("%.3g g of add-on per %s", perUnit, l.Nutrient.Info().Unit)
		}
	}
	if r.Limit == ShareRow {
		return fmt.Sprintf("%.3g g of add-on per kcal", perUnit)
	}
	return fmt.Sprintf("%.3g g of add-on per 1 %% of the ratio's limit", math.Abs(dual)/100)
}
