package paper

import (
	"bowlwright/report"
)

// Sizes of the lower part of the card in points and millimetres.
const (
	rulePoints      = 7.5
	leastRulePoints = 6.0
	weekMM          = 16.0
)

// footHeight measures the rules and the week.
func (p *page) footHeight(c *report.Card) float64 {
	h := weekMM + 1
	for _, s := range ruleTexts(c) {
		h += p.measure(p.inner-3, s, "", p.rulesType*p.zoom) + 0.3
	}
	return h
}

// ruleTexts are the limits that the household set, the notes of the plan, the kitchen
// rules and the cautions.
func ruleTexts(c *report.Card) []string {
	var all []string
	for _, o := range c.Own {
		all = append(all, o.Text)
	}
	all = append(all, c.Notes...)
	all = append(all, c.Storage...)
	return append(all, c.Cautions...)
}

// rules draws the texts, each with a dot before it.
func (p *page) rules(c *report.Card) {
	points := p.rulesType * p.zoom
	for i, s := range ruleTexts(c) {
		p.need(p.measure(p.inner-3, s, "", points))
		p.gray(20)
		if i < len(c.Own) && c.Own[i].Loosened {
			p.red()
		}
		p.text(p.left, p.y, 2.5, "•", "", points, "L")
		p.y += p.paragraph(p.left+3, p.y, p.inner-3, s, "", points) + 0.3
	}
	p.y++
}

// week draws boxes to tick, seven days from whichever day it is hung up, and what
// the card was made for.
func (p *page) week(c *report.Card) {
	const apart = 0.8
	p.need(weekMM)
	y := max(p.y, p.bottom-weekMM)
	p.gray(0)
	day := p.inner / 7
	p.pdf.SetDrawColor(120, 120, 120)
	p.pdf.SetLineWidth(0.25)
	ticks := len(c.Portions)
	side := min(5.0, (day-3)/float64(ticks)-apart)
	for d, name := range []string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"} {
		x := p.left + float64(d)*day
		p.text(x, y, day-1, name, "", 8, "L")
		for m := range ticks {
			at := x + float64(m)*(side+apart)
			p.pdf.Rect(at, y+4, side, side, "D")
			p.drew(at, y+4, side, side)
		}
	}
	y += 4 + side + 1.5
	p.gray(0)
	p.text(p.left, y, p.inner*0.66, c.Made, "", 8, "L")
	p.text(p.left+p.inner*0.68, y, p.inner*0.32, "Weigh again by "+c.WeighBy, "B", 9, "R")
}
