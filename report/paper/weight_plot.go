package paper

import (
	"bowlwright/household"
	"bowlwright/report"
)

// plotHeightMM is the height of the plot of the weighings.
const plotHeightMM = 17.0

// weightPlot draws the weighings with the first and the last in words, and returns
// the height it took.
func (p *page) weightPlot(ws []household.WeighIn, x, y, w float64) float64 {
	if len(ws) == 0 {
		return 0
	}
	const dot = 0.6
	p.gray(40)
	h := p.text(x, y, w, report.WeightText(ws), "", 7.5*p.zoom, "L") + 1
	if p.rehearsing {
		return h + plotHeightMM + 2
	}
	p.pdf.SetDrawColor(190, 190, 190)
	p.pdf.SetLineWidth(0.15)
	p.pdf.Rect(x, y+h, w, plotHeightMM, "D")
	p.pdf.SetDrawColor(20, 70, 40)
	p.pdf.SetFillColor(20, 70, 40)
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
	return h + plotHeightMM + 2
}
