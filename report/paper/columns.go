package paper

import (
	"bowlwright/report"
)

// Measures of a page in two columns, in millimetres: the gap between them, and that
// between an amount and what it is of.
const (
	columnGapMM = 5.0
	amountGapMM = 1.5
)

// columnLine is a line of a text in columns; textAt is where its text begins.
type columnLine struct {
	amount, text string
	textAt       float64
	head, red    bool
}

// lister breaks heads, paragraphs and lists into the lines of a column.
type lister struct {
	page   *page
	points float64
	lines  []columnLine
}

func (p *page) columnWidth() float64 { return (p.inner - columnGapMM) / 2 }

func (l *lister) head(s string) { l.lines = append(l.lines, columnLine{text: s, head: true}) }

func (l *lister) text(s string) {
	l.page.font("", l.points)
	for _, line := range l.page.split(paperText(s), l.page.columnWidth()) {
		l.lines = append(l.lines, columnLine{text: line})
	}
}

// items are amounts and texts beside them.
func (l *lister) items(list []report.Item) {
	at := l.page.amountWidth(list, l.points) + amountGapMM
	l.page.font("", l.points)
	for _, i := range list {
		amount := i.Amount
		for _, line := range l.page.split(paperText(i.Name), l.page.columnWidth()-at) {
			l.lines = append(l.lines, columnLine{amount: amount, text: line, textAt: at})
			amount = ""
		}
	}
}

// headLines is the height of a head in lines: the room above it sets it off.
const headLines = 1.4

// linesHeight is the height of lines below one another, in lines.
func linesHeight(lines []columnLine) float64 {
	h := 0.0
	for _, l := range lines {
		if l.head {
			h += headLines
		} else {
			h++
		}
	}
	return h
}

// columnBreak is how many of the lines go into the left column when it holds at most so
// many lines of height: half of them, but no head stands alone at its foot.
func columnBreak(lines []columnLine, most float64) int {
	half := min(linesHeight(lines)/2, most)
	n := 0
	for n < len(lines) && linesHeight(lines[:n]) < half {
		n++
	}
	if linesHeight(lines[:n]) > most {
		n--
	}
	if n > 1 && n < len(lines) && lines[n-1].head {
		n--
	}
	return max(n, 1)
}

// columnsHeight is the height of lines in two columns in millimetres.
func columnsHeight(lines []columnLine, points float64) float64 {
	n := columnBreak(lines, linesHeight(lines))
	return max(linesHeight(lines[:n]), linesHeight(lines[n:])) * vetLine(points)
}

// columns draws lines in two columns, and goes on on the next page where one is full.
func (p *page) columns(lines []columnLine, points float64) {
	h := vetLine(points)
	for len(lines) > 0 {
		p.need(headLines * h)
		most := (p.bottom - p.y + dustMM) / h
		left := columnBreak(lines, most)
		right := len(lines) - left
		for right > 0 && linesHeight(lines[left:left+right]) > most {
			right--
		}
		top, x := p.y, p.left+p.columnWidth()+columnGapMM
		p.column(lines[:left], p.left, top, points)
		p.column(lines[left:left+right], x, top, points)
		p.y = top + max(linesHeight(lines[:left]), linesHeight(lines[left:left+right]))*h
		lines = lines[left+right:]
	}
}

func (p *page) column(lines []columnLine, x, y, points float64) {
	w, h := p.columnWidth(), vetLine(points)
	for _, l := range lines {
		switch {
		case l.head:
			p.gray(0)
			y += (headLines - 1) * h
			p.text(x, y, w, l.text, "B", points, "L")
		case l.textAt > 0:
			p.gray(0)
			if l.amount != "" {
				p.text(x, y, l.textAt-amountGapMM, l.amount, "B", points, "R")
			}
			p.text(x+l.textAt, y, w-l.textAt, l.text, "", points, "L")
		default:
			p.gray(30)
			if l.red {
				p.red()
			}
			p.text(x, y, w, l.text, "", points, "L")
		}
		y += h
	}
}
