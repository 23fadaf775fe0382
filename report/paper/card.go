package paper

import (
	"fmt"
	"io"

	"bowlwright/household"
	"bowlwright/report"
)

// Cards writes for each pet a page and its back, or half a page with TwoUp; a card that
// is too full goes on on the next. It fails with a *household.NotPrintableError when a
// plan has no amounts that may be printed.
func Cards(w io.Writer, ps []household.Paired, o Options) error {
	p, err := drawCards(ps, o)
	if err != nil {
		return err
	}
	return p.output(w)
}

// Scale of the cards that are not a page in ordinary type. Half a page is 0.7 times as
// wide; in large print what is smallest is 16 points.
const (
	halfZoom  = 0.72
	largeZoom = 1.75
)

// drawCards draws the pages and keeps what stands where on them.
func drawCards(ps []household.Paired, o Options) (*page, error) {
	if len(ps) == 0 {
		return nil, fmt.Errorf("there is no card to print")
	}
	p := newPage(o, ps[0].Plan().Date, "Daily cards of "+ps[0].Plan().Household)
	switch {
	case o.TwoUp:
		p.zoom = halfZoom
	case o.Large:
		p.zoom = largeZoom
	}
	for _, paired := range ps {
		c, err := report.NewCard(paired, o.Setting)
		if err != nil {
			return nil, err
		}
		p.heading = nil
		p.next()
		p.heading = func() { p.goesOn(nameOnPaper(c), c.BaseCode) }
		if o.Large {
			p.upper(c, largeDensity)
			p.foot(c, false)
			continue
		}
		p.front(c, !o.TwoUp)
		if !o.TwoUp {
			p.heading = nil
			p.next()
			p.heading = func() { p.goesOn(nameOnPaper(c), c.BaseCode) }
			p.back(c)
		} else if p.notesOnBack {
			p.next()
			p.heading()
			p.notes(c, p.left, p.inner)
		}
	}
	return p, nil
}

// nameOnPaper is the name of the pet where letters may be missing.
func nameOnPaper(c *report.Card) string { return paperName(c.Pet, c.Animal) }

// goesOn heads an area that continues another, so that no sheet lies about without
// the name and the base.
func (p *page) goesOn(name, code string) {
	p.gray(60)
	p.text(p.left, p.y, p.inner*0.6-2, name, "B", 10, "L")
	p.y += p.text(p.left+p.inner*0.6, p.y, p.inner*0.4, "base "+code+", continued", "B", 10, "R") + 2
}

// density is how a front is set: the heights of a row of the meals and of the add-ons in
// millimetres, whether the notes stand on the back, and whether the calendar is left out.
type density struct {
	meal, row   float64
	notesOnBack bool
	noCalendar  bool
}

// densities from the one at ease to the densest.
var densities = []density{{20, 9.4, false, false}, {18, 8.4, false, false}, {16, 7.6, false, false}, {14, 6.9, false, false},
	{20, 9.4, true, false}, {18, 8.4, true, false}, {16, 7.6, true, false}, {14, 6.9, true, false}, {16, 7.6, true, true}, {12.5, 6.4, true, true}}

// largeDensity is that of large print, which goes on over several pages.
var largeDensity = density{meal: 18, row: 8.4}

// front draws the front of a card as loosely as its page holds; what even the densest
// does not hold goes on on the next page.
func (p *page) front(c *report.Card, hasBack bool) {
	foot := p.footHeight()
	p.bottom -= foot
	area, d := p.area, densities[len(densities)-1]
	for _, try := range densities {
		if _, fits := p.rehearse(func() { p.upper(c, try) }); fits {
			d = try
			break
		}
	}
	p.notesOnBack = d.notesOnBack
	p.upper(c, d)
	if p.area == area {
		p.bottom += foot
	}
	p.foot(c, hasBack)
}

