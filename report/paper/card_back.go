package paper

import (
	"fmt"
	"math"
	"strings"

	"github.com/jung-kurt/gofpdf"

	"bowlwright/report"
)

// Rows of the back in millimetres: as high as the page holds, between the two.
const (
	mostBackRowMM  = 4.7
	leastBackRowMM = 3.5
	backPoints     = 8.5
)

// back draws all nutrients of the day, and what the front had no room for.
func (p *page) back(c *report.Card) {
	p.gray(0)
	head := lineMM(24)
	p.text(p.left, p.y, p.inner*0.5, nameOnPaper(c), "B", 24, "L")
	p.text(p.left+p.inner*0.5, p.y+head-lineMM(11)-1, p.inner*0.5, "all nutrients of a day · base "+c.BaseCode, "B", 11, "R")
	p.y += head
	p.hline(p.left, p.y, p.inner, 0.5, 0)
	p.y += 1.5
	if void := report.Void(c.Notices); void {
		p.y += p.text(p.left, p.y, p.inner, report.OutOfDateTitle+": see the front", "B", 13, "L") + 1
	}
	p.y += p.paragraph(p.left, p.y, p.inner, c.Verdict, "B", 11) + 1.5
	p.legend()
	groups := 0
	for _, g := range report.Groups {
		if len(inGroup(c.Bars, g)) > 0 {
			groups++
		}
	}
	tail := p.backTail(c)
	rest, _ := p.rehearse(func() { p.tail(c, tail) })
	row := (p.bottom - p.y - rest - 2 - float64(groups)*1.2) / (float64(len(c.Bars)) + 1.2*float64(groups))
	row = min(mostBackRowMM, max(leastBackRowMM, row))
	for _, g := range report.Groups {
		bars := inGroup(c.Bars, g)
		if len(bars) == 0 {
			continue
		}
		p.need(3 * row)
		p.groupHead(g, row*1.2)
		for _, b := range bars {
			before := p.area
			if p.need(row); p.area != before {
				p.groupHead(g, row*1.2)
			}
			p.nutrient(b, row)
		}
		p.y += 1.2
	}
	p.y++
	p.tail(c, tail)
}

// backTail is what stands below the table.
func (p *page) backTail(c *report.Card) []string {
	var lines []string
	if len(c.Ratios) > 0 {
		lines = append(lines, strings.Join(c.Ratios, "; ")+".")
	}
	return append(lines, strings.Join(append(c.LegendMarks(), report.LegendKnown), " "))
}

func (p *page) tail(c *report.Card, lines []string) {
	for _, l := range lines {
		p.need(p.measure(p.inner, l, "", 8))
		p.gray(0)
		p.y += p.paragraph(p.left, p.y, p.inner, l, "", 8)
	}
	p.weightPlot(c.Weights)
	if p.notesOnBack {
		p.y++
		p.notes(c, p.left, p.inner)
	}
}

func inGroup(bars []report.Bar, group string) []report.Bar {
	var some []report.Bar
	for _, b := range bars {
		if b.Group == group {
			some = append(some, b)
		}
	}
	return some
}

// legend says how to read the bars.
func (p *page) legend() {
	const points, pad = 8.0, 2.0
	textW := p.inner*0.55 - 2*pad
	h := max(4*(lineMM(points)+0.7), p.measure(textW, report.LegendScale, "", points)) + 2*pad
	p.frame(p.left, p.y, p.inner, h, 0.15)
	y := p.y + pad
	for i, s := range []string{report.LegendBase, report.LegendAddons, report.LegendUnknown, report.LegendLimits} {
		x, th := p.left+pad, 2.2
		top := y + (lineMM(points)-th)/2
		switch i {
		case 0:
			p.fill(x, top, 10, th, baseGray, baseGray, baseGray)
		case 1:
			p.striped(x, top, 10, th)
		case 2:
			p.dotted(x, top, 10, th)
		case 3:
			p.minimum(x+1, top, th)
			p.bracket(x+9, top, th)
		}
		p.gray(0)
		p.text(x+13, y, p.inner*0.42-15, s, "", points, "L")
		y += lineMM(points) + 0.7
	}
	p.gray(0)
	p.paragraph(p.left+p.inner*0.45, p.y+pad, textW, report.LegendScale, "", points)
	p.y += h + 2
}

// Columns of the back as shares of the width: name, amount, unit, track, minimum, maximum,
// known.
var backColumns = []float64{0.23, 0.09, 0.05, 0.385, 0.085, 0.085, 0.075}

func (p *page) backColumn(i int) (x, w float64) {
	x = p.left
	for _, share := range backColumns[:i] {
		x += share * p.inner
	}
	return x, backColumns[i] * p.inner
}

// trackGapMM keeps the scale clear of the figures behind it.
const trackGapMM = 6.0

// groupHead heads a group of nutrients with the scale.
func (p *page) groupHead(name string, h float64) {
	p.gray(0)
	y := p.y + h - lineMM(backPoints+1) - 0.3
	p.text(p.left, y, p.inner*0.3, name, "B", backPoints+1, "L")
	x, w := p.backColumn(3)
	small := 7.5
	label := func(at float64, s string) {
		p.text(x+at*(w-trackGapMM)-8, y+0.4, 16, s, "", small, "C")
	}
	label(report.MinimumAt, "minimum")
	for _, times := range []float64{4, 8, 16, 32} {
		label(report.PlaceOf(times), fmt.Sprintf("× %.0f", times))
	}
	for i, s := range []string{"minimum", "maximum", "known"} {
		cx, cw := p.backColumn(4 + i)
		p.text(cx, y+0.4, cw, s, "", small, "R")
	}
	ax, aw := p.backColumn(1)
	p.text(ax, y+0.4, aw, "a day", "", small, "R")
	p.y += h
	p.hline(p.left, p.y, p.inner, 0.2, 0)
}

