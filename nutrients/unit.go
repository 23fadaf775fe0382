package nutrients

import (
	"fmt"
	"strings"
)

// gramsPer holds the mass units of the outside world in grams.
var gramsPer = map[string]float64{
	"kg": 1000, "g": 1, "mg": 1e-3, "ug": 1e-6, "µg": 1e-6, "μg": 1e-6, "mcg": 1e-6,
	"oz": 28.349523125, "lb": 453.59237,
}

// iuFactor holds what one international unit is in the canonical unit of the
// nutrient: 0.3 ug retinol, 0.025 ug cholecalciferol, 0.67 mg alpha-tocopherol
// (the natural form; read in restatements of the definitions).
var iuFactor = map[ID]float64{Retinol: 0.3, VitaminA: 0.3, VitaminARAE: 0.3, VitaminD: 0.025, VitaminE: 0.67}

// kJPerKcal is exact by definition.
const kJPerKcal = 4.184

// MismatchError says that a unit does not fit a nutrient.
type MismatchError struct {
	Unit     string
	Nutrient ID
}

func (e *MismatchError) Error() string {
	return fmt.Sprintf("%s cannot be given in %q; use %s", e.Nutrient.Info().Name, e.Unit, e.Nutrient.Info().Unit)
}

// Convert turns an amount in a unit of the outside world ("g", "mg", "ug",
// "µg", "mcg", "IU", "kcal", "kJ") into the canonical unit of the nutrient. A
// unit that does not fit the nutrient is a *MismatchError.
//
// "mg of zinc gluconate" is the weight of a pure compound of the catalogue and
// gives the nutrient by its mass fraction; a *CompoundError says why it cannot.
func Convert(x float64, unit string, id ID) (float64, error) {
	if mass, compound, ok := compoundUnit(unit); ok {
		return fromCompound(x, mass, compound, id)
	}
	canonical := id.Info().Unit
	if canonical == Kilocal {
		switch strings.ToLower(unit) {
		case "kcal":
			return x, nil
		case "kj":
			return x / kJPerKcal, nil
		}
		return 0, &MismatchError{unit, id}
	}
	if strings.EqualFold(unit, "IU") {
		factor, ok := iuFactor[id]
		if !ok {
			return 0, &MismatchError{unit, id}
		}
		return x * factor, nil
	}
	if unit == string(canonical) {
		return x, nil
	}
	from, ok := gramsPer[unit]
	if !ok {
		return 0, &MismatchError{unit, id}
	}
	// Both are powers of ten for the metric units: dividing by the larger keeps
	// the quotient exact where multiplying by 1e-3 would not.
	to := gramsPer[string(canonical)]
	if from >= to {
		return x * (from / to), nil
	}
	return x / (to / from), nil
}
