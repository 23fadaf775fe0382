package report

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// number writes an amount with three significant digits, four from a thousand
// on, without an exponent and without trailing zeros after the point.
func number(x float64) string {
	if x == 0 {
		return "0"
	}
	digits := 2 - int(math.Floor(math.Log10(math.Abs(x))))
	digits = min(max(digits, 0), 6)
	s := strconv.FormatFloat(x, 'f', digits, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// unitText is a canonical unit as people read it.
func unitText(unit string) string {
	if unit == "ug" {
		return "µg"
	}
	return unit
}

// grams writes a weighed amount exactly as it is to be weighed.
func grams(g float64) string {
	// Amounts are whole numbers of a scale step; six digits undo the dust of
	// doubles and hide nothing that a scale could show.
	s := strconv.FormatFloat(g, 'f', 4, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	return s + " g"
}

// point is a decimal point between digits.
var point = regexp.MustCompile(`(\d)\.(\d)`)

// withComma writes the numbers in a text with a decimal comma.
func withComma(s string) string { return point.ReplaceAllString(s, "$1,$2") }
