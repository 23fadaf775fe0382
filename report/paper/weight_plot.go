package paper

import (
	"bowlwright/household"
	"bowlwright/report"
)

// plotHeightMM is the height of the plot of the weighings.
const plotHeightMM = 14.0

// weightPlot draws the weighings with the first and the last in words.
func (p *page) weightPlot(ws []household.WeighIn) {
	if len(ws) == 0 {
		return
	}
	const dot = 0.6
	x, w := p.left, p.inner
	p.need(lineMM(8) + plotHeightMM + 2)
	y := p.y
	p.gray(40)
	h := p.text(x, y, w, report.WeightText(ws), "", 8, "L") + 1
	p.y += h + plotHeightMM + 2
	if p.rehearsing {
		return
	}
	p.pdf.SetDrawColor(190, 190, 190)
	p.pdf.SetLineWidth(0.15)
	p.pdf.Rect(x, y+h, w, plotHeightMM, "D")
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetFillColor(0, 0, 0)
	p.pdf.SetLineWidth(0.4)
	at := func(q report.Point) (float64, float64) {
		return x + 1.5 + q.X*(w-3), y + h + 1.5 + q.Y*(plotHeightMM-3)
	}
	points := report.WeightPoints(ws)
	for i, q := range points {
		px, py := at(q)
		if i > 0 {
			ox, oy := at(points[i-1])
			p.pdf.Line(ox, oy, px, py)
		}
		p.pdf.Circle(px, py, dot, "F")
	}
}
