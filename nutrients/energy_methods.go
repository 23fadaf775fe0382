package nutrients

import "fmt"

// MethodEnergy is the daily energy of an animal by one published method.
type MethodEnergy struct {
	Method string
	Kcal   float64
	Source Source
}

// wideSpread is the quotient of the highest and the lowest method from which the
// methods count as disagreeing widely (our own bound: a quarter more food is a
// visible change of weight within weeks).
const wideSpread = 1.25

// EnergyByMethods returns the energy of a healthy adult at ideal weight by each
// published method, and whether they disagree widely. Individual animals vary
// widely round every equation; body weight decides. For other stages it is empty.
func EnergyByMethods(a Animal) (all []MethodEnergy, wide bool) {
	if (a.Stage != Adult && a.Stage != "") || a.WeightKg <= 0 {
		return nil, false
	}
	ideal := a.Ideal()
	m := MetabolicKg(a.Species, ideal)
	add := func(kcal float64, method string, src Source) {
		all = append(all, MethodEnergy{fmt.Sprintf("%s = %.0f kcal", method, kcal), kcal, src})
	}
	exponent := dogExponent
	if a.Species == Cat {
		exponent = catExponent
	}
	byActivity := func(act Activity, text string, src Source) {
		k := perKg[a.Species][act]
		add(k*m, fmt.Sprintf("%s: %.0f x %.2f^%.2f", text, k, ideal, exponent), src)
	}
	factors := Source{Text: "WSAVA 2011 and AAHA factors on resting energy", Recalled: true}
	if a.Species == Cat {
		add(52*m, fmt.Sprintf("neutered or indoor cat, low end: 52 x %.2f^0.67", ideal), srcFEDIAFMem)
		byActivity(Low, "low activity", srcFEDIAF)
		byActivity(High, "active", srcFEDIAF)
		factor, text := 1.4, "intact"
		if a.Neutered {
			factor, text = 1.2, "neutered"
		}
		add(factor*Resting(ideal), fmt.Sprintf("%s adult: %.1f x 70 x %.2f^0.75", text, factor, ideal), Source{Text: "Cat Healthy Protocols, nutritional assessment: 1.2 neutered, 1.4 intact"})
	} else {
		byActivity(Low, "low activity", srcFEDIAF)
		byActivity(Moderate, "moderate activity", srcFEDIAF)
		byActivity(High, "active", srcNRC)
		factor, text := 1.8, "intact"
		if a.Neutered {
			factor, text = 1.6, "neutered"
		}
		add(factor*Resting(ideal), fmt.Sprintf("%s adult: %.1f x 70 x %.2f^0.75", text, factor, ideal), factors)
	}
	low, high := all[0].Kcal, all[0].Kcal
	for _, x := range all {
		low, high = min(low, x.Kcal), max(high, x.Kcal)
	}
	return all, high > wideSpread*low
}
