package paper

import (
	"io"

	"bowlwright/household/supplies"
	"bowlwright/report"
)

// Batch writes the batch sheet: what goes into the pot with boxes to tick, the
// shopping list, temperatures, the weight to write down, and the containers.
func Batch(w io.Writer, b *supplies.BatchSheet, o Options) error {
	return drawBatch(b, o).output(w)
}

func drawBatch(b *supplies.BatchSheet, o Options) *page {
	o.TwoUp = false
	p := newPage(o, b.Date, "Batch sheet of "+b.Name)
	p.next()
	p.batchHead(b)
	p.heading = func() { p.goesOn(b.Name, b.Code) }
	p.outOfDate(b.OutOfDate)
	pot, after := report.PotLines(b)
	p.section(report.PotTitle)
	for _, l := range pot {
		p.tick(report.PotGrams(l.G), report.WithMethod(l))
	}
	if len(after) > 0 {
		p.section(report.AfterTitle)
		for _, l := range after {
			p.tick(report.PotGrams(l.G), report.WithMethod(l))
		}
	}
	p.section("Cook and keep")
	for _, r := range report.CookingRules(b.Groups) {
		p.body(r)
	}
	p.need(9)
	p.y += 2
	p.text(p.left, p.y, p.inner, "Weight of the cooked pot: ______________ g, without the pot.   Expected: "+report.PotGrams(b.CookedG), "B", 11, "L")
	p.y += 7
	p.section("Containers")
	for _, c := range b.Containers {
		p.tick("", report.ContainerText(paperName(c.Pet, report.AnimalText(c.Species, c.WeightKg)), c))
	}
	for _, s := range report.ContainersTogether(b) {
		p.body(s)
	}
	p.shopping("Shopping list", b.Shopping)
	if cost := report.CostText(b); cost != "" {
		p.body(cost)
	}
	return p
}

// shopping draws the shelves of the shop in two columns where they find room on this
// page or on a new one, else below one another.
func (p *page) shopping(title string, shelves []supplies.ShoppingGroup) {
	left, inner := p.left, p.inner
	narrow := func(column int) {
		p.inner = p.columnWidth()
		p.left = left + float64(column)*(p.inner+columnGapMM)
	}
	wide := func() { p.left, p.inner = left, inner }
	heights, total := make([]float64, len(shelves)), 0.0
	narrow(0)
	for i, g := range shelves {
		heights[i], _ = p.rehearse(func() { p.shelf(g) })
		total += heights[i]
	}
	wide()
	first, high, above := 0, total, 0.0
	for i, h := range heights {
		above += h
		if taller := max(above, total-above); taller < high {
			first, high = i+1, taller
		}
	}
	head, _ := p.rehearse(func() { p.section(title) })
	if high > p.bottom-2*marginMM-head {
		p.section(title)
		for _, g := range shelves {
			p.shelf(g)
		}
		return
	}
	p.need(head + high)
	p.section(title)
	top := p.y
	narrow(0)
	for _, g := range shelves[:first] {
		p.shelf(g)
	}
	wide()
	p.y = top
	narrow(1)
	for _, g := range shelves[first:] {
		p.shelf(g)
	}
	wide()
	p.y = top + high
}

// shelf draws what to buy from one shelf.
func (p *page) shelf(g supplies.ShoppingGroup) {
	p.subhead(report.ShelfName(g.Group))
	for _, l := range g.Lines {
		p.tick(report.Grams(l.BuyG), report.ShoppingText(l))
	}
}

func (p *page) batchHead(b *supplies.BatchSheet) {
	inner := p.inner
	left := inner * 0.58
	p.gray(60)
	h := p.text(p.left, p.y, left, "Batch sheet, "+b.Household+", "+report.DayText(b.Date), "", 9, "L")
	p.gray(0)
	h += p.text(p.left, p.y+h, left, b.Name, "B", 20, "L")
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.6)
	x := p.left + left + 4
	p.pdf.Rect(x, p.y, inner-left-4, 18, "D")
	p.text(x+2, p.y+1.5, inner-left-8, "base code for every container", "", 8, "C")
	p.text(x+2, p.y+5.5, inner-left-8, b.Code, "B", 24, "C")
	p.y += max(20, h+2)
	p.y += p.paragraph(p.left, p.y, inner, report.BatchSummary(b), "", 10) + 1
}

// outOfDate is the band over a sheet with portions of plans that are out of date.
func (p *page) outOfDate(reasons []string) {
	if len(reasons) == 0 {
		return
	}
	const title, body = 20.0, 10.0
	texts := append([]string{report.PortionsOutOfDate}, reasons...)
	h := 4 + lineMM(title)
	for _, s := range texts {
		h += p.measure(p.inner-6, s, "B", body)
	}
	p.fill(p.left, p.y, p.inner, h, 0, 0, 0)
	p.stripes(p.left, p.y+h, p.inner, 3)
	p.white()
	y := p.y + 1.5
	y += p.text(p.left+3, y, p.inner-6, report.OutOfDateTitle, "B", title, "L")
	for _, s := range texts {
		y += p.paragraph(p.left+3, y, p.inner-6, s, "B", body)
	}
	p.gray(0)
	p.y += h + 5
}

func (p *page) section(title string) {
	p.need(18)
	p.y += 2
	p.gray(0)
	p.y += p.text(p.left, p.y, p.inner, title, "B", 12, "L") + 0.5
}

func (p *page) subhead(title string) {
	p.need(12)
	p.gray(60)
	p.y++
	p.y += p.text(p.left, p.y, p.inner, title, "B", 9, "L")
	p.gray(0)
}

// body is a paragraph in the type of the sheet.
func (p *page) body(text string) {
	p.need(p.measure(p.inner, text, "", 9) + 0.5)
	p.gray(30)
	p.y += p.paragraph(p.left, p.y, p.inner, text, "", 9) + 0.5
}

// tick is a line with a box, an amount and a text that wraps.
func (p *page) tick(amount, text string) {
	const side, amountW, points = 3.2, 18.0, 10.5
	x := p.left + side + 2
	if amount != "" {
		x += amountW + 2
	}
	w := p.inner - (x - p.left)
	h := p.measure(w, text, "", points)
	p.need(h + 0.5)
	if p.rehearsing {
		p.y += h + 0.5
		return
	}
	p.pdf.SetDrawColor(90, 90, 90)
	p.pdf.SetLineWidth(0.25)
	p.pdf.Rect(p.left, p.y+0.7, side, side, "D")
	p.gray(0)
	if amount != "" {
		p.text(p.left+side+2, p.y, amountW, amount, "B", points, "R")
	}
	p.paragraph(x, p.y, w, text, "", points)
	p.y += h + 0.5
}