// nutrient draws a row: figures and bar; what misses a limit is bold and says so.
func (p *page) nutrient(b report.Bar, row float64) {
	points := min(backPoints, row/pointInMM/1.2)
	style := ""
	if !b.Inside {
		style = "B"
	}
	y := p.y + (row-lineMM(points))/2
	p.gray(0)
	cell := func(i int, s, style, align string) {
		x, w := p.backColumn(i)
		p.text(x, y, w-0.8, s, style, points, align)
	}
	name := b.Label()
	if !b.Inside && !b.NothingKnown {
		name += ": " + b.State
	}
	cell(0, name, style, "L")
	figure, unit := b.Figure, b.Unit
	if b.NothingKnown {
		figure, unit = "unknown", ""
	}
	cell(1, figure, "B", "R")
	cell(2, unit, "", "L")
	cell(4, dash(b.Lower), style, "R")
	cell(5, dash(b.Upper), style, "R")
	known := b.Coverage
	if b.LittleKnown {
		cell(6, "◂ "+known, "B", "R")
	} else {
		cell(6, known, "", "R")
	}
	x, w := p.backColumn(3)
	p.track(x, p.y, w-trackGapMM, row, b)
	p.y += row
}

// dash stands for a limit that there is not.
func dash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

// baseGray is the base's part of a bar, 3.4 to 1 against white.
const baseGray = 0x8c

// track draws a bar: the base solid, the add-ons striped, the unknown dotted, the minimum
// as a line and the maximum as a bracket, with thin lines at the doublings.
func (p *page) track(x, y, w, h float64, b report.Bar) {
	if p.rehearsing {
		return
	}
	th := min(h*0.48, 2.4)
	top := y + (h-th)/2
	p.drew(x, top, w, th)
	p.pdf.SetDrawColor(205, 205, 205)
	p.pdf.SetLineWidth(0.12)
	for _, times := range []float64{2, 4, 8, 16, 32} {
		at := x + report.PlaceOf(times)*w
		p.pdf.Line(at, y+0.2, at, y+h-0.2)
	}
	p.dotted(x+b.Addons*w, top, (b.Unknown-b.Addons)*w, th)
	p.striped(x+b.Base*w, top, (b.Addons-b.Base)*w, th)
	p.fill(x, top, b.Base*w, th, baseGray, baseGray, baseGray)
	if b.HasMinimum {
		p.minimum(x+report.MinimumAt*w, y, h)
		// The strip under the bar is where it may end.
		end := x + w
		if b.Maximum > 0 {
			end = x + b.Maximum*w
		}
		p.hline(x+report.MinimumAt*w, top+th+0.35, end-x-report.MinimumAt*w, 0.3, 0x76)
	}
	if b.Maximum > 0 {
		p.bracket(x+b.Maximum*w, top, th)
	}
}

// minimum is the line that a bar has to reach.
func (p *page) minimum(x, y, h float64) {
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.55)
	p.pdf.Line(x, y, x, y+h)
}

// bracket is the maximum.
func (p *page) bracket(x, y, h float64) {
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.45)
	p.pdf.Line(x, y-0.4, x, y+h+0.4)
	p.pdf.Line(x-0.9, y-0.4, x, y-0.4)
	p.pdf.Line(x-0.9, y+h+0.4, x, y+h+0.4)
}

// striped fills the part of the add-ons.
func (p *page) striped(x, y, w, h float64) {
	if w <= 0 || p.rehearsing {
		return
	}
	p.pdf.SetDrawColor(accent[0], accent[1], accent[2])
	p.pdf.SetLineWidth(0.3)
	for s := 0.6; s < w+h; s += 1.1 {
		x1, y1 := x+math.Min(s, w), y+math.Max(0, s-w)
		x2, y2 := x+math.Max(0, s-h), y+math.Min(s, h)
		p.pdf.Line(x1, y1, x2, y2)
	}
	p.pdf.SetLineWidth(0.2)
	p.pdf.Rect(x, y, w, h, "D")
}

// dotted is what nobody knows.
func (p *page) dotted(x, y, w, h float64) {
	if w <= 0 || p.rehearsing {
		return
	}
	p.pdf.SetFillColor(120, 120, 120)
	for at := 0.5; at < w; at += 0.95 {
		for down := 0.45; down < h; down += 0.8 {
			p.pdf.Rect(x+at, y+down, 0.28, 0.28, "F")
		}
	}
	p.pdf.SetDrawColor(120, 120, 120)
	p.pdf.SetLineWidth(0.12)
	p.pdf.SetDashPattern([]float64{0.5, 0.5}, 0)
	p.pdf.Rect(x, y, w, h, "D")
	p.pdf.SetDashPattern(nil, 0)
}

// corners are the points of a polygon.
func corners(xy ...float64) []gofpdf.PointType {
	var all []gofpdf.PointType
	for i := 0; i+1 < len(xy); i += 2 {
		all = append(all, gofpdf.PointType{X: xy[i], Y: xy[i+1]})
	}
	return all
}
