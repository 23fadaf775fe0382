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
	if p.EnergyLeft < 0 {
		over = append(over, fmt.Sprintf("the extras alone bring %.0f kcal, more than the day's %.0f kcal",
			p.extras[nutrients.Energy].Lo, p.Targets.Energy.Kcal))
	}
	return append(over, p.overAt(0, "the extras alone bring")...)
}

// BaseOver says which upper limits the base alone exceeds at the energy that the
// extras leave for it.
func (p *Program) BaseOver() []string {
	portion := p.EnergyLeft / p.Rows[0].A[0]
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
			over = append(over, fmt.Sprintf("%s %s %s of %s, above the maximum of %s %s",
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
		return []string{"no amounts of what is on this shelf keep to every maximum and the energy"}
	}
	return []string{"with what is on this shelf, these cannot all be kept: " + strings.Join(set, "; ")}
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
	id := r.Limit
	switch {
	case id == nutrients.EnergyOfDay:
		return fmt.Sprintf("the energy of %.0f kcal", p.Targets.Energy.Kcal)
	case id == nutrients.EnergyOfAddons:
		return fmt.Sprintf("at most %.0f %% of the energy from add-ons", 100*p.Kitchen.AddonEnergyShare)
	case id.Kind == nutrients.OfRatio:
		for _, ratio := range p.Targets.Ratios {
			if ratio.Key != id.Name {
				continue
			}
			end := ratio.Lower
			if id.Side == nutrients.Maximum {
				end = ratio.Upper
			}
			return fmt.Sprintf("%s %s %s", nutrients.RatioName(ratio.Key), atEnd(id.Side), number.Short(*end))
		}
	case id.Kind == nutrients.OfRisen:
		for _, rise := range p.Targets.Rises {
			if rise.Nutrient == id.Nutrient {
				unit := id.Nutrient.Info().Unit
				return fmt.Sprintf("at least %s %s of %s and %s %s more for each %s of %s over %s", number.Short(rise.Base), unit, nutrients.InSentence(id.Nutrient.Info().Name),
					number.Short(rise.PerUnit), unit, rise.With.Info().Unit, nutrients.InSentence(rise.With.Info().Name), number.Short(rise.Above))
			}
		}
	case id.Kind == nutrients.OfUnharmed:
		info := id.Nutrient.Info()
		return fmt.Sprintf("at most %s %s of %s with add-ons: no harm was seen up to %s %s", number.Short(r.Size), info.Unit, nutrients.InSentence(info.Name),
			number.Short(*p.limitOf(r).NoHarm), info.Unit)
	case id.Kind != nutrients.OfDay:
		info, l := id.Nutrient.Info(), p.limitOf(r)
		end := l.Lower
		switch {
		case id.Kind == nutrients.OfConcentrates:
			return fmt.Sprintf("at most %s %s of %s from all concentrates together, %g times the minimum", number.Short(r.Upper), info.Unit, nutrients.InSentence(info.Name), r.Upper / *l.Lower)
		case id.Side == nutrients.Maximum:
			end = l.Upper
		}
		return fmt.Sprintf("%s %s %s of %s", atEnd(id.Side), number.Short(*end), info.Unit, nutrients.InSentence(info.Name))
	}
	return id.String()
}

func atEnd(side nutrients.Side) string {
	if side == nutrients.Maximum {
		return "at most"
	}
	return "at least"
}

// Price says what one unit of a limit costs in grams of add-on.
func (p *Program) Price(r Row, dual float64) string {
	perUnit := math.Abs(dual) / r.Size
	switch {
	case r.Limit == nutrients.EnergyOfAddons:
		return fmt.Sprintf("%.3g g of add-on per kcal", perUnit)
	case r.Limit.Kind == nutrients.OfRatio:
		return fmt.Sprintf("%.3g g of add-on per 1 %% of the ratio's limit", math.Abs(dual)/100)
	}
	return fmt.Sprintf("%.3g g of add-on per %s", perUnit, r.Limit.Nutrient.Info().Unit)
}
