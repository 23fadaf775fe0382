package report

import (
	"io"

	"github.com/jung-kurt/gofpdf"
)

// BatchPDF writes the batch sheet: what goes into the pot with boxes to tick, the
// shopping list, temperatures, the weight to write down, and the containers.
func BatchPDF(w io.Writer, b *Batch, o PaperOptions) error {
	pdf, _ := drawBatch(b, o)
	return output(pdf, w)
}

func drawBatch(b *Batch, o PaperOptions) (*gofpdf.Fpdf, []*page) {
	pdf := newDocument(o.Paper, b.Date, "Batch sheet of "+b.Name)
	s := &sheet{pdf: pdf}
	s.open()
	s.page.batchHead(b)
	s.section("Into the pot")
	for _, l := range b.Ingredients {
		s.tick(potGrams(l.G), withMethod(l))
	}
	s.section("Cook and keep")
	for _, r := range b.Cooking {
		s.paragraph(r)
	}
	s.room(9)
	s.page.y += 2
	s.page.text(marginMM, s.page.y, s.inner(), "Weight of the cooked pot: ______________ g, without the pot.   Expected: "+potGrams(b.CookedG), "B", 11, "L")
	s.page.y += 7
	s.section("Containers")
	for _, c := range b.Containers {
		s.tick("", containerText(c))
	}
	if b.LeftG >= 1 {
		s.paragraph(potGrams(b.LeftG) + " are left over.")
	}
	s.section("Shopping list")
	for _, g := range b.Shopping {
		s.subhead(shelfName(g.Group))
		for _, l := range g.Lines {
			s.tick(grams(l.BuyG), shoppingText(l))
		}
	}
	s.paragraph(costText(b))
	return pdf, s.pages
}

func (p *page) batchHead(b *Batch) {
	inner := p.width - 2*marginMM
	left := inner * 0.58
	p.gray(60)
	h := p.text(marginMM, p.y, left, "Batch sheet, "+b.Household+", "+b.Date.String(), "", 9, "L")
	p.gray(0)
	h += p.text(marginMM, p.y+h, left, b.Name, "B", 20, "L")
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.6)
	x := marginMM + left + 4
	p.pdf.Rect(x, p.y, inner-left-4, 18, "D")
	p.text(x+2, p.y+1.5, inner-left-8, "base code for every container", "", 8, "C")
	p.text(x+2, p.y+5.5, inner-left-8, b.Code, "B", 24, "C")
	p.y += max(20, h+2)
	p.y += p.paragraph(marginMM, p.y, inner, batchSummary(b), "", 10) + 1
}

// sheet flows lines over as many pages as they need.
type sheet struct {
	pdf   *gofpdf.Fpdf
	page  *page
	pages []*page
}

func (s *sheet) open() {
	s.page = newPage(s.pdf)
	s.pages = append(s.pages, s.page)
}

func (s *sheet) inner() float64 { return s.page.width - 2*marginMM }

// room starts a new page when less than h is left on this one.
func (s *sheet) room(h float64) {
	if s.page.y+h > s.page.height-marginMM {
		s.open()
	}
}

func (s *sheet) section(title string) {
	s.room(18)
	s.page.y += 2
	s.page.gray(0)
	s.page.y += s.page.text(marginMM, s.page.y, s.inner(), title, "B", 12, "L") + 0.5
}

func (s *sheet) subhead(title string) {
	s.room(12)
	s.page.gray(60)
	s.page.y += s.page.text(marginMM, s.page.y, s.inner(), title, "B", 9, "L")
	s.page.gray(0)
}

func (s *sheet) paragraph(text string) {
	s.room(s.page.measure(s.inner(), text, "", 9) + 0.5)
	s.page.gray(30)
	s.page.y += s.page.paragraph(marginMM, s.page.y, s.inner(), text, "", 9) + 0.5
}

// tick is a line with a box, an amount and a text that wraps.
func (s *sheet) tick(amount, text string) {
	const side, amountW, points = 3.2, 22.0, 10.5
	x := marginMM + side + 2
	if amount != "" {
		x += amountW + 2
	}
	w := s.inner() - (x - marginMM)
	h := s.page.measure(w, text, "", points)
	s.room(h + 0.5)
	s.pdf.SetDrawColor(90, 90, 90)
	s.pdf.SetLineWidth(0.25)
	s.pdf.Rect(marginMM, s.page.y+0.7, side, side, "D")
	s.page.gray(0)
	if amount != "" {
		s.page.text(marginMM+side+2, s.page.y, amountW, amount, "B", points, "R")
	}
	s.page.paragraph(x, s.page.y, w, text, "", points)
	s.page.y += h + 0.5
}
