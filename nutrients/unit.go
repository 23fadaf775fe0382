package nutrients

// Convert turns an amount in a unit of the outside world ("g", "mg", "ug",
// "µg", "mcg", "IU", "kcal", "kJ") into the canonical unit of the nutrient. A
// unit that does not fit the nutrient is an error; IU need the nutrient's own
// definition and, for vitamin E, its form.
func Convert(x float64, unit string, id ID) (float64, error) {
	panic("nutrients: Convert is being built")
}
