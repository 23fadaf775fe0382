package report

import (
	"github.com/jung-kurt/gofpdf"
)

func diamond(x, y, r float64) []gofpdf.PointType {
	return []gofpdf.PointType{{X: x - r, Y: y}, {X: x, Y: y - r}, {X: x + r, Y: y}, {X: x, Y: y + r}}
}

// Sizes of the lower part of the card in points and millimetres.
const (
	rulePoints = 7.5
	weekMM     = 15.0
)

// footHeight measures the title over the bars and what stands below them, so that
// the bars can take all the rest.
func (p *page) footHeight(c *card, inner float64) float64 {
	const title, gaps = 9.5*pointInMM*lineFactor + 0.6, 6.5
	h := title + gaps + weekMM + 1
	for _, s := range p.ruleTexts(c) {
		h += p.measure(inner-3, s, "", rulePoints*p.zoom) + 0.3
	}
	return h + float64(len(c.ratios))*7*pointInMM*lineFactor + float64(len(c.legend))*6.5*pointInMM*lineFactor
}

// ruleTexts are the notes of the plan, the kitchen rules and the cautions.
func (p *page) ruleTexts(c *card) []string {
	all := append([]string(nil), c.notes...)
	all = append(all, c.storage...)
	return append(all, c.cautions...)
}

func (p *page) rules(c *card, inner float64) {
	p.gray(20)
	for _, s := range p.ruleTexts(c) {
		p.text(marginMM, p.y, 3, "•", "", rulePoints*p.zoom, "L")
		p.y += p.paragraph(marginMM+3, p.y, inner-3, s, "", rulePoints*p.zoom) + 0.3
	}
	p.y += 1
}

// week draws boxes to tick, seven days from whichever day it is hung up, and what
// the card was made for.
func (p *page) week(c *card, inner float64) {
	y := max(p.y, p.height-marginMM-weekMM)
	p.gray(0)
	box := inner / 7
	p.pdf.SetDrawColor(120, 120, 120)
	p.pdf.SetLineWidth(0.25)
	ticks := max(1, len(c.meals))
	side := min(5.0, (box-3)/float64(ticks))
	for d, name := range []string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"} {
		x := marginMM + float64(d)*box
		p.text(x, y, box-1, name, "", 8, "L")
		for m := range ticks {
			p.pdf.Rect(x+float64(m)*(side+0.8), y+4, side, side, "D")
		}
	}
	y += 4 + side + 1.5
	p.gray(0)
	p.text(marginMM, y, inner*0.68, c.made, "", 8, "L")
	p.text(marginMM+inner*0.68, y, inner*0.32, "Weigh again by "+c.weighBy, "B", 9, "R")
}
