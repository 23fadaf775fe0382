package nutrients

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// OwnPer says what the amount of a household's own limit is for.
type OwnPer string

// The bases of an own limit. A kilogram is one of ideal weight. A minimum per 1000 kcal
// counts the energy that the standard's own minima count, the reference energy when less
// is fed; a maximum counts the energy really given.
const (
	OwnPerDay      OwnPer = "day"
	OwnPer1000kcal OwnPer = "1000 kcal"
	OwnPerKgIdeal  OwnPer = "kg"
)

// OwnAmount is an amount in the nutrient's canonical unit.
type OwnAmount struct {
	Value float64 `json:"value"`
	Per   OwnPer  `json:"per"`
}

// aDay is the amount of one day for an animal that gets so much energy.
func (a OwnAmount) aDay(kcal float64, e EnergyNeed) float64 {
	switch a.Per {
	case OwnPer1000kcal:
		return a.Value * kcal / 1000
	case OwnPerKgIdeal:
		return a.Value * e.IdealKg
	}
	return a.Value
}

func (a OwnAmount) text(u Unit) string {
	if a.Per == OwnPerDay {
		return amount(a.Value, u) + " a day"
	}
	return amount(a.Value, u) + " per " + string(a.Per)
}

// OwnLimit is a limit that a household changes for one animal: a minimum, a maximum or
// both in place of the standard's, or one of them dropped. An own figure stands alone:
// where it replaces a minimum, neither the standard's amount per kg metabolic weight nor
// a rise with another nutrient counts beside it.
type OwnLimit struct {
	Nutrient ID `json:"nutrient"`
	// Minimum and Maximum are nil where they stay as the standard has them.
	Minimum *OwnAmount `json:"minimum,omitempty"`
	Maximum *OwnAmount `json:"maximum,omitempty"`
	// DropMinimum and DropMaximum take the standard's away.
	DropMinimum bool `json:"drop_minimum,omitempty"`
	DropMaximum bool `json:"drop_maximum,omitempty"`
	// Reason says why, By who prescribed it; By may be empty where no maximum is loosened.
	Reason string `json:"reason"`
	By     string `json:"by,omitempty"`
}

// Same says whether two limits are one, word for word.
func (o OwnLimit) Same(p OwnLimit) bool {
	same := func(a, b *OwnAmount) bool { return a == nil && b == nil || a != nil && b != nil && *a == *b }
	return same(o.Minimum, p.Minimum) && same(o.Maximum, p.Maximum) && o.Nutrient == p.Nutrient &&
		o.DropMinimum == p.DropMinimum && o.DropMaximum == p.DropMaximum && o.Reason == p.Reason && o.By == p.By
}

// who is "set by the household" with reason and author.
func (o OwnLimit) who() string {
	s := "set by the household: " + o.Reason
	if o.By != "" {
		s += " (prescribed by " + o.By + ")"
	}
	return s
}

// Override is an own limit as it works out for a day, beside what the standard asks for.
type Override struct {
	OwnLimit
	// StandardLower and StandardUpper are the limits a day without it, nil for none.
	StandardLower, StandardUpper *float64
	// Lower and Upper are those with it.
	Lower, Upper *float64
}

// muchMore is how many times the standard's minimum an own one may be before somebody
// must have prescribed it, where there is no maximum: what concentrates may bring grows
// with the minimum (our own line).
const muchMore = 2

// LoosensMaximum says whether the day may hold more than the standard allows or, where
// it prints no maximum, much more than concentrates may bring by its minimum.
func (o Override) LoosensMaximum() bool {
	if o.StandardUpper != nil {
		return o.Upper == nil || *o.Upper > *o.StandardUpper
	}
	times, _ := MostFromConcentrates(o.Nutrient)
	if times == 0 || o.StandardLower == nil {
		return false
	}
	if o.Upper != nil {
		return *o.Upper > times**o.StandardLower*(1+1e-9)
	}
	return o.Lower != nil && *o.Lower > muchMore**o.StandardLower
}

