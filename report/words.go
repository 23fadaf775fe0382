package report

import (
	"regexp"
	"strings"
	"unicode"
)

// noBreak is the space that a line is not broken at.
const noBreak = "\u00a0"

// unitAfter is a number with the unit behind it.
var unitAfter = regexp.MustCompile(`([\d½¼¾⅓⅔⅛]) (g\b|mg\b|µg|kg\b|kcal\b|cm\b|mm\b|ml\b|tsp\b|tbsp\b|oz\b|lb\b|tablespoon|teaspoon|cup|capsule|°C|%)`)

// together puts a noBreak between every number and its unit.
func together(s string) string { return unitAfter.ReplaceAllString(s, "$1"+noBreak+"$2") }

// words are the pieces that a text may be broken into: at its spaces, but not
// between a number and its unit, which read apart could be taken for another
// amount. Within a piece such a space is a noBreak.
func words(s string) []string {
	return strings.FieldsFunc(together(s), func(r rune) bool { return r != '\u00a0' && unicode.IsSpace(r) })
}

// unbound turns the spaces that kept words together into plain ones.
func unbound(s string) string { return strings.ReplaceAll(s, noBreak, " ") }

// point is a decimal point between digits.
var point = regexp.MustCompile(`(\d)\.(\d)`)

// withComma writes the numbers in a text with a decimal comma.
func withComma(s string) string { return point.ReplaceAllString(s, "$1,$2") }

// clean takes out what could steer a terminal or turn the writing direction.
func clean(s string) string {
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

// cleanAll cleans each line.
func cleanAll(lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = clean(l)
	}
	return out
}
