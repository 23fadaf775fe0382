package household

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"bowlwright/household/diag"
)

// gramsPerUnit holds the units in which people weigh. The pound is 453.59237 g by
// the international yard and pound agreement of 1959; the ounce is its sixteenth.
var gramsPerUnit = map[string]float64{
	"kg": 1000, "g": 1, "mg": 0.001, "lb": 453.59237, "oz": 28.349523125,
}

// massUnits lists them for hints, in the order of use.
var massUnits = []string{"kg", "g", "mg", "lb", "oz"}

// kJPerKcal is the thermochemical calorie, 4.184 J by definition.
const kJPerKcal = 4.184

var (
	numberThenUnit = regexp.MustCompile(`^([+-]?(?:\d+\.?\d*|\.\d+))\s*([^\d\s].*)?$`)
	commaNumber    = regexp.MustCompile(`^([+-]?\d+),(\d+)(.*)$`)
	fraction       = regexp.MustCompile(`^(\d+)\s*/\s*(\d+)(.*)$`)
)

// splitQuantity reads a number and what stands behind it.
func splitQuantity(s string) (x float64, unit string, err error) {
	s = strings.TrimSpace(strings.Map(func(r rune) rune {
		if r == '\u00a0' || r == '\u202f' || r == '\u2009' {
			return ' '
		}
		return r
	}, s))
	if m := commaNumber.FindStringSubmatch(s); m != nil {
		return 0, "", diag.BadInput("decimal-comma", fmt.Sprintf("%q has a decimal comma", clip(s)),
			fmt.Sprintf("use a decimal point: \"%s.%s%s\"", m[1], m[2], m[3]))
	}
	if m := fraction.FindStringSubmatch(s); m != nil {
		a, _ := strconv.ParseFloat(m[1], 64)
		b, _ := strconv.ParseFloat(m[2], 64)
		hint := "use a decimal number"
		if b > 0 {
			hint = fmt.Sprintf("use a decimal number: \"%s%s\"", strconv.FormatFloat(a/b, 'g', 4, 64), m[3])
		}
		return 0, "", diag.BadInput("not-a-number", fmt.Sprintf("%q is a fraction", clip(s)), hint)
	}
	m := numberThenUnit.FindStringSubmatch(s)
	if m == nil {
		return 0, "", diag.BadInput("not-a-number", fmt.Sprintf("%q does not begin with a number", clip(s)), "write a number and a unit, like \"4.2 kg\"")
	}
	x, perr := strconv.ParseFloat(m[1], 64)
	if perr != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		return 0, "", diag.BadInput("not-a-number", fmt.Sprintf("%q is not a number that can be used", clip(s)), "write a number and a unit, like \"4.2 kg\"")
	}
	return x, strings.TrimSpace(m[2]), nil
}

// parseMass reads "4.2 kg" as grams. The sign is the caller's to judge.
func parseMass(s string) (float64, error) {
	x, unit, err := splitQuantity(s)
	if err != nil {
		return 0, err
	}
	return massOf(x, unit)
}

func massOf(x float64, unit string) (float64, error) {
	if unit == "" {
		n := strconv.FormatFloat(x, 'f', -1, 64)
		return 0, diag.BadInput("no-unit", n+" has no unit", fmt.Sprintf("write what it is: \"%s kg\" or \"%s g\"", n, n))
	}
	per, ok := gramsPerUnit[unit]
	if !ok {
		return 0, diag.BadInput("unknown-unit", fmt.Sprintf("unknown unit %q", clip(unit)), unitHint(unit, massUnits))
	}
	if unit == "mg" {
		return x / 1000, nil
	}
	return x * per, nil
}

// unitHint names what was probably meant.
func unitHint(unit string, known []string) string {
	words := map[string]string{
		"gram": "g", "grams": "g", "gr": "g", "gm": "g", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg", "kgs": "kg",
		"milligram": "mg", "milligrams": "mg", "pound": "lb", "pounds": "lb", "lbs": "lb", "ounce": "oz", "ounces": "oz",
		"cal": "kcal", "kj": "kJ",
	}
	low := strings.ToLower(strings.TrimSuffix(unit, "."))
	if w, ok := words[low]; ok && slices.Contains(known, w) {
		return fmt.Sprintf("did you mean %q?", w)
	}
	if slices.Contains(known, low) {
		return fmt.Sprintf("write it as %q", low)
	}
	return "use " + strings.Join(known, ", ")
}

