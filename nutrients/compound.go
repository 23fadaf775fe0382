package nutrients

import (
	"fmt"
	"strings"
)

// pureState marks a supplement that is one chemical compound.
const pureState = "pure"

// CompoundError says why an amount of a compound cannot be turned into a nutrient.
type CompoundError struct {
	Compound string
	Nutrient ID
	// Reason is in words; Hint can be typed, empty when none is known.
	Reason, Hint string
}

func (e *CompoundError) Error() string {
	if e.Hint == "" {
		return e.Reason
	}
	return e.Reason + "; " + e.Hint
}

// compoundUnit takes "mg of zinc gluconate" apart. A label's "mg as zinc gluconate"
// mostly means mg of zinc, so it is refused with the two ways to say it.
func compoundUnit(unit string) (mass, compound string, ok bool) {
	for _, word := range []string{" of ", " as "} {
		if mass, compound, ok = strings.Cut(unit, word); ok {
			if word == " as " {
				mass = ""
			}
			return strings.TrimSpace(mass), strings.TrimSpace(compound), true
		}
	}
	return "", "", false
}

// fromCompound turns the weight of a pure compound into the nutrient in its
// canonical unit, by the mass fraction of the catalogue.
func fromCompound(x float64, mass, compound string, id ID) (float64, error) {
	unit := id.Info().Unit
	key := strings.ToLower(strings.Join(strings.Fields(compound), "-"))
	if mass == "" {
		return 0, &CompoundError{compound, id, fmt.Sprintf("%q may mean the weight of %s or of the compound", "as "+compound, id),
			fmt.Sprintf("write the amount in %s alone, or \"%s of %s\" for the weight of the compound", unit, unit, compound)}
	}
	grams, ok := gramsPer[mass]
	if !ok {
		return 0, &CompoundError{compound, id, fmt.Sprintf("%q is not a weight", mass), "write mg of " + compound}
	}
	f, ok := pureCompound(key)
	if !ok {
		e := &CompoundError{Compound: compound, Nutrient: id, Reason: fmt.Sprintf("no pure compound %q is known", compound)}
		if near, ok := Default().Nearest(key); ok {
			if f, _ := Default().Food(near); f.State == pureState {
				e.Hint = "did you mean " + near + "?"
			}
		}
		return 0, e
	}
	share := f.Per100g[id]
	if !share.IsKnown() || share.Lo <= 0 {
		return 0, &CompoundError{compound, id, fmt.Sprintf("%s holds no %s", f.ID, id), ""}
	}
	return x * grams / 100 * share.Lo, nil
}

// pureCompound finds a compound by its id, by the end of its id after the vitamin
// ("dl-alpha-tocopheryl-acetate"), or by its name.
func pureCompound(key string) (*Food, bool) {
	if f, ok := Default().Food(key); ok {
		return f, f.State == pureState
	}
	for _, f := range Default().All() {
		if f.State != pureState {
			continue
		}
		name := strings.ToLower(strings.Join(strings.Fields(f.Name), "-"))
		if name == key || strings.HasPrefix(f.ID, "vitamin-") && strings.HasSuffix(f.ID, "-"+key) && strings.Count(key, "-") > 0 {
			return f, true
		}
	}
	return nil, false
}
