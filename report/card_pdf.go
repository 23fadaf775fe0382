package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/jung-kurt/gofpdf"

	"bowlwright/household"
)

// CardsPDF writes one page a pet. It fails with a *NotPrintableError when a plan
// has no amounts that may be printed.
func CardsPDF(w io.Writer, ps []household.Paired, o PaperOptions) error {
	pdf, _, err := drawCards(ps, o)
	if err != nil {
		return err
	}
	return output(pdf, w)
}

// drawCards draws the pages and keeps what stands where on them.
func drawCards(ps []household.Paired, o PaperOptions) (*gofpdf.Fpdf, []*page, error) {
	if len(ps) == 0 {
		return nil, nil, fmt.Errorf("there is no card to print")
	}
	cards := make([]*card, len(ps))
	for i, p := range ps {
		c, err := newCard(p)
		if err != nil {
			return nil, nil, err
		}
		cards[i] = c
	}
	for i, c := range cards {
		c.weights = weightsOf(ps[i].Plan().Pet.Pet, o.Weights)
	}
	if o.TwoUp {
		pdf, pages := drawTwoUp(cards, ps[0].Plan().Date, o)
		return pdf, pages, nil
	}
	pdf := newDocument(o.Paper, ps[0].Plan().Date, "Daily cards of "+cards[0].household)
	var pages []*page
	for _, c := range cards {
		p := newPage(pdf)
		p.card(c)
		pages = append(pages, p)
	}
	return pdf, pages, nil
}

// card draws the page from the top: who and which base, what to feed, whether it
// is enough, what to mind, and the week to tick off.
func (p *page) card(c *card) {
	inner := p.width - 2*marginMM
	p.header(c, inner)
	if len(c.banner) > 0 {
		p.banner(c, inner)
	}
	p.feeding(c, inner)
	p.nutrients(c, inner)
	p.rules(c, inner)
	p.week(c, inner)
}

func (p *page) header(c *card, inner float64) {
	left := inner * 0.58
	codeX := marginMM + left + 4
	codeW := inner - left - 4
	p.gray(0)
	h := p.name(c.pet, left)
	p.gray(60)
	h += 0.5
	h += p.paragraph(marginMM, p.y+h, left, c.about, "", 10)
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.6)
	p.pdf.Rect(codeX, p.y, codeW, 24, "D")
	p.gray(60)
	p.text(codeX+2, p.y+1.2, codeW-4, "feed only with base", "", 8, "C")
	p.gray(0)
	p.text(codeX+2, p.y+5.2, codeW-4, c.baseCode, "B", 27, "C")
	p.text(codeX+2, p.y+17.8, codeW-4, c.baseName, "", 9.5, "C")
	p.y += max(27, h+2)
}

// Sizes of a pet's name in points: on one line as large as fits, on two lines when
// it would get smaller than the least.
const (
	namePoints      = 34.0
	leastNamePoints = 20.0
	twoLinePoints   = 15.0
)

// name draws the pet's name and returns its height.
func (p *page) name(name string, width float64) float64 {
	p.font("B", leastNamePoints)
	if p.pdf.GetStringWidth(paperText(name)) <= width {
		return p.text(marginMM, p.y, width, name, "B", namePoints, "L")
	}
	p.font("B", twoLinePoints)
	lines := p.split(paperText(name), width)
	if len(lines) > 2 {
		lines = []string{lines[0], strings.Join(lines[1:], " ")}
	}
	h := 0.0
	for _, l := range lines {
		h += p.text(marginMM, p.y+h, width, l, "B", twoLinePoints, "L")
	}
	return h
}

