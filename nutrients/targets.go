package nutrients

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bowlwright/nutrients/number"
)

// aimMargin is how far above the lower limit a plan aims, so that the spread of
// real food does not fall below it at once (common practice).
const aimMargin = 0.05

// earlyGrowthWeeks is the age until which puppies count as early growth.
const earlyGrowthWeeks = 14

// Adult weights in kg from which the large-breed calcium rows apply, and the age
// in weeks until which FEDIAF's does (AAFCO 70 lb, recalled; FEDIAF about six
// months, recalled).
const (
	aafcoLargeKg     = 31.8
	fediafLargeKg    = 15.0
	fediafLargeWeeks = 26
)

// formVariants maps rows that a standard splits by food form to the nutrient
// itself. Home-cooked food is neither canned nor extruded, so the stricter holds.
var formVariants = map[string]ID{
	"taurine-canned": Taurine, "taurine-extruded": Taurine, "taurine-dry": Taurine,
	"copper-extruded": Copper, "copper-canned": Copper,
	"selenium-wet": Selenium, "selenium-dry": Selenium,
}

// rowStages returns the stages of the standard's table that apply to an animal.
// Of several, the stricter figure counts.
func rowStages(a Animal) []string {
	if a.Own != nil {
		return []string{string(cmp.Or(a.Stage, Adult))}
	}
	if a.Stage == Adult || a.Stage == "" {
		switch {
		case a.Standard != FEDIAF2021:
			return []string{"adult"}
		case a.Species == Cat:
			return []string{"adult-100"}
		}
		return []string{"adult-110"}
	}
	young := a.Stage == Growth
	switch a.Standard {
	case AAFCO2016:
		stages := []string{"growth-reproduction"}
		if a.Species == Dog && young && a.AdultKg >= aafcoLargeKg {
			stages = append(stages, "growth-reproduction-large")
		}
		return stages
	case FEDIAF2021:
		if a.Species == Cat {
			if young {
				return []string{"growth-reproduction", "growth"}
			}
			return []string{"growth-reproduction"}
		}
		if !young {
			return []string{"growth-early"}
		}
		stages := dogGrowthStages(a, "growth-late")
		if slices.Contains(stages, "growth-late") && a.AdultKg > fediafLargeKg && a.AgeWeeks < fediafLargeWeeks {
			stages = append(stages, "growth-late-large")
		}
		return stages
	}
	if !young {
		return []string{"gestation-lactation"}
	}
	if a.Species == Cat {
		return []string{"growth-early"}
	}
	return dogGrowthStages(a, "growth")
}

// maximumStages returns the stages whose maxima bind. FEDIAF prints its maxima for
// adults and for growth, none for reproduction: those of a pregnant or nursing bitch
// are the adult's, though her minima stand with the puppies'.
func maximumStages(a Animal, stages []string) []string {
	if a.Standard == FEDIAF2021 && a.Species == Dog && (a.Stage == Gestation || a.Stage == Lactation) {
		return []string{"adult-110"}
	}
	return stages
}

// dogGrowthStages: early growth until fourteen weeks, then the later table; both
// where the age is not known.
func dogGrowthStages(a Animal, later string) []string {
	switch {
	case a.AgeWeeks < 0:
		return []string{"growth-early", later}
	case a.AgeWeeks < earlyGrowthWeeks:
		return []string{"growth-early"}
	}
	return []string{later}
}

// TargetsFor applies a standard to an animal: lower limits per day are density
// x max(energy, reference energy at ideal weight), and at least the amount per
// kg metabolic weight where the standard gives one; upper limits go by the
// energy really given and by the amount per kg metabolic weight, the stricter.
// FEDIAF's legal maxima apply to additives in feed for sale and are not limits
// of a home-cooked day. The error is EnergyFor's.
func TargetsFor(a Animal) (Targets, error) {
	if a.Standard == "" {
		a.Standard = NRC2006
	}
	energy, err := EnergyFor(a)
	if err != nil {
		return Targets{}, err
	}
	t := Targets{Energy: energy, Cautions: energy.Cautions}
	stages := rowStages(a)
	var byNutrient [Count][]*Row
	known := false
	rows := a.rows()
	maxima := maximumStages(a, stages)
	var rises []*Row
	for i := range rows {
		r := &rows[i]
		counted := stages
		if r.Bound == Max {
			counted = maxima
		}
		if r.Species != a.Species || !slices.Contains(counted, r.Stage) || r.Bound == LegalMax {
			continue
		}
		if r.Bound == Rise {
			rises = append(rises, r)
			continue
		}
		if r.Basis == PerRatio {
			t.Ratios = addRatio(t.Ratios, *r)
			continue
		}
		id, ok := ParseID(r.Nutrient)
		if !ok {
			if id, ok = formVariants[r.Nutrient]; !ok {
				panic("nutrients: a standard has a row for " + r.Nutrient)
			}
		}
		byNutrient[id] = append(byNutrient[id], r)
		known = true
	}
	if !known {
		return Targets{}, &RangeError{fmt.Sprintf("%s has no table for a %s of this stage", a.Standard, a.Species), "choose another standard"}
	}
	for id, rows := range byNutrient {
		if len(rows) == 0 {
			continue
		}
		l := limitOf(ID(id), rows, energy)
		if ID(id) == VitaminA && a.Species == Dog {
			t.Limits = append(t.Limits, preformedOnly(&l)...)
		}
		t.Limits = append(t.Limits, l)
	}
	t.Rises = risesOf(rises, t.Limits)
	slices.SortFunc(t.Limits, func(a, b Limit) int { return cmp.Compare(a.Nutrient, b.Nutrient) })
	if !slices.ContainsFunc(t.Ratios, func(r Ratio) bool { return r.Key == calciumPhosphorus }) {
		one, two := 1.0, 2.0
		t.Ratios = append(t.Ratios, Ratio{Key: calciumPhosphorus, Numerator: []ID{Calcium}, Denominator: []ID{Phosphorus},
			Lower: &one, Upper: &two, Source: Source{Text: "common practice: 1:1 to 2:1 by weight"}})
	}
	if err := t.override(a); err != nil {
		return Targets{}, err
	}
	return t, nil
}

