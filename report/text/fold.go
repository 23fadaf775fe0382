package text

import (
	"regexp"
	"strings"

	"github.com/mattn/go-runewidth"

	"bowlwright/report"
)

// escapes are what colours a text in a terminal.
var escapes = regexp.MustCompile("\x1b\\[[0-9;]*m")

// columnsOf is the width of a line in a terminal.
func columnsOf(line string) int { return runewidth.StringWidth(escapes.ReplaceAllString(line, "")) }

// gap is what separates the columns of a line.
var gap = regexp.MustCompile(`\S( {2,})\S`)

// Fold breaks a line that is wider than a terminal at its spaces, never between a
// number and its unit; a word is never broken, so that a path can be copied. What goes on stands below the last column of the line that
// begins in its left half, or a little to the right of where the line begins. A line
// that fits comes back as it is.
func Fold(line string, width int) []string {
	if columnsOf(line) <= width {
		return []string{line}
	}
	indent := len(line) - len(strings.TrimLeft(line, " ")) + 2
	for _, at := range gap.FindAllStringSubmatchIndex(line, -1) {
		if end := columnsOf(line[:at[3]]); end <= width/2 {
			indent = end
		}
	}
	indent = min(indent, width/2)
	bound := report.Together(line)
	lead := len(bound) - len(strings.TrimLeft(bound, " "))
	cut := -1
	for i, r := range bound {
		if r == ' ' && i > lead && bound[i-1] != ' ' && columnsOf(bound[:i]) <= width && columnsOf(bound[:i]) > indent {
			cut = i
		}
	}
	if cut < 0 {
		return []string{line}
	}
	folded, line := []string{report.Unbound(bound[:cut])}, ""
	for _, word := range report.Words(bound[cut:]) {
		if line != "" && columnsOf(line)+1+columnsOf(word) > width-indent {
			folded, line = append(folded, strings.Repeat(" ", indent)+report.Unbound(line)), ""
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	return append(folded, strings.Repeat(" ", indent)+report.Unbound(line))
}