// banner warns of a plan that is short, in words and with a frame.
func (p *page) banner(c *card, inner float64) {
	text := ""
	for i, l := range c.banner {
		if i > 0 {
			text += "; "
		}
		text += l
	}
	h := 6 + p.measure(inner-6, text, "", 9) + 2
	p.pdf.SetFillColor(255, 235, 225)
	p.pdf.SetDrawColor(170, 30, 0)
	p.pdf.Rect(marginMM, p.y, inner, h, "FD")
	p.pdf.SetTextColor(150, 20, 0)
	p.text(marginMM+3, p.y+1, inner-6, "NOT ALL TARGETS ARE MET", "B", 11, "L")
	p.gray(0)
	p.paragraph(marginMM+3, p.y+6, inner-6, text, "", 9)
	p.y += h + 2
}

// feeding is the part that is read every day: the base large, then the add-ons.
func (p *page) feeding(c *card, inner float64) {
	top, z := p.y, p.zoom
	left := inner * 0.40
	p.gray(0)
	y := top + p.text(marginMM, top, left, "Base, each day", "B", 11*z, "L") + 0.5
	y += p.text(marginMM, y, left, c.base, "B", 30*z, "L")
	for _, m := range c.meals {
		y += p.text(marginMM, y, left, m, "", 12*z, "L")
	}
	if len(c.extras) > 0 {
		y += 1.5
		y += p.text(marginMM, y, left, "Always given, counted in", "B", 9.5*z, "L")
		for _, e := range c.extras {
			y += p.text(marginMM, y, left, e.amount+"  "+e.name, "", 9.5*z, "L")
		}
	}
	y += p.weightPlot(c.weights, marginMM, y+2, left-4)
	yr := p.addons(c, marginMM+left+4, top, inner-left-4)
	p.y = max(y, yr) + 1.5
	if len(c.premix) > 0 {
		p.recipe(c, inner)
	}
	p.y++
	p.rule(inner)
}

// addons draws the add-ons of a day and returns where they end.
func (p *page) addons(c *card, x, y, w float64) float64 {
	title := "Add-ons, once a day in a meal"
	if len(c.addons) == 0 {
		title = "No add-on is needed"
	}
	y += p.text(x, y, w, title, "B", 11*p.zoom, "L") + 0.5
	for _, a := range c.addons {
		y += p.itemLine(x, y, w, a, 11.5*p.zoom)
	}
	return y
}

// halfRecipeRows is the longest recipe that a half-size card has room for in one
// column, beside a banner and a plot.
const halfRecipeRows = 12

// recipe draws what the premix is made of, in two columns: it is read once a month
// and must not take the room of what is read every day. A half-size card has the
// room, and is narrow for two.
func (p *page) recipe(c *card, inner float64) {
	const gap = 4.0
	p.y += p.text(marginMM, p.y, inner, "Recipe of the premix", "B", 10*p.zoom, "L")
	p.y += p.paragraph(marginMM, p.y, inner, c.premixRecipe, "", 9*p.zoom)
	rows, col := (len(c.premix)+1)/2, (inner-gap)/2
	if p.zoom > 1 && len(c.premix) <= halfRecipeRows {
		rows, col = len(c.premix), inner
	}
	top := p.y
	for i, a := range c.premix {
		y := top + float64(i%rows)*9*p.zoom*pointInMM*lineFactor
		p.y = max(p.y, y+p.itemLine(marginMM+float64(i/rows)*(col+gap), y, col, a, 9*p.zoom))
	}
}

func (p *page) itemLine(x, y, w float64, i item, points float64) float64 {
	amountW := points * pointInMM * 5.6
	p.text(x, y, amountW, i.amount, "B", points, "R")
	name := i.name
	if i.remark != "" {
		name += " (" + i.remark + ")"
	}
	return p.text(x+amountW+2, y, w-amountW-2, name, "", points, "L")
}

func (p *page) rule(inner float64) {
	p.pdf.SetDrawColor(180, 180, 180)
	p.pdf.SetLineWidth(0.2)
	p.pdf.Line(marginMM, p.y, marginMM+inner, p.y)
	p.y += 1.5
}

