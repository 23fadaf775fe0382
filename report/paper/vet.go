package paper

import (
	"fmt"
	"io"
	"strings"

	"bowlwright/household"
	"bowlwright/report"
)

// Vet writes for each pet two sides for a veterinarian: the first to judge the plan, the
// second with every figure. It fails with a *household.NotPrintableError when a plan has
// no amounts.
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
		v, err := report.NewVet(p, o.Setting)
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
		p.vetFirst(v)
		p.heading = nil
		p.next()
		p.heading = func() { p.goesOn(vetOnPaper(v), v.Code) }
		p.vetSecond(v)
	}
	return p, nil
}

// vetOnPaper is the name of the pet where letters may be missing.
func vetOnPaper(v *report.Vet) string { return paperName(v.Name, v.Animal) }

// Type of the page in points.
const (
	vetPoints     = 8.0
	vetHeadPoints = 9.5
)

// vetHead draws the name, which plan it is, and the base in its square frame.
func (p *page) vetHead(v *report.Vet, side string) {
	const codePoints = 9.5
	codeW := p.widthOf(v.Code, "B", codePoints) + 5
	p.gray(0)
	h := lineMM(22)
	nameW := min(p.widthOf(vetOnPaper(v), "B", 22)+3, p.inner*0.4)
	rest := p.inner - nameW - codeW - 3
	p.text(p.left, p.y, nameW, vetOnPaper(v), "B", 22, "L")
	y := p.y + h - lineMM(10) - 1.2
	p.text(p.left+nameW, y, rest*0.42, "for the veterinarian · "+side, "", 10, "L")
	p.frame(p.left+p.inner-codeW, y-0.7, codeW, lineMM(codePoints)+1.4, 0.4)
	p.text(p.left+p.inner-codeW+2.5, y, codeW-5+0.1, v.Code, "B", codePoints, "C")
	p.text(p.left+nameW+rest*0.44, y, rest*0.56, v.Household+", plan of "+report.DayText(v.Date)+" · base", "", 8.5, "R")
	p.y += h
	p.hline(p.left, p.y, p.inner, 0.5, 0)
	p.y += 1.5
}

// vetFirst is the side on which the plan is judged.
func (p *page) vetFirst(v *report.Vet) {
	p.notices(v.Notices)
	p.vetHead(v, "side 1 of 2")
	p.y += p.paragraph(p.left, p.y, p.inner, v.Signalment, "", 9.5) + 1.5
	if len(v.Banner) > 0 {
		p.banner(v.Banner, 11)
	}
	const gap = 6.0
	left, inner, top := p.left, p.inner, p.y
	w := (inner - gap) / 2
	p.within(left, w, func() { p.vetWeight(v) })
	end := p.y
	p.y = top
	p.within(left+w+gap, w, func() { p.vetEnergy(v) })
	p.y = max(p.y, end) + 1.5
	p.vetKey(v)
	p.vetLists(v)
	p.vetParagraphs(v)
	p.review()
}

// within draws in a column of the page, and goes back to the whole width.
func (p *page) within(x, w float64, draw func()) {
	left, inner := p.left, p.inner
	p.left, p.inner = x, w
	draw()
	p.left, p.inner = left, inner
}

func (p *page) vetTitle(s string) {
	p.hline(p.left, p.y, p.inner, 0.2, 0)
	p.y += 0.8
	p.gray(0)
	p.y += p.text(p.left, p.y, p.inner, s, "B", vetHeadPoints, "L") + 0.4
}

// vetWeight draws the scores and the weighings with the goal.
func (p *page) vetWeight(v *report.Vet) {
	p.vetTitle("Condition and weight")
	p.gray(0)
	h := lineMM(vetPoints) + 1.4
	p.text(p.left, p.y+0.7, p.inner*0.5, "Body condition (1 to 9)", "", vetPoints, "L")
	const side = 4.6
	for i := 1; i <= 9; i++ {
		x := p.left + p.inner - float64(10-i)*(side+0.4)
		if i == v.Condition {
			p.fill(x, p.y, side, side, 0, 0, 0)
			p.white()
		} else {
			p.frame(x, p.y, side, side, 0.2)
			p.gray(0)
		}
		p.text(x, p.y+0.6, side, fmt.Sprint(i), "", vetPoints, "C")
	}
	p.y += h + 1
	p.gray(0)
	p.text(p.left, p.y, p.inner*0.3, "Muscle condition", "", vetPoints, "L")
	p.y += p.text(p.left+p.inner*0.3, p.y, p.inner*0.7, v.Muscle, "", vetPoints, "R")
	p.y += p.paragraph(p.left, p.y, p.inner, v.WeightNote, "", vetPoints) + 2.5
	if c := v.Chart; c != nil {
		p.weightChart(c)
	}
}

// vetChartMM is the height of the chart of the weighings.
const vetChartMM = 34.0

