package paper

import (
	"math"
	"strings"

	"github.com/jung-kurt/gofpdf"

	"bowlwright/report"
)

// Heights of a row of bars in millimetres: rows shrink from the first to the last
// before the bars move to the next page; the add-ons grow until rows are at the second.
const (
	barRowMM      = 5.3
	easyBarRowMM  = 4.3
	leastBarRowMM = 3.0
)

// barRows is how many bars stand below one another.
func barRows(c *report.Card) int { return (len(c.Bars) + 1) / 2 }

// insidePoints is the type of the line that says whether all is inside.
const insidePoints = 11.0

// nutrients draws the bars in two columns; rows shrink to leave room for the rest.
func (p *page) nutrients(c *report.Card) {
	const gap = 5.0
	col := (p.inner - gap) / 2
	rows := barRows(c)
	least := float64(rows)*leastBarRowMM + p.legendHeight(c)
	p.need(least)
	for p.rulesType > leastRulePoints && p.y+least+p.footHeight(c) > p.bottom {
		p.rulesType -= 0.25
	}
	room := p.bottom - p.y - p.legendHeight(c) - p.footHeight(c)
	rowH := min(barRowMM, max(leastBarRowMM, room/float64(max(rows, 1))))
	p.gray(0)
	p.y += p.text(p.left, p.y, p.inner, c.Inside, "B", insidePoints, "L") + 0.6
	for i, b := range c.Bars {
		p.bar(p.left+float64(i/rows)*(col+gap), p.y+float64(i%rows)*rowH, col, rowH, b)
	}
	p.y += float64(rows)*rowH + 1
	for _, r := range c.Ratios {
		p.gray(40)
		p.y += p.text(p.left, p.y, p.inner, r, "", 7, "L")
	}
	p.gray(90)
	p.y += p.paragraph(p.left, p.y, p.inner, legendOnPaper(c), "", legendPoints)
	p.y++
	p.rule()
}

// legendHeight measures the title over the bars and the lines under them.
func (p *page) legendHeight(c *report.Card) float64 {
	h := insidePoints*pointInMM*lineFactor + 0.6 + 1 + 1 + 1.5 + float64(len(c.Ratios))*7*pointInMM*lineFactor
	return h + p.measure(p.inner, legendOnPaper(c), "", legendPoints)
}

// legendPoints is the type of the lines that say how to read the bars.
const legendPoints = 6.5

func legendOnPaper(c *report.Card) string { return strings.Join(c.LegendWith("Hatched"), "  ") }

// The bars of a half-size card: columns, the height of a row in millimetres, from the
// one down to the least, which is printed as 5.3 points, and the type in points.
const (
	smallBarsAcross    = 3
	smallBarRowMM      = 4.6
	leastSmallBarRowMM = 3.3
	smallBarPoints     = 8.5
)

// smallBarRow is the height of a row of small bars that leaves room for the rest of
// the card: rows give way to the rules, then the rules to the rows, each down to its
// least; fits is false where that is not enough.
func (p *page) smallBarRow(c *report.Card) (rowH float64, fits bool) {
	const rule = 2.0
	rows := float64(smallBarRows(c))
	row := func() float64 { return (p.bottom - p.y - p.footHeight(c) - rule - 1) / rows }
	usual := p.rulesType
	for p.rulesType > leastRulePoints && row() < leastSmallBarRowMM {
		p.rulesType -= 0.25
	}
	if row() < leastSmallBarRowMM {
		p.rulesType = usual
		return 0, false
	}
	return min(smallBarRowMM, row()), true
}

func smallBarRows(c *report.Card) int { return (len(c.Bars) + smallBarsAcross - 1) / smallBarsAcross }