// upper draws all of a front but its foot.
func (p *page) upper(c *report.Card, d density) {
	void := report.Void(c.Notices)
	p.notices(c.Notices)
	p.head(c)
	p.void = void
	p.use(c)
	p.meals(c, d)
	p.middle(c, d)
	p.void = false
	if void {
		p.now(c)
		return
	}
	if len(c.Notices) == 0 && !d.noCalendar {
		p.calendar(c)
	}
	p.verdict(c, d)
}

// Type on a card in points. farPoints is what is still read at two metres by eyes that
// see half as sharp as good ones: ten minutes of arc are 5.8 mm, and a capital of the
// font is 0.73 of its size. notePoints is the smallest type on a front.
const (
	farPoints   = 22.6
	namePoints  = 40.0
	mealPoints  = 24.0
	gramsPoints = 40.0
	aboutPoints = 11.5
	codePoints  = 23.0
	addonPoints = 15.0
	smallPoints = 9.5
	notePoints  = 9.0
	titlePoints = 11.0
)

// pt scales a type, but never under the smallest.
func (p *page) pt(points float64) float64 { return max(points*p.zoom, notePoints) }

// wide says whether two columns find room beside each other.
func (p *page) wide() bool { return p.inner >= 150*p.zoom }

// head draws who it is.
func (p *page) head(c *report.Card) {
	// The photo of a card that is out of date is gone, as its ticks are.
	const photoMM = 28.0
	top, w, foot := p.y, p.inner, 0.0
	if data := p.photos[c.Pet]; data != nil && !report.Void(c.Notices) {
		side := photoMM * min(p.zoom, 1.2)
		w, foot = p.inner-side-4*p.zoom, top+side
		p.photo(c.Pet, data, p.left+p.inner-side, top, side)
	}
	p.gray(0)
	p.y += p.name(nameOnPaper(c), w)
	p.y += 0.5
	p.y += p.paragraph(p.left, p.y, w, c.About, "", p.pt(aboutPoints))
	p.y += p.paragraph(p.left, p.y, w, c.Feeding, "B", p.pt(aboutPoints))
	p.y = max(p.y, foot)
	p.y += 1.5 * p.zoom
	p.hline(p.left, p.y, p.inner, 0.5, 0)
	p.y += 2 * p.zoom
}

// name draws the pet's name on one line, or smaller on two, and returns its height.
func (p *page) name(name string, width float64) float64 {
	const twoLines = 15.0
	least := farPoints * p.zoom
	if p.widthOf(name, "B", least) <= width {
		return p.text(p.left, p.y, width, name, "B", namePoints*p.zoom, "L")
	}
	var lines []string
	points := least
	for ; ; points -= 0.5 {
		p.font("B", points)
		if lines = p.split(paperText(name), width); len(lines) <= 2 || points <= twoLines*p.zoom {
			break
		}
	}
	h := 0.0
	for i, l := range lines {
		if i == 1 {
			for _, more := range lines[2:] {
				l += " " + more
			}
		}
		if i < 2 {
			h += p.text(p.left, p.y+h, width, l, "B", points, "L")
		}
	}
	return h
}

// use draws which base the card is for and how long it holds.
func (p *page) use(c *report.Card) {
	z, x, w := p.zoom, p.left, p.inner
	if p.wide() {
		w = p.inner * 0.42
	}
	top := p.y
	p.gray(0)
	p.y += p.text(x, p.y, w, "Use only with base", "", p.pt(notePoints), "L") + 0.8*z
	codeW := min(p.widthOf(c.BaseCode, "B", codePoints*z)+8*z, w)
	h := lineMM(codePoints*z) + 0.6*z
	p.frame(x, p.y, codeW, h, 0.5)
	p.text(x+4*z, p.y+0.3*z, codeW-8*z+0.1, c.BaseCode, "B", codePoints*z, "C")
	if p.void && !p.rehearsing {
		p.hline(x+3*z, p.y+h/2, codeW-6*z, 0.7, voidGray)
	}
	p.y += h + 1*z
	end := p.y
	if p.wide() {
		x, w = p.left+w+4*z, p.inner-w-4*z
		p.y = top
	} else {
		p.y += 1 * z
	}
	p.gray(0)
	label, value := c.Validity()
	p.y += p.paragraph(x, p.y, w, label, "", p.pt(notePoints)) + 0.8*z
	p.y += p.text(x, p.y+0.8*z, w, value, "B", 17*z, "L") + 0.8*z
	p.y = max(p.y, end) + 1*z
	p.hline(p.left, p.y, p.inner, 0.2, 0)
}