// ParseWeight reads a body weight such as "31.5 kg" or "69 lb" and returns kg. A
// fault is an *diag.InputError.
func ParseWeight(s string) (kg float64, err error) {
	g, err := parseMass(s)
	if err != nil {
		return 0, err
	}
	if g <= 0 {
		return 0, diag.BadInput("not-positive", fmt.Sprintf("a weight of %q cannot be", clip(s)), "write the weight on the scale, like \"31.5 kg\"")
	}
	return g / 1000, nil
}

// parseEnergy reads "1310 kcal" or "5480 kJ" as kcal.
func parseEnergy(s string) (float64, error) {
	x, unit, err := splitQuantity(s)
	if err != nil {
		return 0, err
	}
	switch unit {
	case "kcal":
		return x, nil
	case "kJ":
		return x / kJPerKcal, nil
	case "":
		return 0, diag.BadInput("no-unit", fmt.Sprintf("%q has no unit", clip(s)), fmt.Sprintf("write \"%s kcal\"", strings.TrimSpace(s)))
	}
	return 0, diag.BadInput("unknown-unit", fmt.Sprintf("unknown unit %q of energy", clip(unit)), unitHint(unit, []string{"kcal", "kJ"}))
}

// parsePercent reads "12 %" as 0.12.
func parsePercent(s string) (float64, error) {
	x, unit, err := splitQuantity(s)
	if err != nil {
		return 0, err
	}
	switch unit {
	case "%":
		return x / 100, nil
	case "":
		return 0, diag.BadInput("no-unit", fmt.Sprintf("%q has no unit", clip(s)), fmt.Sprintf("write \"%s %%\"", strings.TrimSpace(s)))
	}
	return 0, diag.BadInput("unknown-unit", fmt.Sprintf("%q is not a share", clip(s)), "write it like \"12 %\"")
}

// parsePrice reads "7.90 per kg" or "4.20 per 100 g" as money per gram.
func parsePrice(s string) (float64, error) {
	sum, per, ok := strings.Cut(s, " per ")
	if !ok {
		return 0, diag.BadInput("price-form", fmt.Sprintf("%q does not say for how much", clip(s)), "write it like \"7.90 per kg\" or \"4.20 per 100 g\"")
	}
	x, unit, err := splitQuantity(sum)
	if err != nil {
		return 0, err
	}
	if unit != "" {
		return 0, diag.BadInput("price-form", fmt.Sprintf("%q is not needed: prices are in the household's own money", clip(unit)), fmt.Sprintf("write \"%s per %s\"", strconv.FormatFloat(x, 'f', -1, 64), per))
	}
	per = strings.TrimSpace(per)
	if _, bare := gramsPerUnit[per]; bare {
		per = "1 " + per
	}
	g, err := parseMass(per)
	if err != nil {
		return 0, err
	}
	if x < 0 || g <= 0 {
		return 0, diag.BadInput("not-positive", fmt.Sprintf("a price of %q cannot be", clip(s)), "write it like \"7.90 per kg\"")
	}
	return x / g, nil
}

// parseMax reads "2 g" or "2 g per day" as grams a day, or "0.3 g per kg" as grams
// per kg of body weight and day.
func parseMax(s string) (perDay, perKg float64, err error) {
	amount, per, _ := strings.Cut(s, " per ")
	g, err := parseMass(amount)
	if err != nil {
		return 0, 0, err
	}
	switch strings.TrimSpace(per) {
	case "", "day":
		return g, 0, nil
	case "kg":
		return 0, g, nil
	}
	return 0, 0, diag.BadInput("max-form", fmt.Sprintf("%q is not a daily amount", clip(s)), "write it like \"2 g\" (a day) or \"0.3 g per kg\" (of body weight and day)")
}
