package report

import (
	"fmt"
	"io"

	"github.com/jung-kurt/gofpdf"

	"bowlwright/household"
)

// VetPDF writes for each pet what a veterinarian needs to judge the plan: every
// nutrient per day, per 1000 kcal, per metabolic weight and on dry matter, with
// limits and their sources; the ingredients with their ids; what decides. It fails
// with a *NotPrintableError when a plan has no amounts.
func VetPDF(w io.Writer, ps []household.Paired, o PaperOptions) error {
	pdf, _, err := drawVet(ps, o)
	if err != nil {
		return err
	}
	return output(pdf, w)
}

func drawVet(ps []household.Paired, o PaperOptions) (*gofpdf.Fpdf, []*page, error) {
	if len(ps) == 0 {
		return nil, nil, fmt.Errorf("there is no plan to print")
	}
	var views []*vetView
	for _, p := range ps {
		v, err := newVetView(p)
		if err != nil {
			return nil, nil, err
		}
		views = append(views, v)
	}
	pdf := newDocument(o.Paper, views[0].date, "For the veterinarian, "+views[0].household)
	s := &sheet{pdf: pdf}
	for _, v := range views {
		s.open()
		s.vet(v)
	}
	return pdf, s.pages, nil
}

func (s *sheet) vet(v *vetView) {
	p, inner := s.page, s.inner()
	p.gray(60)
	p.y += p.text(marginMM, p.y, inner, fmt.Sprintf("For the veterinarian. %s, plan of %s, base %s.", v.household, v.date, v.code), "", 9, "L")
	p.gray(0)
	p.y += p.text(marginMM, p.y, inner, v.title, "B", 22, "L")
	for _, f := range v.facts {
		s.paragraph(f)
	}
	if len(v.banner) > 0 {
		p.banner(&card{banner: v.banner}, inner)
	}
	s.table(v)
	for _, r := range v.ratios {
		s.small(r)
	}
	s.small("† limit recalled, not read in a copy of the standard. met*: upper limit not fully checked, because a part of the food has no figure. Unknown is not counted as zero. Metabolic weight is of the ideal weight.")
	for i, src := range v.sources {
		s.small(fmt.Sprintf("%d  %s", i+1, src))
	}
	s.items("Given each day", v.given)
	s.items("The base, by raw weight", v.ingredients)
	if len(v.deciding) > 0 {
		s.section("What decides")
		for _, d := range v.deciding {
			s.small(d)
		}
	}
	s.section("Mind")
	for _, m := range v.mind {
		s.small(m)
	}
	for _, d := range v.digests {
		s.small(d)
	}
}

// small is a paragraph in the smallest size of a page.
func (s *sheet) small(text string) {
	const points = 7.5
	s.room(s.page.measure(s.inner(), text, "", points) + 0.4)
	s.page.gray(50)
	s.page.y += s.page.paragraph(marginMM, s.page.y, s.inner(), text, "", points) + 0.4
}

func (s *sheet) items(title string, list []item) {
	const points, amountW = 8.0, 20.0
	s.section(title)
	for _, i := range list {
		text := i.name + " (" + i.remark + ")"
		w := s.inner() - amountW - 2
		h := s.page.measure(w, text, "", points)
		s.room(h)
		s.page.gray(0)
		s.page.text(marginMM, s.page.y, amountW, i.amount, "B", points, "R")
		s.page.paragraph(marginMM+amountW+2, s.page.y, w, text, "", points)
		s.page.y += h
	}
}

// vetColumns are the shares of the width, which sum to one.
var vetColumns = []float64{0.25, 0.105, 0.10, 0.10, 0.10, 0.10, 0.10, 0.055, 0.05, 0.04}

func (s *sheet) table(v *vetView) {
	const rowMM, points = 3.9, 7.5
	head := []string{"Nutrient", "per day", "per 1000 kcal", v.metabolic, "per 100 g DM", "lower, day", "upper, day", "known", "state", "src"}
	s.page.y++
	s.row(head, "B", rowMM, points)
	for _, r := range v.rows {
		before := s.page
		if s.room(rowMM); s.page != before {
			s.row(head, "B", rowMM, points)
		}
		style := ""
		if !r.inside {
			style = "B"
		}
		s.row([]string{r.name, r.day, r.per1000, r.perMetabolic, r.perDry, r.lower, r.upper, r.known, r.state, r.source}, style, rowMM, points)
	}
	s.page.y++
}

// row draws cells, the first to the left and the others to the right, over a line.
func (s *sheet) row(cells []string, style string, h, points float64) {
	s.page.gray(0)
	x := marginMM
	for i, c := range cells {
		w := vetColumns[i] * s.inner()
		align := "R"
		if i == 0 {
			align = "L"
		}
		s.page.text(x, s.page.y, w-1.2, c, style, points, align)
		x += w
	}
	s.page.y += h
	s.pdf.SetDrawColor(215, 215, 215)
	s.pdf.SetLineWidth(0.1)
	s.pdf.Line(marginMM, s.page.y-0.2, marginMM+s.inner(), s.page.y-0.2)
}