// nutrients draws the bars in two columns; rows shrink to leave room for the rest.
func (p *page) nutrients(c *card, inner float64) {
	const gap = 6.0
	col := (inner - gap) / 2
	rows := (len(c.bars) + 1) / 2
	room := p.height - marginMM - p.y - p.footHeight(c, inner)
	rowH := min(5.3, room/float64(max(rows, 1)))
	p.gray(0)
	p.y += p.text(marginMM, p.y, inner, "Is it enough, is it too much? The mark belongs between the two lines.", "B", 9.5, "L") + 0.6
	for i, b := range c.bars {
		x := marginMM + float64(i/rows)*(col+gap)
		p.bar(x, p.y+float64(i%rows)*rowH, col, rowH, b)
	}
	p.y += float64(rows)*rowH + 1
	for _, r := range c.ratios {
		p.gray(40)
		p.y += p.text(marginMM, p.y, inner, r, "", 7, "L")
	}
	for _, l := range c.legend {
		p.gray(90)
		p.y += p.text(marginMM, p.y, inner, l, "", 6.5, "L")
	}
	p.y++
	p.rule(inner)
}

// bar draws one nutrient: name, track with limits and mark, amount and limits.
func (p *page) bar(x, y, w, h float64, b bar) {
	nameW, trackW := w*0.33, w*0.27
	textW := w - nameW - trackW - 3
	size := min(7.8, h/pointInMM/1.3)
	p.gray(0)
	name := b.name
	if b.recalled {
		name += "†"
	}
	style := ""
	if !b.inside {
		style = "B"
	}
	line := size * pointInMM * 1.25
	ty := y + (h-line)/2
	p.text(x, ty, nameW, name, style, size, "L")
	tx, th := x+nameW+1, h*0.52
	top := y + (h-th)/2
	p.pdf.SetLineWidth(0.15)
	p.pdf.SetFillColor(244, 244, 244)
	p.pdf.Rect(tx, top, trackW, th, "F")
	p.pdf.SetFillColor(214, 230, 218)
	p.pdf.Rect(tx+lowerAt*trackW, top, (upperAt-lowerAt)*trackW, th, "F")
	if b.nothingKnown {
		p.hatch(tx, top, trackW, th)
	} else if b.unknown > 0 {
		p.hatch(tx+b.at*trackW, top, min(b.unknown*trackW/3, trackW*(1-b.at)), th)
	}
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.35)
	if b.hasLower {
		p.pdf.Line(tx+lowerAt*trackW, top-0.4, tx+lowerAt*trackW, top+th+0.4)
	}
	if b.hasUpper {
		p.pdf.Line(tx+upperAt*trackW, top-0.4, tx+upperAt*trackW, top+th+0.4)
	}
	if !b.nothingKnown {
		p.pdf.SetFillColor(20, 70, 40)
		if !b.inside {
			p.pdf.SetFillColor(180, 30, 0)
		}
		r := th * 0.62
		cx := min(max(tx+b.at*trackW, tx+r), tx+trackW-r)
		p.pdf.Polygon(diamond(cx, top+th/2, r), "F")
	}
	p.gray(30)
	label := b.amount + "  (" + b.limits + ")"
	switch {
	case b.nothingKnown:
		label = "UNKNOWN (" + b.limits + ")"
	case b.state != "met":
		label = b.amount + " " + shortState(b.state) + " (" + b.limits + ")"
	}
	p.text(tx+trackW+2, ty, textW, label, style, size*0.93, "L")
}

// hatch fills a piece of the track with strokes: nobody knows.
func (p *page) hatch(x, y, w, h float64) {
	if w <= 0 {
		return
	}
	p.pdf.SetDrawColor(120, 120, 120)
	p.pdf.SetLineWidth(0.15)
	p.pdf.Rect(x, y, w, h, "D")
	for s := 0.8; s < w+h; s += 0.9 {
		x1, y1 := x+math.Min(s, w), y+math.Max(0, s-w)
		x2, y2 := x+math.Max(0, s-h), y+math.Min(s, h)
		p.pdf.Line(x1, y1, x2, y2)
	}
}
