package sheet

import (
	"strconv"
	"strings"
)

// A spreadsheet takes a cell that begins with one of these for a formula and runs it; an
// apostrophe before it makes it text (common practice).
const formula = "=+-@\t\r"

// guarded writes a cell that a spreadsheet would run as text; numbers stay numbers. A
// cell that looks guarded already gets one more apostrophe, so that unguarded gives back
// what was there.
func guarded(cell string) string {
	if _, err := strconv.ParseFloat(cell, 64); err == nil {
		return cell
	}
	if rest := strings.TrimLeft(cell, "'"); rest != "" && strings.ContainsRune(formula, rune(rest[0])) {
		return "'" + cell
	}
	return cell
}

// unguarded takes the apostrophe away again.
func unguarded(cell string) string {
	if rest := strings.TrimLeft(cell, "'"); rest != cell && rest != "" && strings.ContainsRune(formula, rune(rest[0])) {
		return cell[1:]
	}
	return cell
}