// smallBars draws the bars alone, without figures, in rows of a height.
func (p *page) smallBars(c *report.Card, rowH float64) {
	const gap = 4.0
	col := (p.inner - (smallBarsAcross-1)*gap) / smallBarsAcross
	rows := smallBarRows(c)
	points := min(smallBarPoints, rowH/pointInMM/lineFactor)
	for i, b := range c.Bars {
		x, y := p.left+float64(i/rows)*(col+gap), p.y+float64(i%rows)*rowH
		p.gray(0)
		p.text(x, y+(rowH-points*pointInMM*lineFactor)/2, col*0.58, b.Label(), styleOf(b), points, "L")
		p.track(x+col*0.6, y, col*0.4, rowH, b)
	}
	p.y += float64(rows)*rowH + 1
}

// styleOf sets off what is not inside.
func styleOf(b report.Bar) string {
	if b.Inside {
		return ""
	}
	return "B"
}

// bar draws one nutrient: name, track with limits and mark, amount and limits.
func (p *page) bar(x, y, w, h float64, b report.Bar) {
	nameW, trackW := w*0.35, w*0.18
	textW := w - nameW - trackW - 3
	size := min(7.8, h/pointInMM/1.3)
	p.gray(0)
	ty := y + (h-size*pointInMM*lineFactor)/2
	p.text(x, ty, nameW, b.Label(), styleOf(b), size, "L")
	p.track(x+nameW+1, y, trackW, h, b)
	p.gray(30)
	label := b.Amount + "  (" + b.Limits + ")"
	switch {
	case b.NothingKnown:
		label = "UNKNOWN (" + b.Limits + ")"
	case b.State != "met":
		label = b.Amount + " " + report.ShortState(b.State) + " (" + b.Limits + ")"
	}
	p.text(x+nameW+1+trackW+2, ty, textW, label, styleOf(b), size*0.93, "L")
}

// track draws the three zones, the limits that there are, the mark, and as a
// hatched piece what is unknown.
func (p *page) track(x, y, w, h float64, b report.Bar) {
	// The strokes of the limits reach over the track, and out of a mark that lies on
	// them.
	th := h * 0.46
	over := h * 0.2
	top := y + (h-th)/2
	p.drew(x, top, w, th)
	p.pdf.SetLineWidth(0.15)
	p.pdf.SetFillColor(236, 236, 236)
	p.pdf.Rect(x, top, w, th, "F")
	p.pdf.SetFillColor(200, 224, 207)
	start, end := b.Band()
	p.pdf.Rect(x+start*w, top, (end-start)*w, th, "F")
	from, to := b.Hatched()
	p.hatch(x+from*w, top, (to-from)*w, th)
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.35)
	if b.HasLower {
		p.pdf.Line(x+report.LowerAt*w, top-over, x+report.LowerAt*w, top+th+over)
	}
	if b.HasUpper {
		p.pdf.Line(x+report.UpperAt*w, top-over, x+report.UpperAt*w, top+th+over)
	}
	if b.NothingKnown {
		return
	}
	p.pdf.SetFillColor(20, 70, 40)
	if !b.Inside {
		p.pdf.SetFillColor(180, 30, 0)
	}
	r := th * 0.6
	p.pdf.Polygon(diamond(min(max(x+b.At*w, x+r), x+w-r), top+th/2, r), "F")
}

func diamond(x, y, r float64) []gofpdf.PointType {
	return []gofpdf.PointType{{X: x - r, Y: y}, {X: x, Y: y - r}, {X: x + r, Y: y}, {X: x, Y: y + r}}
}

// hatch fills a piece of the track with strokes: nobody knows.
func (p *page) hatch(x, y, w, h float64) {
	if w <= 0 {
		return
	}
	p.pdf.SetDrawColor(120, 120, 120)
	p.pdf.SetLineWidth(0.15)
	p.pdf.Rect(x, y, w, h, "D")
	for s := 0.8; s < w+h; s += 0.9 {
		x1, y1 := x+math.Min(s, w), y+math.Max(0, s-w)
		x2, y2 := x+math.Max(0, s-h), y+math.Min(s, h)
		p.pdf.Line(x1, y1, x2, y2)
	}
}
