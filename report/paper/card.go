package paper

import (
	"fmt"
	"io"
	"strings"

	"bowlwright/household"
	"bowlwright/report"
)

// Cards writes one page a pet, or half a page with TwoUp; a card that is too
// full goes on on the next. It fails with a *household.NotPrintableError when a plan has no
// amounts that may be printed.
func Cards(w io.Writer, ps []household.Paired, o Options) error {
	p, err := drawCards(ps, o)
	if err != nil {
		return err
	}
	return p.output(w)
}

// drawCards draws the pages and keeps what stands where on them.
func drawCards(ps []household.Paired, o Options) (*page, error) {
	if len(ps) == 0 {
		return nil, fmt.Errorf("there is no card to print")
	}
	p := newPage(o, ps[0].Plan().Date, "Daily cards of "+ps[0].Plan().Household)
	for _, paired := range ps {
		c, err := report.NewCard(paired)
		if err != nil {
			return nil, err
		}
		c.Weights = report.WeightsOf(c.Pet, o.Weights)
		p.heading = nil
		p.next()
		p.heading = func() { p.goesOn(nameOnPaper(c), c.BaseCode) }
		p.card(c)
	}
	return p, nil
}

// card draws the page from the top: who and which base, what to feed, whether it
// is enough, what to mind, and the week to tick off.
func (p *page) card(c *report.Card) {
	p.rulesType = rulePoints
	p.header(c)
	if len(c.Banner) > 0 {
		p.banner(c.Banner, bannerPoints)
	}
	p.feeding(c, p.addonType(c))
	if p.twoUp {
		p.half(c)
	} else {
		p.nutrients(c)
	}
	p.rules(c)
	p.week(c)
}

// addonType is the largest type in points for the add-ons that leaves the bars at their
// ease on the same page, or takes no more room than the least.
func (p *page) addonType(c *report.Card) float64 {
	least := addonPoints * p.zoom
	if p.twoUp {
		return least
	}
	rest := float64(barRows(c))*easyBarRowMM + p.legendHeight(c) + p.footHeight(c)
	low, _ := p.rehearse(func() { p.feeding(c, least) })
	for points := mostAddonPoints; points > least; points -= 0.5 {
		h, fits := p.rehearse(func() { p.feeding(c, points) })
		if fits && (h <= low+dustMM || p.y+h+rest <= p.bottom) {
			return points
		}
	}
	return least
}

// goesOn heads an area that continues another, so that no sheet lies about without
// the name and the base.
func (p *page) goesOn(name, code string) {
	p.gray(60)
	p.text(p.left, p.y, p.inner*0.6-2, name, "B", 10, "L")
	p.y += p.text(p.left+p.inner*0.6, p.y, p.inner*0.4, "base "+code+", continued", "B", 10, "R") + 2
}

func (p *page) header(c *report.Card) {
	left := p.inner * 0.58
	codeX := p.left + left + 4
	codeW := p.inner - left - 4
	p.gray(0)
	h := p.name(nameOnPaper(c), left)
	p.gray(60)
	h += 0.5
	h += p.paragraph(p.left, p.y+h, left, c.About, "", 10)
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.6)
	p.pdf.Rect(codeX, p.y, codeW, 24, "D")
	p.gray(60)
	p.text(codeX+2, p.y+1.2, codeW-4, "feed only with base", "", 8, "C")
	p.gray(0)
	p.text(codeX+2, p.y+5.2, codeW-4, c.BaseCode, "B", 27, "C")
	p.text(codeX+2, p.y+17.8, codeW-4, c.BaseName, "", 9.5, "C")
	p.y += max(27, h+2)
}

// Sizes of a pet's name in points: on one line as large as fits, on two lines when it
// would get smaller than the second, and on two lines down to the last.
const (
	namePoints      = 34.0
	leastNamePoints = farPoints
	twoLinePoints   = 15.0
)

// name draws the pet's name and returns its height.
func (p *page) name(name string, width float64) float64 {
	if p.widthOf(name, "B", leastNamePoints) <= width {
		return p.text(p.left, p.y, width, name, "B", namePoints, "L")
	}
	var lines []string
	points := leastNamePoints
	for ; ; points -= 0.5 {
		p.font("B", points)
		if lines = p.split(paperText(name), width); len(lines) <= 2 || points <= twoLinePoints {
			break
		}
	}
	if len(lines) > 2 {
		lines = []string{lines[0], strings.Join(lines[1:], " ")}
	}
	h := 0.0
	for _, l := range lines {
		h += p.text(p.left, p.y+h, width, l, "B", points, "L")
	}
	return h
}