// weightChart draws the weighings, and where a safe loss leads.
func (p *page) weightChart(c *report.WeightChart) {
	const axis, foot, small = 9.0, 4.0, 7.5
	x0, w, h := p.left+axis, p.inner-axis-16, vetChartMM-foot
	y0 := p.y
	at := func(q report.Point) (float64, float64) { return x0 + q.X*w, y0 + q.Y*h }
	for _, m := range c.Kilos {
		p.hline(x0, y0+m.At*h, w, 0.1, 205)
		p.gray(0)
		p.text(p.left, y0+m.At*h-lineMM(small)/2, axis-1.5, m.Text, "", small, "R")
	}
	if !p.rehearsing && c.Fast != nil {
		sx, sy := at(c.Start)
		fx, fy := at(*c.Fast)
		lx, ly := at(*c.Slow)
		mx, my := at(*c.Middle)
		p.pdf.SetDrawColor(accent[0], accent[1], accent[2])
		p.pdf.SetLineWidth(0.25)
		p.pdf.Line(sx, sy, fx, fy)
		p.pdf.Line(sx, sy, lx, ly)
		// Strokes between the two, so that the wedge shows in grey as well.
		for k := 1; k < 14; k++ {
			t := float64(k) / 14
			p.pdf.Line(sx+t*(fx-sx), sy+t*(fy-sy), sx+t*(lx-sx), sy+t*(ly-sy))
		}
		p.pdf.SetDashPattern([]float64{1.4, 0.9}, 0)
		p.pdf.SetLineWidth(0.5)
		p.pdf.SetDrawColor(0, 0, 0)
		p.pdf.Line(sx, sy, mx, my)
		p.pdf.SetDashPattern(nil, 0)
		p.gray(0)
		p.text(x0+w-40, y0, 40, "0.5 to 2 % a week", "", small, "R")
	}
	if c.Goal >= 0 {
		p.hline(x0, y0+c.Goal*h, w, 0.5, 0)
		p.gray(0)
		p.text(x0+w+0.5, y0+c.Goal*h-lineMM(small)/2, 15.5, c.GoalText, "B", small, "L")
	}
	if !p.rehearsing {
		p.pdf.SetDrawColor(0, 0, 0)
		p.pdf.SetFillColor(0, 0, 0)
		p.pdf.SetLineWidth(0.4)
		for i, q := range c.Weighings {
			px, py := at(q)
			if i > 0 {
				ox, oy := at(c.Weighings[i-1])
				p.pdf.Line(ox, oy, px, py)
			}
			p.pdf.Circle(px, py, 0.7, "F")
		}
	}
	p.hline(x0, y0+h, w, 0.25, 0)
	last := -100.0
	for _, m := range c.Months {
		if x := x0 + m.At*w; x-last >= 11 && x+5.5 <= p.left+p.inner {
			p.gray(0)
			p.text(x-5.5, y0+h+0.4, 11, m.Text, "", small-0.5, "C")
			last = x
		}
	}
	p.y = y0 + vetChartMM + 1
}

// facts draws names and figures; the main ones are bold.
func (p *page) facts(list []report.Fact) {
	for _, f := range list {
		style := ""
		if f.Main {
			style = "B"
		}
		p.gray(0)
		w := min(p.widthOf(f.Figure, style, vetPoints)+1, p.inner*0.6)
		p.text(p.left, p.y, p.inner-w-1, f.Name, style, vetPoints, "L")
		p.y += p.text(p.left+p.inner-w, p.y, w, f.Figure, style, vetPoints, "R") + 0.3
	}
}

// vetEnergy draws the energy and what it comes from.
func (p *page) vetEnergy(v *report.Vet) {
	p.vetTitle("Energy")
	p.facts(v.Energy)
	p.y += 1
	p.gray(0)
	p.y += p.paragraph(p.left, p.y, p.inner, v.SplitNote, "", vetPoints) + 0.5
	if len(v.Split) > 0 {
		const h = 4.5
		x := p.left
		for i, s := range v.Split {
			w := s.Share * p.inner
			switch i {
			case 0:
				p.fill(x, p.y, w, h, 0x55, 0x55, 0x55)
			case 1:
				p.striped(x, p.y, w, h)
			default:
				p.frame(x, p.y, w, h, 0.2)
			}
			p.gray(0)
			p.text(x, p.y+h+0.3, max(w, 5), s.Name, "", vetPoints, "L")
			x += w
		}
		p.y += h + lineMM(vetPoints) + 1
	}
	p.facts(v.Composition)
}

// Columns of the key nutrients as shares of the width.
var vetKeyColumns = []float64{0.23, 0.13, 0.13, 0.13, 0.12, 0.09, 0.09, 0.08}

// vetKey draws the ten key nutrients beside the standard.
func (p *page) vetKey(v *report.Vet) {
	p.vetTitle("Key nutrients")
	h := lineMM(vetPoints) + 0.6
	p.cells(vetKeyColumns, []string{"", "per 1000 kcal", "minimum", "maximum", "a day", "minimum", "maximum", "known"}, nil, h, 7.5)
	for _, r := range v.Key {
		bold := map[int]bool{1: true, 4: true}
		if !r.Inside {
			bold[0] = true
		}
		p.cells(vetKeyColumns, []string{r.Name, r.Per1000, r.Minimum1000, r.Maximum1000, r.Day, r.Minimum, r.Maximum, r.Known}, bold, h, vetPoints)
	}
	p.gray(0)
	p.y += 0.5
	p.y += p.paragraph(p.left, p.y, p.inner, v.KeyNote, "", 7.5) + 1.5
}

