package foodfile

import (
	"fmt"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/nutrients"
)

// foodAmount reads an amount of a food as grams: "4.2 kg", or "2 tbsp" where the
// food publishes the weight of a tablespoon. Powders of minerals and vitamins must
// be weighed: a heaped spoon of one is an overdose.
func foodAmount(s string, f *nutrients.Food) (float64, error) {
	x, unit, err := quantity.Split(s)
	if err != nil {
		return 0, err
	}
	g, err := quantity.MassOf(x, unit)
	if err == nil || unit == "" {
		return g, err
	}
	if grams, ok := measureGrams(f, unit); ok {
		if f.Supplement() {
			return 0, diag.BadInput("measure-of-supplement", fmt.Sprintf("%s must be weighed, not measured by %s", f.ID, diag.Clip(unit)), "write a weight, like \"2.5 g\"")
		}
		return x * grams, nil
	}
	if names := measureNames(f); len(names) > 0 && !f.Supplement() {
		in := err.(*diag.InputError)
		return 0, diag.BadInput(in.Code, fmt.Sprintf("unknown unit %q for %s", diag.Clip(unit), f.ID), in.Advice.Text+"; this food has the measures "+strings.Join(names, ", "))
	}
	return 0, err
}

// measureGrams finds the weight of one measure. A published name is "1 cup,
// chopped" or "1 tbsp": the count in front is taken out, and the part before the
// first comma is enough when no other measure begins like it.
func measureGrams(f *nutrients.Food, unit string) (float64, bool) {
	unit = strings.ToLower(unit)
	short, found := 0.0, 0
	for _, m := range f.Measures {
		count, name := countOf(m.Name)
		if count <= 0 {
			continue
		}
		name = strings.ToLower(name)
		if name == unit {
			return m.Grams / count, true
		}
		if before, _, _ := strings.Cut(name, ","); before == unit {
			short, found = m.Grams/count, found+1
		}
	}
	return short, found == 1
}

// countOf splits "0.5 cup" into 0.5 and "cup"; no count is one.
func countOf(measure string) (float64, string) {
	if x, unit, err := quantity.Split(measure); err == nil && unit != "" {
		return x, unit
	}
	return 1, measure
}

// maxMeasureNames is how many measures a hint lists.
const maxMeasureNames = 6

func measureNames(f *nutrients.Food) []string {
	var names []string
	for _, m := range f.Measures {
		_, name := countOf(m.Name)
		if !quantity.IsMass(name) && len(names) < maxMeasureNames {
			names = append(names, fmt.Sprintf("%q", name))
		}
	}
	return names
}
