package text

import (
	"strings"

	"github.com/mattn/go-runewidth"

	"bowlwright/report"
)

// barColumns is the width of a bar in text, one column for each end.
const barColumns = 13

// limitColumns is the width of the limits in text: "0.00386 to 0.0965" finds room, and
// the row ends with the eightieth column.
const limitColumns = 17

// bars writes the table of nutrients: name, amount, bar, limits, known share,
// state.
func (t *textWriter) bars(c *report.Card) {
	t.line("  ", c.Inside)
	t.table(c.Bars, c.Ratios)
	for _, l := range c.LegendWith("Question marks") {
		t.line("  ", l)
	}
}

// table writes a row for each nutrient, and the ratios.
func (t *textWriter) table(bars []report.Bar, ratios []string) {
	columns := layOut(t.width, 25, 10, barColumns, limitColumns, 4, 4)
	for _, b := range bars {
		label := b.Name
		if b.Recalled {
			label += "†"
		}
		state, tint := report.ShortState(b.State), green
		if !b.Inside {
			tint = red
		}
		t.row(columns, []string{label, b.Amount, t.bar(b), b.Limits, b.Coverage, state}, tint)
	}
	for _, r := range ratios {
		t.line("  ", r)
	}
	t.line("  ", "Per cent: the share of the food, by weight, whose figure is known.")
}

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

// bar draws the track in text: the limits as strokes, the amount as a mark, what
// is unknown as question marks.
func (t *textWriter) bar(b report.Bar) string {
	cells := []rune(strings.Repeat("·", barColumns))
	if b.NothingKnown {
		cells = []rune(strings.Repeat("?", barColumns))
	}
	at := func(x float64) int { return min(barColumns-1, int(x*float64(barColumns-1)+0.5)) }
	if !b.NothingKnown {
		end := at(b.At)
		for i := range end {
			cells[i] = '='
		}
		for i := end + 1; i < barColumns && i <= end+int(b.Unknown*float64(barColumns)/3+0.5); i++ {
			cells[i] = '?'
		}
	}
	if b.HasLower {
		cells[at(report.LowerAt)] = '|'
	}
	if b.HasUpper {
		cells[at(report.UpperAt)] = '|'
	}
	if !b.NothingKnown {
		cells[at(b.At)] = 'o'
	}
	return string(cells)
}