// maximumStep begins a step of the arithmetic of a maximum.
const maximumStep = "maximum: "

// preformedOnly moves the upper limit of vitamin A to retinol: carotene covers a dog's
// need and does not poison, because the gut takes up what is needed (NRC 2006, ch. 8,
// recalled). A cat has vitamin A from retinol alone, so its limits stay together.
func preformedOnly(l *Limit) []Limit {
	if l.Upper == nil {
		return nil
	}
	retinol := Limit{Nutrient: Retinol, Upper: l.Upper, UpperSource: l.UpperSource}
	var lower []string
	for _, s := range l.Steps {
		if strings.HasPrefix(s, maximumStep) {
			retinol.Steps = append(retinol.Steps, s)
		} else {
			lower = append(lower, s)
		}
	}
	retinol.Steps = append(retinol.Steps, "the maximum of vitamin A counts retinol, not carotene")
	l.Upper, l.UpperSource, l.Steps, l.Aim = nil, Source{}, lower, nil
	if l.Lower != nil {
		l.Aim = aimBetween(*l.Lower, nil)
	}
	return []Limit{retinol}
}

// risesOf works out the lower limits that grow with another nutrient, from the lower
// limits of both.
func risesOf(rows []*Row, limits []Limit) []Risen {
	lower := func(id ID) (*Limit, float64) {
		for i := range limits {
			if limits[i].Nutrient == id && limits[i].Lower != nil {
				return &limits[i], *limits[i].Lower
			}
		}
		return nil, 0
	}
	var all []Risen
	for _, r := range rows {
		id, ok := ParseID(r.Nutrient)
		with, known := ParseID(strings.TrimPrefix(string(r.Basis), string(PerGram)))
		if !ok || !known || with.Info().Unit != Gram {
			panic("nutrients: a standard has a rise of " + r.Nutrient + " " + string(r.Basis))
		}
		per, err := Convert(r.Value, r.Unit, id)
		if err != nil {
			panic("nutrients: a row of a standard: " + err.Error())
		}
		l, base := lower(id)
		if l == nil || slices.ContainsFunc(all, func(x Risen) bool { return x.Nutrient == id }) {
			continue
		}
		_, above := lower(with)
		l.Steps = append(l.Steps, fmt.Sprintf("and %s more for each g of %s over %s a day (%s)",
			amount(per, id.Info().Unit), InSentence(with.Info().Name), amount(above, with.Info().Unit), words(r)))
		all = append(all, Risen{Nutrient: id, With: with, Base: base, PerUnit: per, Above: above, Source: r.Source})
	}
	return all
}

// sameFigure is how far apart, relative, two rows say the same: 1 g per 1000 kcal at 130
// kcal is 0.13 g per kg metabolic weight, and the first row is then the source.
const sameFigure = 1e-9

// lowerBounds are the kinds of lower figures, the one to use first.
var lowerBounds = []Bound{RA, Min, AI, MR}

