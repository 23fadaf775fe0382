package report

import (
	"fmt"

	"github.com/jung-kurt/gofpdf"

	"bowlwright/household"
)

// halfZoom makes up for the smaller print of a half-size card.
const halfZoom = 1.3

// drawTwoUp draws cards side by side on a sheet on its side. Each is drawn on a
// page of the paper's full width and scaled down to half the sheet.
func drawTwoUp(cards []*card, date household.Date, o PaperOptions) (*gofpdf.Fpdf, []*page) {
	size := "A4"
	if o.Paper == "letter" {
		size = "Letter"
	}
	pdf := prepare(gofpdf.New("L", "mm", size, ""), date, "Daily cards of "+cards[0].household)
	sheetW, sheetH := pdf.GetPageSize()
	scale := sheetW / 2 / sheetH
	var pages []*page
	for i, c := range cards {
		if i%2 == 0 {
			pdf.AddPage()
			pdf.SetDrawColor(200, 200, 200)
			pdf.SetLineWidth(0.1)
			pdf.Line(sheetW/2, 0, sheetW/2, sheetH)
		}
		// The width of the upright paper is the height of the sheet on its side.
		p := &page{pdf: pdf, y: marginMM, zoom: halfZoom, width: sheetH, height: sheetH / scale}
		pdf.TransformBegin()
		// In points from the lower left corner, as the format of the page has it.
		pdf.Transform(gofpdf.TransformMatrix{A: scale, D: scale, E: float64(i%2) * sheetW / 2 / 25.4 * 72, F: sheetH * (1 - scale) / 25.4 * 72})
		p.half(c)
		pdf.TransformEnd()
		pages = append(pages, p)
	}
	return pdf, pages
}

// half is the card without the table of nutrients.
func (p *page) half(c *card) {
	inner := p.width - 2*marginMM
	p.header(c, inner)
	if len(c.banner) > 0 {
		p.banner(c, inner)
	}
	p.feeding(c, inner)
	p.gray(0)
	p.y += p.text(marginMM, p.y, inner, fmt.Sprintf("%d of %d nutrients are inside their limits; the full-size card shows each.", insideCount(c), len(c.bars)), "B", 11, "L")
	for _, b := range c.bars {
		if !b.inside {
			p.y += p.text(marginMM, p.y, inner, fmt.Sprintf("%s: %s, %s (%s)", b.name, b.state, b.amount, b.limits), "", 10, "L")
		}
	}
	p.y++
	p.rule(inner)
	p.rules(c, inner)
	p.week(c, inner)
}