// bannerPoints is the type of the warning's title.
const bannerPoints = 16.0

// banner warns of a plan that is short, in words and with a frame.
func (p *page) banner(lines []string, points float64) {
	text := strings.Join(lines, "; ")
	title := points * p.zoom
	line := title*pointInMM*lineFactor + 1
	body := min(10, points-1.5)
	h := line + p.measure(p.inner-6, text, "", body) + 2
	p.need(h)
	p.pdf.SetFillColor(255, 235, 225)
	p.pdf.SetDrawColor(170, 30, 0)
	p.pdf.Rect(p.left, p.y, p.inner, h, "FD")
	p.red()
	p.text(p.left+3, p.y+1, p.inner-6, "NOT ALL TARGETS ARE MET", "B", title, "L")
	p.gray(0)
	p.paragraph(p.left+3, p.y+line, p.inner-6, text, "", body)
	p.y += h + 2
}

// Type of the meals in points. farPoints is what is still read at two metres by eyes
// that see half as sharp as good ones: ten minutes of arc are 5.8 mm, and a capital of
// the font is 0.73 of its size.
const (
	mealPoints  = 28.0
	mealsPoints = 92.0
	farPoints   = 22.6
)

// Type of the add-ons in points: from the one, read with the card in hand, up to the
// other where the page has room.
const (
	addonPoints     = 11.5
	mostAddonPoints = 16.0
)

// mealsShare is the part of the width that the meals take beside the add-ons.
const mealsShare = 0.42

// feeding is the part that is read every day: the meals large, beside them the
// add-ons, the weighings below the shorter of both, then the recipe of the premix.
func (p *page) feeding(c *report.Card, addonPoints float64) {
	left := p.inner * mealsShare
	area := p.area
	y := p.portions(c, left)
	if len(c.Extras) > 0 {
		y += 1.5
		y += p.text(p.left, y, left, report.ExtrasTitle, "B", 9.5*p.zoom, "L")
		amountW := p.amountWidth(c.Extras, 9.5*p.zoom)
		for _, e := range c.Extras {
			y += p.itemLine(p.left, y, amountW, left, e, 9.5*p.zoom)
		}
	}
	p.addons(c, left+4, addonPoints)
	switch {
	case p.area != area:
		// The add-ons went on on another page, and the meals stay on theirs.
		p.y += p.weightPlot(c.Weights, p.left+left+4, p.y+2, p.inner-left-4)
	case p.y < y:
		p.y += p.weightPlot(c.Weights, p.left+left+4, p.y+2, p.inner-left-4)
		p.y = max(p.y, y)
	default:
		p.y = max(p.y, y+p.weightPlot(c.Weights, p.left, y+2, left-4))
	}
	p.y += 1.5
	if len(c.Premix) > 0 {
		p.recipe(c)
	}
	p.y++
	p.rule()
}

// portions draws the meals and returns where they end.
func (p *page) portions(c *report.Card, width float64) float64 {
	const apart = 3.0
	z, y := p.zoom, p.y
	p.gray(0)
	y += p.text(p.left, y, width, "Base, each meal", "B", 11*z, "L") + 0.5
	big := min(mealPoints*z, mealsPoints*z/float64(len(c.Portions)))
	amountW := 0.0
	p.font("B", big)
	for _, m := range c.Portions {
		amountW = max(amountW, p.pdf.GetStringWidth(m.Amount))
	}
	for _, m := range c.Portions {
		small := min(big, farPoints*z)
		at := p.left + amountW + apart
		p.text(at, y+0.9*(big-small)*pointInMM, width-amountW-apart, m.Name, "", small, "L")
		y += p.text(p.left, y, amountW+0.1, m.Amount, "B", big, "L")
	}
	p.gray(60)
	y += p.text(p.left, y, width, "together "+c.Base+" a day", "", 10*z, "L")
	p.gray(0)
	return y
}

