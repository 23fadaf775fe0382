package report

import (
	"fmt"
	"io"

	"bowlwright/household"
)

// VetPDF writes for each pet what a veterinarian needs to judge the plan: every
// nutrient per day, per 1000 kcal, per metabolic weight and on dry matter, with
// limits and their sources; the ingredients with their ids; what decides. It fails
// with a *NotPrintableError when a plan has no amounts.
func VetPDF(w io.Writer, ps []household.Paired, o PaperOptions) error {
	p, err := drawVet(ps, o)
	if err != nil {
		return err
	}
	return p.output(w)
}

func drawVet(ps []household.Paired, o PaperOptions) (*page, error) {
	if len(ps) == 0 {
		return nil, fmt.Errorf("there is no plan to print")
	}
	var views []*vetView
	for _, p := range ps {
		v, err := newVetView(p)
		if err != nil {
			return nil, err
		}
		views = append(views, v)
	}
	o.TwoUp = false
	p := newPage(o, views[0].date, "For the veterinarian, "+views[0].household)
	for _, v := range views {
		p.heading = nil
		p.next()
		p.heading = func() { p.goesOn(v.title, v.code) }
		p.vet(v)
	}
	return p, nil
}

func (p *page) vet(v *vetView) {
	inner := p.inner
	p.gray(60)
	p.y += p.text(p.left, p.y, inner, fmt.Sprintf("For the veterinarian. %s, plan of %s, base %s.", v.household, v.date, v.code), "", 9, "L")
	p.gray(0)
	p.y += p.text(p.left, p.y, inner, v.title, "B", 22, "L")
	for _, f := range v.facts {
		p.body(f)
	}
	if len(v.banner) > 0 {
		p.banner(v.banner)
	}
	p.table(v)
	for _, r := range v.ratios {
		p.small(r)
	}
	p.small("† limit recalled, not read in a copy of the standard. met*: upper limit not fully checked, because a part of the food has no figure. Unknown is not counted as zero. Metabolic weight is of the ideal weight.")
	for i, src := range v.sources {
		p.small(fmt.Sprintf("%d  %s", i+1, src))
	}
	p.items("Given each day", v.given)
	p.items("The base, by raw weight", v.ingredients)
	if len(v.deciding) > 0 {
		p.section("What decides")
		for _, d := range v.deciding {
			p.small(d)
		}
	}
	p.section("Mind")
	for _, m := range v.mind {
		p.small(m)
	}
	for _, d := range v.digests {
		p.small(d)
	}
}

// small is a paragraph in the smallest size of a page.
func (p *page) small(text string) {
	const points = 7.5
	p.need(p.measure(p.inner, text, "", points) + 0.4)
	p.gray(50)
	p.y += p.paragraph(p.left, p.y, p.inner, text, "", points) + 0.4
}

func (p *page) items(title string, list []item) {
	const points, amountW = 8.0, 20.0
	p.section(title)
	for _, i := range list {
		text := i.name + " (" + i.remark + ")"
		w := p.inner - amountW - 2
		h := p.measure(w, text, "", points)
		p.need(h)
		p.gray(0)
		p.text(p.left, p.y, amountW, i.amount, "B", points, "R")
		p.paragraph(p.left+amountW+2, p.y, w, text, "", points)
		p.y += h
	}
}

// vetColumns are the shares of the width, which sum to one.
var vetColumns = []float64{0.25, 0.105, 0.10, 0.10, 0.10, 0.10, 0.10, 0.055, 0.05, 0.04}

func (p *page) table(v *vetView) {
	const rowMM, points = 3.9, 7.5
	head := []string{"Nutrient", "per day", "per 1000 kcal", v.metabolic, "per 100 g DM", "lower, day", "upper, day", "known", "state", "src"}
	p.y++
	p.row(head, "B", rowMM, points)
	for _, r := range v.rows {
		before := p.area
		if p.need(rowMM); p.area != before {
			p.row(head, "B", rowMM, points)
		}
		style := ""
		if !r.inside {
			style = "B"
		}
		p.row([]string{r.name, r.day, r.per1000, r.perMetabolic, r.perDry, r.lower, r.upper, r.known, r.state, r.source}, style, rowMM, points)
	}
	p.y++
}

// row draws cells, the first to the left and the others to the right, over a line.
func (p *page) row(cells []string, style string, h, points float64) {
	p.gray(0)
	x := p.left
	for i, c := range cells {
		w := vetColumns[i] * p.inner
		align := "R"
		if i == 0 {
			align = "L"
		}
		p.text(x, p.y, w-1.2, c, style, points, align)
		x += w
	}
	p.y += h
	p.pdf.SetDrawColor(215, 215, 215)
	p.pdf.SetLineWidth(0.1)
	p.pdf.Line(p.left, p.y-0.2, p.left+p.inner, p.y-0.2)
}
