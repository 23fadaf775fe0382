package nutrients

import (
	"fmt"
	"math"
)

// Growth curves of NRC 2006 after weaning, p = weight / adult weight:
// puppies 130 x kg^0.75 x 3.2 x (e^(-0.87 p) - 0.1), kittens
// 100 x kg^0.67 x 6.7 x (e^(-0.189 p) - 0.66).
const (
	puppyScale, puppyRate, puppyShift    = 3.2, 0.87, 0.1
	kittenScale, kittenRate, kittenShift = 6.7, 0.189, 0.66
)

// largeBreedAdultKg is the adult weight over which puppies count as large
// (BVNA 2022).
const largeBreedAdultKg = 23.0

func growthEnergy(a Animal) (EnergyNeed, error) {
	if a.AdultKg <= 0 {
		return EnergyNeed{}, &RangeError{"the adult weight is not known, and the energy of growth depends on it",
			`give adult_weight, for example adult_weight = "22 kg"`}
	}
	p := a.WeightKg / a.AdultKg
	if p >= 1 {
		return EnergyNeed{}, &RangeError{fmt.Sprintf("the weight of %.2f kg is at or above the adult weight, where the growth curve ends", a.WeightKg),
			`set stage = "adult", or correct adult_weight`}
	}
	n := EnergyNeed{}
	m := MetabolicKg(a.Species, a.WeightKg)
	switch {
	case a.Standard == FEDIAF2021:
		if a.Species == Cat && a.AgeWeeks < 0 {
			return EnergyNeed{}, &RangeError{"the age is not known, and the energy of kittens depends on it in this standard",
				"give born, for example born = 2026-09-01"}
		}
		n.Kcal, n.Method, n.Source = fediafGrowth(a, m, p)
	case a.Species == Cat:
		n.Kcal = nrcReferenceCat * m * kittenScale * (math.Exp(-kittenRate*p) - kittenShift)
		n.Method = fmt.Sprintf("100 x %.2f^0.67 x 6.7 x (e^(-0.189 x %.3f) - 0.66) = %.0f kcal", a.WeightKg, p, n.Kcal)
		n.Source = srcNRCRecall
	default:
		n.Kcal = nrcReferenceDog * m * puppyScale * (math.Exp(-puppyRate*p) - puppyShift)
		n.Method = fmt.Sprintf("130 x %.2f^0.75 x 3.2 x (e^(-0.87 x %.3f) - 0.1) = %.0f kcal", a.WeightKg, p, n.Kcal)
		n.Source = Source{Text: "NRC 2006 growth equation, as restated by WikiVet, Calculated Energy Requirements"}
	}
	n.ReferenceKcal = n.Kcal
	n.Steps = []string{fmt.Sprintf("share of the adult weight p = %.2f / %.2f = %.3f", a.WeightKg, a.AdultKg, p), n.Method}
	n.Cautions = []string{"Growing animals tolerate few errors: have a veterinarian look over this plan, and weigh every one to two weeks."}
	if a.Species == Dog && a.AdultKg > largeBreedAdultKg {
		n.Cautions = append(n.Cautions, "Large breed: keep it lean and give no calcium besides this plan; too much harms the joints.")
	}
	return n, nil
}

// fediafGrowth: puppies 210, 175, 140 x kg^0.75 up to 50, 80, 100 % of adult
// weight; kittens 2.5, 2.0, 1.5 x the adult's energy under 4, 9 and 12 months (the
// high end of the published range under four months, the middle after).
func fediafGrowth(a Animal, m, p float64) (kcal float64, method string, src Source) {
	src = Source{Text: "FEDIAF 2021 growth, quoted in Veterinary Nursing Journal 37(4) 2022 p.28"}
	if a.Species == Dog {
		k := 140.0
		switch {
		case p < 0.5:
			k = 210
		case p < 0.8:
			k = 175
		}
		return k * m, fmt.Sprintf("%.0f x %.2f^0.75 = %.0f kcal", k, a.WeightKg, k*m), src
	}
	k := 1.5
	switch {
	case a.AgeWeeks < 17:
		k = 2.25
	case a.AgeWeeks < 39:
		k = 1.875
	}
	kcal = k * 100 * m
	return kcal, fmt.Sprintf("%.3g x 100 x %.2f^0.67 = %.0f kcal", k, a.WeightKg, kcal), src
}

func gestationEnergy(a Animal) (EnergyNeed, error) {
	n := EnergyNeed{Source: srcNRCRecall,
		Cautions: []string{"Pregnancy: a veterinarian decides on food and supplements."}}
	m := MetabolicKg(a.Species, a.WeightKg)
	if a.Week < 1 || a.Week > 10 {
		return n, &RangeError{"the week of pregnancy is not known", "give week, counted from mating, 1 to 10"}
	}
	switch {
	case a.Species == Cat:
		n.Kcal = 140 * m
		n.Method = fmt.Sprintf("140 x %.2f^0.67 = %.0f kcal", a.WeightKg, n.Kcal)
	case a.Week <= 4:
		n.Kcal = nrcReferenceDog * m
		n.Method = fmt.Sprintf("130 x %.2f^0.75 = %.0f kcal, until week 4", a.WeightKg, n.Kcal)
	default:
		n.Kcal = nrcReferenceDog*m + 26*a.WeightKg
		n.Method = fmt.Sprintf("130 x %.2f^0.75 + 26 x %.2f = %.0f kcal", a.WeightKg, a.WeightKg, n.Kcal)
	}
	n.ReferenceKcal = n.Kcal
	n.Steps = []string{n.Method}
	return n, nil
}

// Stage factors of lactation by week, from the first.
var (
	dogLactation = []float64{0.75, 0.95, 1.1, 1.2}
	catLactation = []float64{0.9, 0.9, 1.2, 1.2, 1.1, 1.0, 0.8}
)

func lactationEnergy(a Animal) (EnergyNeed, error) {
	n := EnergyNeed{Source: srcNRCRecall,
		Cautions: []string{"Nursing: energy needs are very high and change weekly; a veterinarian decides."}}
	factors := dogLactation
	if a.Species == Cat {
		factors = catLactation
	}
	if a.Week < 1 || a.Week > len(factors) {
		return n, &RangeError{fmt.Sprintf("nursing is calculated for weeks 1 to %d only", len(factors)), "give week, counted from birth"}
	}
	if a.Litter < 1 {
		return n, &RangeError{"the number of young is not known", "give litter"}
	}
	l := factors[a.Week-1]
	m := MetabolicKg(a.Species, a.WeightKg)
	if a.Species == Cat {
		c := 70.0
		switch {
		case a.Litter < 3:
			c = 18
		case a.Litter <= 4:
			c = 60
		}
		n.Kcal = nrcReferenceCat*m + c*a.WeightKg*l
		n.Method = fmt.Sprintf("100 x %.2f^0.67 + %.0f x %.2f x %.2f = %.0f kcal", a.WeightKg, c, a.WeightKg, l, n.Kcal)
	} else {
		// n counts up to four puppies, m those from the fifth to the eighth.
		first, more := float64(min(a.Litter, 4)), float64(min(max(a.Litter-4, 0), 4))
		n.Kcal = 145*m + a.WeightKg*(24*first+12*more)*l
		n.Method = fmt.Sprintf("145 x %.2f^0.75 + %.2f x (24 x %.0f + 12 x %.0f) x %.2f = %.0f kcal", a.WeightKg, a.WeightKg, first, more, l, n.Kcal)
	}
	n.ReferenceKcal = n.Kcal
	n.Steps = []string{n.Method}
	return n, nil
}
