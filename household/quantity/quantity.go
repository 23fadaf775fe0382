// Package quantity reads amounts as people write them: a number and a unit. What is
// wrong with one is a *diag.InputError that says what to write instead.
package quantity

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/nutrients/number"
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

// Split reads a number and what stands behind it.
func Split(s string) (x float64, unit string, err error) {
	s = strings.TrimSpace(strings.Map(func(r rune) rune {
		if r == '\u00a0' || r == '\u202f' || r == '\u2009' {
			return ' '
		}
		return r
	}, s))
	if m := commaNumber.FindStringSubmatch(s); m != nil {
		return 0, "", diag.BadInput("decimal-comma", fmt.Sprintf("%q has a decimal comma", diag.Clip(s)),
			fmt.Sprintf("use a decimal point: \"%s.%s%s\"", m[1], m[2], m[3]))
	}
	if m := fraction.FindStringSubmatch(s); m != nil {
		a, _ := strconv.ParseFloat(m[1], 64)
		b, _ := strconv.ParseFloat(m[2], 64)
		hint := "use a decimal number"
		if b > 0 {
			hint = fmt.Sprintf("use a decimal number: \"%s%s\"", strconv.FormatFloat(a/b, 'g', 4, 64), m[3])
		}
		return 0, "", diag.BadInput("not-a-number", fmt.Sprintf("%q is a fraction", diag.Clip(s)), hint)
	}
	m := numberThenUnit.FindStringSubmatch(s)
	if m == nil {
		return 0, "", diag.BadInput("not-a-number", fmt.Sprintf("%q does not begin with a number", diag.Clip(s)), "write a number and a unit, like \"4.2 kg\"")
	}
	x, perr := strconv.ParseFloat(m[1], 64)
	if perr != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		return 0, "", diag.BadInput("not-a-number", fmt.Sprintf("%q is not a number that can be used", diag.Clip(s)), "write a number and a unit, like \"4.2 kg\"")
	}
	return x, strings.TrimSpace(m[2]), nil
}

// Mass reads "4.2 kg" as grams. The sign is the caller's to judge.
func Mass(s string) (float64, error) {
	x, unit, err := Split(s)
	if err != nil {
		return 0, err
	}
	return MassOf(x, unit)
}

// MassOf returns the grams of x of a unit in which people weigh.
func MassOf(x float64, unit string) (float64, error) {
	if unit == "" {
		n := strconv.FormatFloat(x, 'f', -1, 64)
		return 0, diag.BadInput("no-unit", n+" has no unit", fmt.Sprintf("write what it is: \"%s kg\" or \"%s g\"", n, n))
	}
	per, ok := gramsPerUnit[unit]
	if !ok {
		return 0, diag.BadInput("unknown-unit", fmt.Sprintf("unknown unit %q", diag.Clip(unit)), unitHint(unit, massUnits))
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

// Weight reads a body weight such as "31.5 kg" or "69 lb" and returns kg. A
// fault is an *diag.InputError.
func Weight(s string) (kg float64, err error) {
	g, err := Mass(s)
	if err != nil {
		return 0, err
	}
	if g <= 0 {
		return 0, diag.BadInput("not-positive", fmt.Sprintf("a weight of %q cannot be", diag.Clip(s)), "write the weight on the scale, like \"31.5 kg\"")
	}
	return g / 1000, nil
}

// Energy reads "1310 kcal" or "5480 kJ" as kcal.
func Energy(s string) (float64, error) {
	x, unit, err := Split(s)
	if err != nil {
		return 0, err
	}
	switch unit {
	case "kcal":
		return x, nil
	case "kJ":
		return x / kJPerKcal, nil
	case "":
		return 0, diag.BadInput("no-unit", fmt.Sprintf("%q has no unit", diag.Clip(s)), fmt.Sprintf("write \"%s kcal\"", strings.TrimSpace(s)))
	}
	return 0, diag.BadInput("unknown-unit", fmt.Sprintf("unknown unit %q of energy", diag.Clip(unit)), unitHint(unit, []string{"kcal", "kJ"}))
}

// Share reads "12 %" as 0.12.
func Share(s string) (float64, error) {
	x, unit, err := Split(s)
	if err != nil {
		return 0, err
	}
	switch unit {
	case "%":
		return x / 100, nil
	case "":
		return 0, diag.BadInput("no-unit", fmt.Sprintf("%q has no unit", diag.Clip(s)), fmt.Sprintf("write \"%s %%\"", strings.TrimSpace(s)))
	}
	return 0, diag.BadInput("unknown-unit", fmt.Sprintf("%q is not a share", diag.Clip(s)), "write it like \"12 %\"")
}

// PricePerGram reads "7.90 per kg" or "4.20 per 100 g" as money per gram.
func PricePerGram(s string) (float64, error) {
	sum, per, ok := strings.Cut(s, " per ")
	if !ok {
		return 0, diag.BadInput("price-form", fmt.Sprintf("%q does not say for how much", diag.Clip(s)), "write it like \"7.90 per kg\" or \"4.20 per 100 g\"")
	}
	x, unit, err := Split(sum)
	if err != nil {
		return 0, err
	}
	if unit != "" {
		return 0, diag.BadInput("price-form", fmt.Sprintf("%q is not needed: prices are in the household's own money", diag.Clip(unit)), fmt.Sprintf("write \"%s per %s\"", strconv.FormatFloat(x, 'f', -1, 64), per))
	}
	per = strings.TrimSpace(per)
	if _, bare := gramsPerUnit[per]; bare {
		per = "1 " + per
	}
	g, err := Mass(per)
	if err != nil {
		return 0, err
	}
	if x < 0 || g <= 0 {
		return 0, diag.BadInput("not-positive", fmt.Sprintf("a price of %q cannot be", diag.Clip(s)), "write it like \"7.90 per kg\"")
	}
	return x / g, nil
}

// DailyMax reads "2 g" or "2 g per day" as grams a day, or "0.3 g per kg" as grams
// per kg of body weight and day.
func DailyMax(s string) (perDay, perKg float64, err error) {
	amount, per, _ := strings.Cut(s, " per ")
	g, err := Mass(amount)
	if err != nil {
		return 0, 0, err
	}
	switch strings.TrimSpace(per) {
	case "", "day":
		return g, 0, nil
	case "kg":
		return 0, g, nil
	}
	return 0, 0, diag.BadInput("max-form", fmt.Sprintf("%q is not a daily amount", diag.Clip(s)), "write it like \"2 g\" (a day) or \"0.3 g per kg\" (of body weight and day)")
}

// IsMass says whether a unit is one in which people weigh.
func IsMass(unit string) bool {
	_, ok := gramsPerUnit[unit]
	return ok
}

// Text writes a number with up to six digits and no trailing zeros.
func Text(x float64) string { return number.Digits(x, 6) }
