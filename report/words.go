package report

import (
	"regexp"
	"strings"
	"unicode"
)

// NoBreak is the space that a line is not broken at.
const NoBreak = "\u00a0"

// UnitAfter is a number with the unit behind it.
var UnitAfter = regexp.MustCompile(`([\d½¼¾⅓⅔⅛]) (g\b|mg\b|µg|kg\b|kcal\b|cm\b|mm\b|ml\b|tsp\b|tbsp\b|oz\b|lb\b|tablespoon|teaspoon|cup|capsule|°C|%)`)

// Together puts a noBreak between every number and its unit.
func Together(s string) string { return UnitAfter.ReplaceAllString(s, "$1"+NoBreak+"$2") }

// Words are the pieces that a text may be broken into: at its spaces, but not
// between a number and its unit, which read apart could be taken for another
// amount. Within a piece such a space is a noBreak.
func Words(s string) []string {
	return strings.FieldsFunc(Together(s), func(r rune) bool { return r != '\u00a0' && unicode.IsSpace(r) })
}

// Unbound turns the spaces that kept words together into plain ones.
func Unbound(s string) string { return strings.ReplaceAll(s, NoBreak, " ") }

// point is a decimal point between digits.
var point = regexp.MustCompile(`(\d)\.(\d)`)

// WithComma writes the numbers in a text with a decimal comma.
func WithComma(s string) string { return point.ReplaceAllString(s, "$1,$2") }

// Clean takes out what could steer a terminal or turn the writing direction.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case r < ' ', r >= 0x7f && r < 0xa0, r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069, r == 0xfeff:
			return -1
		}
		return r
	}, s)
}

// CleanAll cleans each line.
func CleanAll(lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = Clean(l)
	}
	return out
}