// meals draws a row a meal: name, grams of base, what goes in beside it.
func (p *page) meals(c *report.Card, d density) {
	z := p.zoom
	h := d.meal * z
	nameW, amountW := p.inner*0.33, p.inner*0.3
	if !p.wide() {
		nameW, amountW = p.inner*0.46, p.inner*0.54
	}
	for _, m := range c.Meals {
		rowH := h
		if !p.wide() {
			rowH += lineMM(p.pt(13)) + 2*z
		}
		p.need(rowH)
		big := min(gramsPoints, d.meal*2.3) * z
		p.gray(0)
		p.text(p.left, p.y+(h-lineMM(mealPoints*z))/2, nameW, m.Name, "", mealPoints*z, "L")
		p.text(p.left+nameW, p.y+(h-lineMM(big))/2, amountW, m.Amount, "B", big, "R")
		x, w, y, boxH := p.left+nameW+amountW+6*z, p.inner-nameW-amountW-6*z, p.y+h*0.22, h*0.56
		if !p.wide() {
			x, w, y, boxH = p.left, p.inner, p.y+h-1*z, lineMM(p.pt(13))+1.5*z
		}
		points := p.pt(13)
		if m.Addons && len(c.Addons)+len(c.Seldom) > 0 {
			p.accentBand(x, y, w, boxH)
			p.text(x+2*z, y+(boxH-lineMM(points))/2, w-4*z, c.With(m), "B", points, "C")
		} else {
			p.gray(0)
			p.text(x, y+(boxH-lineMM(p.pt(12)))/2, w, c.With(m), "", p.pt(12), "L")
		}
		p.y += rowH
		p.hline(p.left, p.y, p.inner, 0.2, 0)
	}
	p.need(lineMM(p.pt(smallPoints)) + 3*z)
	p.y += 0.8 * z
	p.gray(0)
	p.y += p.text(p.left, p.y, p.inner, c.BaseName+" · "+c.BaseTotal(), "", p.pt(smallPoints), "R") + 1.5*z
}

// accentBand is what marks the bowl that gets the add-ons: filled, or a frame where the
// card is void. The text on it is white, or grey.
func (p *page) accentBand(x, y, w, h float64) {
	if p.void {
		p.frame(x, y, w, h, 0.4)
		return
	}
	p.fill(x, y, w, h, accent[0], accent[1], accent[2])
	p.white()
}

// foot says until when to weigh, and what the card was made for.
func (p *page) foot(c *report.Card, hasBack bool) {
	z := p.zoom
	h := p.footHeight()
	p.need(h)
	p.y = max(p.y, p.bottom-h)
	p.hline(p.left, p.y, p.inner, 0.5, 0)
	p.gray(0)
	y := p.y + 1.5*z
	points := 16 * z
	lines := "______ kg on _______"
	blank := p.widthOf(lines, "", p.pt(11))
	if !p.wide() {
		blank = 0
	}
	p.text(p.left, y, p.inner-blank-3*z, c.WeighText(nameOnPaper(c)), "B", points, "L")
	if blank > 0 {
		p.text(p.left+p.inner-blank-0.1, y+lineMM(points)-lineMM(p.pt(11)), blank+0.1, lines, "", p.pt(11), "R")
	}
	y += lineMM(points) + 0.5*z
	made := c.Made + " For a healthy animal. " + c.Household
	if hasBack {
		made += " · all nutrients on the back"
	}
	p.gray(50)
	p.text(p.left, y, p.inner, made, "", min(8*z, 9), "L")
	p.y = p.bottom
}

// footHeight is the height of the foot.
func (p *page) footHeight() float64 {
	return 3*p.zoom + lineMM(16*p.zoom) + lineMM(min(8*p.zoom, 9))
}
