package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/jung-kurt/gofpdf"

	"bowlwright/household"
)

// The plot of the weighings, in millimetres, and the least span in kg that its
// height stands for, as a share of the weight: so that the noise of the scale does
// not look like a trend.
const (
	plotHeightMM   = 17.0
	leastPlotShare = 0.06
	plotWeighings  = 12
)

// weightsOf returns the newest weighings of a pet in the order of their days, none
// when there are fewer than two days.
func weightsOf(pet string, log []household.WeighIn) []household.WeighIn {
	var own []household.WeighIn
	for _, w := range log {
		if strings.EqualFold(w.Pet, pet) {
			own = append(own, w)
		}
	}
	slices.SortStableFunc(own, func(a, b household.WeighIn) int { return a.Date.DaysSince(b.Date) })
	own = own[max(0, len(own)-plotWeighings):]
	if len(own) < 2 || own[0].Date == own[len(own)-1].Date {
		return nil
	}
	return own
}

// weightPoints places weighings on a field of one by one, time to the right and
// weight upwards (y grows downwards, as on the page).
func weightPoints(ws []household.WeighIn) []gofpdf.PointType {
	low, high := ws[0].Kg, ws[0].Kg
	for _, w := range ws {
		low, high = min(low, w.Kg), max(high, w.Kg)
	}
	if least := leastPlotShare * high; high-low < least {
		middle := (high + low) / 2
		low, high = middle-least/2, middle+least/2
	}
	days := float64(ws[len(ws)-1].Date.DaysSince(ws[0].Date))
	points := make([]gofpdf.PointType, len(ws))
	for i, w := range ws {
		points[i] = gofpdf.PointType{X: float64(w.Date.DaysSince(ws[0].Date)) / days, Y: (high - w.Kg) / (high - low)}
	}
	return points
}

// weightText says the first and the last weighing in words.
func weightText(ws []household.WeighIn) string {
	first, last := ws[0], ws[len(ws)-1]
	return fmt.Sprintf("Weight: %s kg on %s, %s kg on %s", kilos(first.Kg), first.Date, kilos(last.Kg), last.Date)
}

// weightPlot draws the weighings with the first and the last in words, and returns
// the height it took.
func (p *page) weightPlot(ws []household.WeighIn, x, y, w float64) float64 {
	if len(ws) == 0 {
		return 0
	}
	const dot = 0.6
	p.gray(40)
	h := p.text(x, y, w, weightText(ws), "", 7.5*p.zoom, "L") + 1
	if p.rehearsing {
		return h + plotHeightMM + 2
	}
	p.pdf.SetDrawColor(190, 190, 190)
	p.pdf.SetLineWidth(0.15)
	p.pdf.Rect(x, y+h, w, plotHeightMM, "D")
	p.pdf.SetDrawColor(20, 70, 40)
	p.pdf.SetFillColor(20, 70, 40)
	p.pdf.SetLineWidth(0.4)
	at := func(q gofpdf.PointType) (float64, float64) {
		return x + 1.5 + q.X*(w-3), y + h + 1.5 + q.Y*(plotHeightMM-3)
	}
	points := weightPoints(ws)
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