// cells draws a row, the first cell to the left and the others to the right, over a line.
func (p *page) cells(columns []float64, texts []string, bold map[int]bool, h, points float64) {
	x := p.left
	for i, s := range texts {
		w, align, style := columns[i]*p.inner, "R", ""
		if i == 0 {
			align = "L"
		}
		if bold[i] {
			style = "B"
		}
		p.gray(0)
		p.text(x, p.y+0.2, w-cellGapMM, s, style, points, align)
		x += w
	}
	p.y += h
	p.hline(p.left, p.y-0.1, p.inner, 0.1, 205)
}

// cellGapMM is the room between the cells of a row.
const cellGapMM = 1.2

// vetLists draws the day's recipe, what is uncertain, and what the household has set, in
// three columns that stand on one page.
func (p *page) vetLists(v *report.Vet) {
	const gap = 5.0
	w := (p.inner - 2*gap) / 3
	columns := []func(){func() { p.vetRecipe(v) }, func() { p.vetDashed("Uncertain", v.Uncertain) }, func() { p.vetOwn(v) }}
	left, high := p.left, 0.0
	for i, draw := range columns {
		h, _ := p.rehearse(func() { p.within(left+float64(i)*(w+gap), w, draw) })
		high = max(high, h)
	}
	if high > p.bottom-p.top-2*marginMM {
		// More than a page holds goes on below one another.
		for _, draw := range columns {
			draw()
			p.y++
		}
		return
	}
	p.need(high)
	top := p.y
	for i, draw := range columns {
		p.y = top
		p.within(left+float64(i)*(w+gap), w, draw)
	}
	p.y = top + high + 1.5
}

func (p *page) vetRecipe(v *report.Vet) {
	p.vetTitle("A day, in grams")
	amountW := p.amountWidth(v.Recipe, vetPoints)
	for _, i := range v.Recipe {
		p.need(p.measure(p.inner-amountW-2, i.Whole(), "", vetPoints))
		p.gray(0)
		p.text(p.left+p.inner-amountW, p.y, amountW, i.Amount, "", vetPoints, "R")
		p.y += p.paragraph(p.left, p.y, p.inner-amountW-2, i.Whole(), "", vetPoints) + 0.3
	}
	p.gray(0)
	p.y += p.text(p.left, p.y, p.inner, v.RecipeTotal, "B", vetPoints, "R")
}

// vetDashed is a list with a dash before each line.
func (p *page) vetDashed(title string, lines []string) {
	p.vetTitle(title)
	for _, s := range lines {
		p.need(p.measure(p.inner-3, s, "", vetPoints))
		p.gray(0)
		p.text(p.left, p.y, 2.5, "–", "", vetPoints, "L")
		p.y += p.paragraph(p.left+3, p.y, p.inner-3, s, "", vetPoints) + 0.4
	}
}

// vetOwn draws what the household set; a loosened maximum in red.
func (p *page) vetOwn(v *report.Vet) {
	p.vetDashed("The household's own", v.Own)
	for _, o := range v.Limits {
		p.need(p.measure(p.inner-3, o.Text, "", vetPoints))
		p.gray(0)
		if o.Loosened {
			p.red()
		}
		p.text(p.left, p.y, 2.5, "–", "", vetPoints, "L")
		p.y += p.paragraph(p.left+3, p.y, p.inner-3, o.Text, "", vetPoints) + 0.4
	}
	p.gray(0)
}

// vetParagraphs draws what base and premix are made of.
func (p *page) vetParagraphs(v *report.Vet) {
	write := func(title, text string) {
		p.need(lineMM(vetHeadPoints) + 1.2 + p.measure(p.inner, text, "", vetPoints))
		p.vetTitle(title)
		p.gray(0)
		p.y += p.paragraph(p.left, p.y, p.inner, text, "", vetPoints) + 1
	}
	write("Base, % of raw weight", v.Base)
	if v.Jar != "" && v.JarTitle != "" {
		write(strings.TrimSpace(v.JarTitle+" "+v.JarCode)+", % by weight", v.Jar)
	}
}

// review is where the veterinarian signs.
func (p *page) review() {
	const h = 30.0
	p.need(h)
	p.y = max(p.y, p.bottom-h)
	p.frame(p.left, p.y, p.inner, h-1, 0.5)
	line := func(x, y, w float64, label string) {
		p.gray(0)
		p.text(x, y, w, label, "", 8.5, "L")
		p.hline(x, y+9, w, 0.2, 0)
	}
	w := p.inner - 8
	line(p.left+4, p.y+2, w*0.42, "Reviewed by")
	line(p.left+4+w*0.46, p.y+2, w*0.22, "Date")
	line(p.left+4+w*0.72, p.y+2, w*0.28, "Next visit")
	line(p.left+4, p.y+13.5, w, "Changes wanted")
	p.hline(p.left+4, p.y+27, w, 0.2, 0)
	p.y += h
}
