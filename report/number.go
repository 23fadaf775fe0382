package report

import (
	"math"
	"strconv"
	"strings"

	"bowlwright/household"
)

// Significant digits: of an amount, of a weight, and the most that are spent to tell
// an amount from the limit that it misses.
const (
	usualDigits  = 3
	weightDigits = 4
	mostDigits   = 5
)

// number writes an amount with three significant digits, all that stand before the
// point, without an exponent and without trailing zeros after the point.
func number(x float64) string { return figure(x, usualDigits) }

// apart writes an amount and the limit that it misses so that they look different.
func apart(x, limit float64) (string, string) {
	for digits := usualDigits; digits <= mostDigits; digits++ {
		if a, b := figure(x, digits), figure(limit, digits); a != b {
			return a, b
		}
	}
	switch near := number(limit); {
	case x < limit:
		return "under " + near, near
	case x > limit:
		return "over " + near, near
	default:
		return near, near
	}
}

// against writes an amount and its limits, "" for what there is not; a limit that is
// missed is written with as many digits as show that it is.
func against(amount, lower, upper *float64, state household.State) (a, low, high string) {
	write := func(x *float64) string {
		if x == nil {
			return ""
		}
		return number(*x)
	}
	a, low, high = write(amount), write(lower), write(upper)
	switch {
	case amount == nil:
	case state == household.StateLow && lower != nil:
		a, low = apart(*amount, *lower)
	case state == household.StateHigh && upper != nil:
		a, high = apart(*amount, *upper)
	}
	return a, low, high
}

// kilos writes the weight of an animal as a scale shows it.
func kilos(kg float64) string { return figure(kg, weightDigits) }

func figure(x float64, significant int) string {
	if x == 0 {
		return "0"
	}
	digits := significant - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	digits = min(max(digits, 0), significant+3)
	s := strconv.FormatFloat(x, 'f', digits, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// UnitText is a canonical unit as people read it.
func UnitText(unit string) string {
	if unit == "ug" {
		return "µg"
	}
	return unit
}

// Grams writes a weighed amount exactly as it is to be weighed.
func Grams(g float64) string {
	// Amounts are whole numbers of a scale step; six digits undo the dust of
	// doubles and hide nothing that a scale could show.
	s := strconv.FormatFloat(g, 'f', 4, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	return s + " g"
}