// Text says in a sentence what was changed, why and by whom. A loosened maximum is
// named as one.
func (o Override) Text() string {
	info := o.Nutrient.Info()
	side := func(drops bool, own *OwnAmount, was, now *float64, name string) []string {
		standard := "the standard has none"
		if was != nil {
			standard = "the standard's is " + amount(*was, info.Unit)
		}
		switch {
		case drops:
			return []string{fmt.Sprintf("no %s (%s)", name, standard)}
		case own == nil:
			return nil
		case own.Per == OwnPerDay:
			return []string{fmt.Sprintf("%s %s (%s)", name, own.text(info.Unit), standard)}
		}
		return []string{fmt.Sprintf("%s %s, %s a day (%s)", name, own.text(info.Unit), amount(*now, info.Unit), standard)}
	}
	parts := append(side(o.DropMinimum, o.Minimum, o.StandardLower, o.Lower, "minimum"), side(o.DropMaximum, o.Maximum, o.StandardUpper, o.Upper, "maximum")...)
	text := fmt.Sprintf("%s: %s, %s.", info.Name, strings.Join(parts, "; "), o.who())
	if o.LoosensMaximum() {
		text = "MAXIMUM LOOSENED. " + text
	}
	return text
}

// override puts the animal's own limits in place of the standard's. Limits that cannot
// both be kept are a *RangeError.
func (t *Targets) override(a Animal) error {
	for _, own := range a.Limits {
		if a.Species == Dog && own.Nutrient == VitaminA && (own.Maximum != nil || own.DropMaximum) {
			// A dog's maximum of vitamin A counts retinol alone, the household's as well.
			retinol := own
			retinol.Nutrient, retinol.Minimum, retinol.DropMinimum = Retinol, nil, false
			if err := t.overrideOne(retinol); err != nil {
				return err
			}
			if own.Maximum, own.DropMaximum = nil, false; own.Minimum == nil && !own.DropMinimum {
				continue
			}
		}
		if err := t.overrideOne(own); err != nil {
			return err
		}
	}
	slices.SortFunc(t.Limits, func(a, b Limit) int { return cmp.Compare(a.Nutrient, b.Nutrient) })
	return nil
}

func (t *Targets) overrideOne(own OwnLimit) error {
	i := slices.IndexFunc(t.Limits, func(l Limit) bool { return l.Nutrient == own.Nutrient })
	if i < 0 {
		i, t.Limits = len(t.Limits), append(t.Limits, Limit{Nutrient: own.Nutrient})
	}
	l, e := &t.Limits[i], t.Energy
	o := Override{OwnLimit: own, StandardLower: l.Lower, StandardUpper: l.Upper}
	source := Source{Text: own.who()}
	if own.Minimum != nil || own.DropMinimum {
		l.Lower, l.LowerSource = nil, Source{}
		t.Rises = slices.DeleteFunc(t.Rises, func(r Risen) bool { return r.Nutrient == own.Nutrient })
	}
	if own.Minimum != nil {
		kcal := max(e.Kcal, e.ReferenceKcal)
		least := own.Minimum.aDay(kcal, e)
		l.Lower, l.LowerSource = &least, source
	}
	if own.Maximum != nil || own.DropMaximum {
		l.Upper, l.UpperSource = nil, Source{}
	}
	if own.Maximum != nil {
		most := own.Maximum.aDay(e.Kcal, e)
		l.Upper, l.UpperSource = &most, source
	}
	// Without minimum and maximum nothing would bound what concentrates bring.
	if times, _ := MostFromConcentrates(own.Nutrient); own.DropMinimum && l.Upper == nil && !own.DropMaximum && times > 0 && o.StandardLower != nil {
		most := times * *o.StandardLower
		l.Upper, l.UpperSource = &most, Source{Text: "what concentrates may bring by the minimum that was dropped"}
	}
	if l.Lower != nil && l.Upper != nil && *l.Lower > *l.Upper {
		u := own.Nutrient.Info().Unit
		return &RangeError{fmt.Sprintf("%s: the minimum of %s a day is over the maximum of %s", own.Nutrient.Info().Name, amount(*l.Lower, u), amount(*l.Upper, u)),
			"lower the minimum as well, or raise the maximum"}
	}
	l.Aim = nil
	if l.Lower != nil {
		l.Aim = aimBetween(*l.Lower, l.Upper)
	}
	o.Lower, o.Upper = l.Lower, l.Upper
	l.Own = &o
	l.Steps = append(l.Steps, InSentence(o.Text()))
	t.Overrides = append(t.Overrides, o)
	return nil
}

// aimBetween is the amount that a plan tries for: a little over the minimum, but not
// past the middle.
func aimBetween(lower float64, upper *float64) *float64 {
	aim := lower * (1 + aimMargin)
	if upper != nil {
		aim = max(lower, min(aim, (lower+*upper)/2))
	}
	return &aim
}