// limitOf works out the limits of one nutrient from its rows.
func limitOf(id ID, rows []*Row, e EnergyNeed) Limit {
	l := Limit{Nutrient: id}
	u := id.Info().Unit
	canonical := func(r *Row) float64 {
		v, err := Convert(r.Value, r.Unit, id)
		if err != nil {
			panic("nutrients: a row of a standard: " + err.Error())
		}
		return v
	}
	raise := func(v float64, r *Row, step string) {
		l.Steps = append(l.Steps, step)
		if l.Lower == nil || v > *l.Lower*(1+sameFigure) {
			l.Lower, l.LowerSource = &v, r.Source
		}
	}
	reduce := func(v float64, r *Row, step string) {
		l.Steps = append(l.Steps, step)
		if l.Upper == nil || v < *l.Upper*(1-sameFigure) {
			l.Upper, l.UpperSource = &v, r.Source
		}
	}
	counted := max(e.Kcal, e.ReferenceKcal)
	bound := firstBound(rows)
	if id == Fat && !slices.ContainsFunc(rows, func(r *Row) bool { return r.Bound == bound && r.Basis == PerKgMetabolic }) {
		counted = e.Kcal
		if counted < e.ReferenceKcal {
			l.Steps = append(l.Steps, "the standard gives fat per energy only, not as an amount a body needs, so it follows the energy fed")
		}
	}
	for _, r := range rows {
		v := canonical(r)
		switch {
		case (r.Bound == bound || r.Bound == Home) && r.Basis == Per1000kcal:
			raise(v*counted/1000, r, fmt.Sprintf("minimum: %s per 1000 kcal x %.0f kcal = %s (%s)", amount(v, u), counted, amount(v*counted/1000, u), words(r)))
		case r.Bound == bound && r.Basis == PerKgMetabolic:
			raise(v*e.MetabolicKg, r, fmt.Sprintf("minimum: %s per kg metabolic weight x %.2f kg = %s (%s)", amount(v, u), e.MetabolicKg, amount(v*e.MetabolicKg, u), words(r)))
		case r.Bound == NoHarm && r.Basis == Per1000kcal:
			at := v * e.Kcal / 1000
			l.Steps = append(l.Steps, fmt.Sprintf("no harm seen up to %s per 1000 kcal x %.0f kcal = %s: food may bring more, add-ons may not (%s)", amount(v, u), e.Kcal, amount(at, u), words(r)))
			if l.NoHarm == nil || at < *l.NoHarm {
				l.NoHarm, l.NoHarmSource = &at, r.Source
			}
		case (r.Bound == SUL || r.Bound == Max || r.Bound == Harm) && r.Basis == Per1000kcal:
			reduce(v*e.Kcal/1000, r, fmt.Sprintf(maximumStep+"%s per 1000 kcal x %.0f kcal = %s (%s)", amount(v, u), e.Kcal, amount(v*e.Kcal/1000, u), words(r)))
		case r.Bound == SUL && r.Basis == PerKgMetabolic:
			reduce(v*e.MetabolicKg, r, fmt.Sprintf(maximumStep+"%s per kg metabolic weight x %.2f kg = %s (%s)", amount(v, u), e.MetabolicKg, amount(v*e.MetabolicKg, u), words(r)))
		}
	}
	if id == VitaminK && l.Lower != nil {
		l.Steps = append(l.Steps, "the standard counts menadione; vitamin K of food is counted weight for weight (common practice)")
	}
	if l.Lower != nil {
		l.Aim = aimBetween(*l.Lower, l.Upper)
	}
	return l
}

// firstBound picks the kind of lower figure that the rows offer per 1000 kcal.
func firstBound(rows []*Row) Bound {
	for _, b := range lowerBounds {
		if slices.ContainsFunc(rows, func(r *Row) bool { return r.Bound == b && r.Basis == Per1000kcal }) {
			return b
		}
	}
	return ""
}

// amount formats a figure with four significant digits for a line of arithmetic.
func amount(v float64, u Unit) string { return number.Digits(v, 4) + " " + string(u) }

// words names a row: its source, its kind, and whether it was recalled.
func words(r *Row) string {
	s := r.Source.Text + ", " + r.Stage + " " + string(r.Bound)
	if r.Source.Recalled {
		s += ", recalled"
	}
	return s
}

// The keys of the ratios.
const (
	calciumPhosphorus = "calcium-phosphorus"
	omega6Omega3      = "omega6-omega3"
)

// addRatio joins a row to the ratios; of several rows the stricter counts.
func addRatio(all []Ratio, r Row) []Ratio {
	key := strings.TrimSuffix(r.Nutrient, "-ratio")
	i := slices.IndexFunc(all, func(x Ratio) bool { return x.Key == key })
	if i < 0 {
		x := Ratio{Key: key, Source: r.Source}
		switch key {
		case calciumPhosphorus:
			x.Numerator, x.Denominator = []ID{Calcium}, []ID{Phosphorus}
		case omega6Omega3:
			x.Numerator = []ID{LinoleicAcid, ArachidonicAcid}
			x.Denominator = []ID{AlphaLinolenicAcid, EPA, DHA}
		default:
			panic("nutrients: a standard has a ratio " + r.Nutrient)
		}
		all, i = append(all, x), len(all)
	}
	v := r.Value
	if r.Bound == Min {
		if all[i].Lower == nil || v > *all[i].Lower {
			all[i].Lower = &v
		}
	} else if all[i].Upper == nil || v < *all[i].Upper {
		all[i].Upper = &v
	}
	all[i].Source.Recalled = all[i].Source.Recalled || r.Source.Recalled
	return all
}
