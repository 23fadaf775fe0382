package optimize

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/nutrients"
	"bowlwright/optimize/lp"
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

// conflict reduces the hard rows that cannot hold together to a set of which none
// can be left out (deletion filter, started from the proof), and says it in words.
func (p *program) conflict(s *staged) []string {
	q := s.problem
	kept := make([]bool, len(q.Rows))
	for i, y := range s.farkas {
		kept[i] = y != 0
	}
	infeasible := func() bool {
		sub := lp.Problem{Cost: make([]float64, len(q.Cost)), Lower: q.Lower, Upper: q.Upper}
		for i, r := range q.Rows {
			if kept[i] {
				sub.Rows = append(sub.Rows, r)
			}
		}
		solver, err := lp.New(sub)
		return err == nil && solver.Solve().Status == lp.Infeasible
	}
	for i := range kept {
		if !kept[i] {
			continue
		}
		kept[i] = false
		if !infeasible() {
			kept[i] = true
		}
	}
	var names []string
	for i, r := range p.rows {
		if kept[i] {
			names = append(names, p.inWords(r))
		}
	}
	return []string{"on this shelf these cannot hold together: " + strings.Join(names, "; ")}
}

// inWords says a limit with its figure.
func (p *program) inWords(r row) string {
	switch r.limit {
	case energyRow:
		return fmt.Sprintf("the energy of %.0f kcal", p.targets.Energy.Kcal)
	case shareRow:
		return fmt.Sprintf("at most %.0f %% of the energy from add-ons", 100*p.kitchen.AddonEnergyShare)
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
	return "the ratio " + r.limit
}

// short formats a figure with three significant digits, without an exponent.
func short(v float64) string {
	if v == 0 || math.Abs(v) >= 100 {
		return fmt.Sprintf("%.0f", v)
	}
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.*f", max(0, 2-int(math.Floor(math.Log10(math.Abs(v))))), v), "0"), ".")
}

// lower writes a nutrient's name inside a sentence; names that are initials stay.
func lower(name string) string {
	if len(name) > 1 && name[1] >= 'A' && name[1] <= 'Z' {
		return name
	}
	return strings.ToLower(name[:1]) + name[1:]
}
