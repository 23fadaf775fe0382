package paper

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"bowlwright/household"
	"bowlwright/report"
)

// Vet writes for each pet what a veterinarian needs to judge the plan: every
// nutrient per day, per 1000 kcal, per metabolic weight and on dry matter, with
// limits and their sources; the ingredients with their ids; what decides. It fails
// with a *household.NotPrintableError when a plan has no amounts.
func Vet(w io.Writer, ps []household.Paired, o Options) error {
	p, err := drawVet(ps, o)
	if err != nil {
		return err
	}
	return p.output(w)
}

func drawVet(ps []household.Paired, o Options) (*page, error) {
	if len(ps) == 0 {
		return nil, fmt.Errorf("there is no plan to print")
	}
	var views []*report.Vet
	for _, p := range ps {
		v, err := report.NewVet(p)
		if err != nil {
			return nil, err
		}
		views = append(views, v)
	}
	o.TwoUp = false
	p := newPage(o, views[0].Date, "For the veterinarian, "+views[0].Household)
	for _, v := range views {
		p.heading = nil
		p.next()
		p.heading = func() { p.goesOn(vetOnPaper(v), v.Code) }
		p.vet(v)
	}
	return p, nil
}

// Type of the page in points: from the first down to the second, until everything
// stands on one page. Where even that is not enough, the page goes on on the next, in
// the first.
const (
	vetPoints      = 7.5
	leastVetPoints = 5.5
)

// vetLine is the height of a line in millimetres.
func vetLine(points float64) float64 { return points * pointInMM * 1.2 }

// vetTop is the height in millimetres that a line of the table takes beyond its type.
const vetTop = 0.25

func (p *page) vet(v *report.Vet) {
	p.vetHead(v)
	points := vetPoints
	for points > leastVetPoints && !p.vetFits(v, points) {
		points -= 0.1
	}
	if !p.vetFits(v, points) {
		points = vetPoints
	}
	p.table(v, points)
	p.columns(p.vetLines(v, points), points)
}

// vetFits says whether table and lists find room on this page.
func (p *page) vetFits(v *report.Vet, points float64) bool {
	table := float64(len(v.Rows)+1)*(vetLine(points)+vetTop) + 2
	return p.y+table+columnsHeight(p.vetLines(v, points), points) <= p.bottom
}

func (p *page) vetHead(v *report.Vet) {
	const nameW = 0.45
	p.gray(60)
	p.text(p.left+p.inner*nameW, p.y+2.5, p.inner*(1-nameW), fmt.Sprintf("For the veterinarian. %s, %s, base %s", v.Household, v.Date, v.Code), "", 8, "R")
	p.gray(0)
	p.y += p.text(p.left, p.y, p.inner*nameW-2, vetOnPaper(v), "B", 18, "L")
	p.gray(30)
	p.y += p.paragraph(p.left, p.y, p.inner, strings.Join(v.Facts, "; "), "", 8)
	if len(v.Banner) > 0 {
		p.y++
		p.banner(v.Banner, 10)
	}
	p.y++
}

// vetLines are what stands below the table.
func (p *page) vetLines(v *report.Vet, points float64) []columnLine {
	l := lister{page: p, points: points}
	if len(v.Own) > 0 {
		l.head(report.OwnLimitsTitle)
		for _, o := range v.Own {
			first := len(l.lines)
			l.text(o.Text)
			for i := range l.lines[first:] {
				l.lines[first+i].red = o.Loosened
			}
		}
	}
	if len(v.Ratios) > 0 {
		l.head("Ratios")
		for _, r := range v.Ratios {
			l.text(r)
		}
	}
	l.head("How to read it")
	l.text("† limit recalled, not read in a copy of the standard. met*: upper limit not fully checked, because a part of the food has no figure. known: share of the food, by weight, that has a figure; unknown is not counted as zero. Metabolic weight is of the ideal weight. DM: dry matter. src: source of the limits.")
	var sources []report.Item
	for i, s := range v.Sources {
		sources = append(sources, report.Item{Amount: strconv.Itoa(i + 1), Name: s})
	}
	l.items(sources)
	l.head("Given each day (food id; part of the lower limit that it brings)")
	l.items(withRemarks(v.Given))
	l.head("The base, by raw weight (food id, cooking)")
	l.items(withRemarks(v.Ingredients))
	if len(v.Deciding) > 0 {
		l.head("What decides")
		l.text(strings.Join(v.Deciding, "; "))
	}
	l.head("Mind")
	l.items(dotted(v.Mind))
	if len(v.Cooking) > 0 {
		l.head("Cooking")
		l.items(dotted(v.Cooking))
	}
	l.head("Identity")
	for _, d := range v.Digests {
		l.text(d)
	}
	return l.lines
}

// dotted are texts with a dot before each, so that where one ends is seen.
func dotted(texts []string) []report.Item {
	var all []report.Item
	for _, s := range texts {
		all = append(all, report.Item{Amount: "•", Name: s})
	}
	return all
}

// withRemarks puts the remark of each item behind its name.
func withRemarks(list []report.Item) []report.Item {
	var all []report.Item
	for _, i := range list {
		all = append(all, report.Item{Amount: i.Amount, Name: i.Name + " (" + i.Remark + ")"})
	}
	return all
}

// vetColumns are the shares of the width, which sum to one.
var vetColumns = []float64{0.23, 0.10, 0.10, 0.10, 0.10, 0.10, 0.10, 0.055, 0.07, 0.045}

// cellGapMM is the room between the cells of a row.
const cellGapMM = 1.2

// table draws the nutrients under a head in one size of type.
func (p *page) table(v *report.Vet, points float64) {
	row := vetLine(points) + vetTop
	head := []string{"Nutrient", "per day", "per 1000 kcal", v.Metabolic, "per 100 g DM", "lower, day", "upper, day", "known", "state", "src"}
	headPoints := points
	for i, h := range head {
		for headPoints > leastFit && p.widthOf(h, "B", headPoints) > vetColumns[i]*p.inner-cellGapMM {
			headPoints -= 0.25
		}
	}
	p.row(head, "B", row, headPoints)
	for _, r := range v.Rows {
		before := p.area
		if p.need(row); p.area != before {
			p.row(head, "B", row, headPoints)
		}
		style := ""
		if !r.Inside {
			style = "B"
		}
		p.row([]string{r.Name, r.Day, r.Per1000, r.PerMetabolic, r.PerDry, r.Lower, r.Upper, r.Known, r.State, r.Source}, style, row, points)
	}
	p.y += 2
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
		p.text(x, p.y, w-cellGapMM, c, style, points, align)
		x += w
	}
	p.y += h
	p.pdf.SetDrawColor(215, 215, 215)
	p.pdf.SetLineWidth(0.1)
	p.pdf.Line(p.left, p.y-0.1, p.left+p.inner, p.y-0.1)
}

// vetOnPaper is the name of the pet where letters may be missing.
func vetOnPaper(v *report.Vet) string { return paperName(v.Name, v.Animal) }
