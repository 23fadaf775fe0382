package text

import (
	"fmt"
	"strings"

	"github.com/mattn/go-runewidth"

	"bowlwright/nutrients"
	"bowlwright/report"
)

// barColumns is the width of a bar in text, one column for each end.
const barColumns = 12

// limitColumns is the width of the limits in text: "0.00386 to 0.0965" finds room.
const limitColumns = 17

// bars writes the table of nutrients: name, amount, bar, limits, known share,
// state.
func (t *textWriter) bars(c *report.Card) {
	t.table(c.Bars, c.Ratios)
	for _, l := range c.LegendMarks() {
		t.line("  ", l)
	}
}

// table writes a row for each nutrient, the ratios, and how to read the bars.
func (t *textWriter) table(bars []report.Bar, ratios []string) {
	columns := layOut(t.width, 25, 9, barColumns, limitColumns, 5, stateColumns)
	for _, b := range bars {
		state, tint := stateCell(b), green
		if !b.Inside {
			tint = red
		}
		t.row(columns, []string{b.Label(), b.Amount, t.bar(b), b.Limits, b.Coverage, state}, tint)
	}
	for _, r := range ratios {
		t.line("  ", r)
	}
	t.line("  ", fmt.Sprintf("%s %s; %s %s; %s %s; | minimum; ] maximum.", baseSign, report.LegendBase, addonSign, report.LegendAddons, unknownSign, report.LegendUnknown))
	t.line("  ", "Beyond the minimum the bar goes by doublings. "+nutrients.Capital(report.LegendKnown))
}

// stateColumns is the width of the state: by how much a limit is missed stands above the
// table.
const stateColumns = 5

// stateCell is the state of a nutrient in a column of the table.
func stateCell(b report.Bar) string {
	switch {
	case b.Inside:
		return b.ShortState()
	case b.NothingKnown:
		return "????"
	case b.High:
		return "above"
	}
	return "below"
}

// Signs of a bar.
const (
	baseSign    = "="
	addonSign   = "+"
	unknownSign = "?"
)

// rowIndent is how far a table stands in, and its second lines.
const (
	rowIndent     = 2
	rowTurnIndent = 6
)

// textColumn is where a column of a table begins and on which line of its row.
type textColumn struct{ line, at int }

// layOut places columns of the given widths beside one another, and on a further
// line those that the width of the terminal does not hold.
func layOut(width int, widths ...int) []textColumn {
	columns := make([]textColumn, len(widths))
	line, at := 0, rowIndent
	for i, w := range widths {
		if at+w > width && i > 0 {
			line, at = line+1, rowTurnIndent
		}
		columns[i] = textColumn{line, at}
		at += w + 1
	}
	return columns
}

// row writes the cells of a row, the last one tinted. No cell is ever cut: after one
// that is wider than its column, the others go on below, each in its own.
func (t *textWriter) row(columns []textColumn, cells []string, tint string) {
	line, at := 0, 0
	for i, cell := range cells {
		to := columns[i]
		if i > 0 && (to.line > line || at >= to.at) {
			t.b.WriteString("\n")
			line, at = to.line, 0
		}
		t.b.WriteString(strings.Repeat(" ", to.at-at))
		cell = report.Clean(cell)
		at = to.at + runewidth.StringWidth(cell)
		if i == len(cells)-1 {
			cell = t.tint(tint, cell)
		}
		t.b.WriteString(cell)
	}
	t.b.WriteString("\n")
}

// bar draws the track in text.
func (t *textWriter) bar(b report.Bar) string {
	cells := strings.Split(strings.Repeat("·", barColumns), "")
	at := func(x float64) int { return min(barColumns-1, int(x*float64(barColumns)+0.5)) }
	fill := func(from, to float64, sign string) {
		for i := at(from); i < at(to) || to == 1 && i == barColumns-1; i++ {
			cells[i] = sign
		}
	}
	fill(b.Addons, b.Unknown, unknownSign)
	fill(b.Base, b.Addons, addonSign)
	fill(0, b.Base, baseSign)
	if b.HasMinimum {
		cells[at(report.MinimumAt)] = "|"
	}
	if b.Maximum > 0 {
		cells[at(b.Maximum)] = "]"
	}
	return strings.Join(cells, "")
}
