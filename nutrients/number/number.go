// Package number writes numbers for people: the one place that decides how many digits
// stand in a text. No number has an exponent or ends in zeros after its point.
package number

import (
	"math"
	"strconv"
	"strings"
)

// shortDigits are the significant digits of an amount, and of the arithmetic of limits
// one more.
const shortDigits = 3

// mostDecimals keep a number that is next to nothing from filling a line.
const mostDecimals = 9

// Short writes an amount with three significant digits and all that stand before the
// point.
func Short(x float64) string { return Digits(x, shortDigits) }

// Digits writes a number with so many significant digits and all that stand before the
// point.
func Digits(x float64, significant int) string {
	if x == 0 {
		return "0"
	}
	decimals := significant - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	return trimmed(strconv.FormatFloat(x, 'f', min(max(decimals, 0), mostDecimals), 64))
}

// Decimals writes a number with at most so many digits after the point.
func Decimals(x float64, most int) string { return trimmed(strconv.FormatFloat(x, 'f', most, 64)) }

// Exact writes a number with as many digits as it takes to read it back.
func Exact(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// mostApart are the most digits that are spent to tell an amount from a limit.
const mostApart = 5

// Apart writes an amount and the limit that it misses so that they look different.
func Apart(x, limit float64) (amount, bound string) {
	for digits := shortDigits; digits <= mostApart; digits++ {
		if a, b := Digits(x, digits), Digits(limit, digits); a != b {
			return a, b
		}
	}
	switch near := Short(limit); {
	case x < limit:
		return "under " + near, near
	case x > limit:
		return "over " + near, near
	default:
		return near, near
	}
}

func trimmed(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