// addons lists the add-ons of a day at a distance from the left edge.
func (p *page) addons(c *report.Card, indent, points float64) {
	w := p.inner - indent
	p.gray(0)
	p.y += p.text(p.left+indent, p.y, w, c.AddonsTitle(), "B", 11*p.zoom, "L") + 0.5
	amountW := max(p.amountWidth(c.Addons, points), p.amountWidth(c.Seldom, points))
	least := addonPoints * p.zoom
	leastW := max(p.amountWidth(c.Addons, least), p.amountWidth(c.Seldom, least))
	line := points * pointInMM * lineFactor
	draw := func(a report.Item) {
		p.need(2 * line)
		p.gray(0)
		// One size for the whole list: it grows only while every name that finds room in
		// its least type finds room.
		wide := p.nameWidth(a, points) > w-amountW-nameGapMM
		p.cramped = p.cramped || wide && p.nameWidth(a, least) <= w-leastW-nameGapMM
		h := p.itemLine(p.left+indent, p.y, amountW, w, a, points)
		p.cramped = p.cramped || h > line
		p.y += h
	}
	for _, a := range c.Addons {
		draw(a)
	}
	if len(c.Seldom) == 0 {
		return
	}
	p.need(3 * line)
	p.gray(0)
	p.y += 1
	p.y += p.text(p.left+indent, p.y, w, report.SeldomTitle, "B", 11*p.zoom, "L") + 0.5
	for _, a := range c.Seldom {
		draw(a)
	}
}

// recipe draws what the premix is made of, in two columns: it is read once a month
// and must not take the room of what is read every day.
func (p *page) recipe(c *report.Card) {
	const gap = 4.0
	p.need(25)
	p.gray(0)
	p.y += p.text(p.left, p.y, p.inner, "Recipe of the premix", "B", 10*p.zoom, "L")
	p.y += p.paragraph(p.left, p.y, p.inner, c.PremixRecipe, "", 9*p.zoom)
	col := (p.inner - gap) / 2
	rows := (len(c.Premix) + 1) / 2
	amountW := p.amountWidth(c.Premix, 9*p.zoom)
	for i := range rows {
		p.need(2 * 9 * p.zoom * pointInMM * lineFactor)
		p.gray(0)
		h := p.itemLine(p.left, p.y, amountW, col, c.Premix[i], 9*p.zoom)
		if j := i + rows; j < len(c.Premix) {
			h = max(h, p.itemLine(p.left+col+gap, p.y, amountW, col, c.Premix[j], 9*p.zoom))
		}
		p.y += h
	}
}

// narrow is the share of its type that a name shrinks to before it takes a second
// line.
const narrow = 0.75

// amountWidth is the width of the widest amount of a list.
func (p *page) amountWidth(list []report.Item, points float64) float64 {
	p.font("B", points)
	w := 0.0
	for _, i := range list {
		w = max(w, p.pdf.GetStringWidth(i.Amount))
	}
	return w + 0.5
}

// nameGapMM is the room between an amount and the name behind it.
const nameGapMM = 2.0

// nameWidth is the width of a name with its remark.
func (p *page) nameWidth(i report.Item, points float64) float64 {
	return p.widthOf(i.Whole(), "", points)
}

// itemLine draws an amount, to the right in its width, and a name, and returns the
// height.
func (p *page) itemLine(x, y, amountW, w float64, i report.Item, points float64) float64 {
	p.text(x, y, amountW, i.Amount, "B", points, "R")
	name := i.Whole()
	at, room, least := x+amountW+nameGapMM, w-amountW-nameGapMM, narrow*points
	if p.measure(room, name, "", least) > least*pointInMM*lineFactor+0.01 {
		return max(points*pointInMM*lineFactor, p.paragraph(at, y, room, name, "", least))
	}
	return p.text(at, y, room, name, "", points, "L")
}

func (p *page) rule() {
	if p.rehearsing {
		p.y += 1.5
		return
	}
	p.pdf.SetDrawColor(180, 180, 180)
	p.pdf.SetLineWidth(0.2)
	p.pdf.Line(p.left, p.y, p.left+p.inner, p.y)
	p.y += 1.5
}

// nameOnPaper is the name of the pet where letters may be missing.
func nameOnPaper(c *report.Card) string { return paperName(c.Pet, c.Animal) }
