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
	factors := Source{Text: "WSAVA 2011 and AAHA factors on resting energy", Recalled: true}
	if a.Species == Cat {
		add(52*m, fmt.Sprintf("neutered or indoor cat, low end: 52 x %.2f^0.67", ideal), srcFEDIAFMem)
		add(75*m, fmt.Sprintf("low activity: 75 x %.2f^0.67", ideal), srcFEDIAF)
		add(100*m, fmt.Sprintf("active: 100 x %.2f^0.67", ideal), srcFEDIAF)
		factor, text := 1.4, "intact"
		if a.Neutered {
			factor, text = 1.2, "neutered"
		}
		add(factor*Resting(ideal), fmt.Sprintf("%s adult: %.1f x 70 x %.2f^0.75", text, factor, ideal), Source{Text: "Cat Healthy Protocols, nutritional assessment: 1.2 neutered, 1.4 intact"})
	} else {
		add(95*m, fmt.Sprintf("low activity: 95 x %.2f^0.75", ideal), srcFEDIAF)
		add(110*m, fmt.Sprintf("moderate activity: 110 x %.2f^0.75", ideal), srcFEDIAF)
		add(130*m, fmt.Sprintf("active: 130 x %.2f^0.75", ideal), srcNRC)
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
