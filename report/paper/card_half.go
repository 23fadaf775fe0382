package paper

import (
	"fmt"

	"github.com/jung-kurt/gofpdf"

	"bowlwright/report"
)

// halfZoom makes up for the smaller print of a half-size card.
const halfZoom = 1.3

// nextHalf begins the next half of a sheet on its side. It is drawn on as if it
// had the width of the upright paper, and scaled down.
func (p *page) nextHalf() {
	p.endHalf()
	width, height := p.pdf.GetPageSize()
	side := (p.area - 1) % 2
	if side == 0 {
		p.pdf.AddPage()
		p.pdf.SetDrawColor(200, 200, 200)
		p.pdf.SetLineWidth(0.1)
		p.pdf.Line(width/2, 0, width/2, height)
	}
	// The width of the upright paper is the height of the sheet on its side.
	scale := width / 2 / height
	p.zoom, p.width, p.height = halfZoom, height, height/scale
	p.pdf.TransformBegin()
	// In points from the lower left corner, as the format of the page has it.
	p.pdf.Transform(gofpdf.TransformMatrix{A: scale, D: scale, E: float64(side) * width / 2 / 25.4 * 72, F: height * (1 - scale) / 25.4 * 72})
}

// endHalf ends the transformation of a half that was begun.
func (p *page) endHalf() {
	if p.twoUp && p.width > 0 {
		p.pdf.TransformEnd()
		p.width = 0
	}
}

// half is the card with figures only of what is not inside its limits, and with
// bars where there is room for them.
func (p *page) half(c *report.Card) {
	p.need(20)
	p.gray(0)
	p.y += p.text(p.left, p.y, p.inner, c.Inside, "B", 11, "L")
	for _, b := range c.Bars {
		if !b.Inside {
			p.need(6)
			state := b.State + ", " + b.Amount
			if b.NothingKnown {
				state = b.State
			}
			p.y += p.text(p.left, p.y, p.inner, fmt.Sprintf("%s: %s (%s)", b.Name, state, b.Limits), "", 10, "L")
		}
	}
	if rowH, fits := p.smallBarRow(c); fits {
		p.smallBars(c, rowH)
	}
	p.rule()
}
