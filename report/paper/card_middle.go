package paper

import (
	"fmt"

	"bowlwright/report"
)

// middle draws the add-ons and, beside or below them, the jar.
func (p *page) middle(c *report.Card, d density) {
	z, inner := p.zoom, p.inner
	if c.Jar == nil || !p.wide() {
		p.addons(c, d)
		if c.Jar != nil {
			p.y += 2 * z
			p.jar(c, p.left, p.inner)
		}
		p.y += 2 * z
		return
	}
	const jarShare = 0.29
	top, area := p.y, p.area
	jarW := inner * jarShare
	p.inner = inner - jarW - 5*z
	p.addons(c, d)
	p.inner = inner
	end := p.y
	if p.area == area {
		p.y = top
	} else {
		// The add-ons went on on another page; the jar follows them.
		top = p.y + 2*z
		p.y = top
	}
	p.jar(c, p.left+inner-jarW, jarW)
	p.y = max(p.y, end) + 2*z
}

// markSigns are the signs of what is not given daily, in the list and under its days.
var markSigns = []string{"●", "◆", "★", "○", "◇", "☆"}

// Signs under the days of the calendar.
const (
	weighSign = "▲"
	jarSign   = "■"
)

// signOf is the sign of the nth item that is not given daily.
func signOf(n int) string { return markSigns[n%len(markSigns)] }

// addons lists what is given beside the base, each with a box to tick.
func (p *page) addons(c *report.Card, d density) {
	z := p.zoom
	points := addonPoints * z
	bandH := lineMM(points) + 1.6*z
	p.need(bandH + d.row*z)
	if len(c.Addons)+len(c.Seldom) > 0 {
		p.accentBand(p.left, p.y, p.inner, bandH)
	} else {
		p.gray(0)
	}
	p.text(p.left+3*z, p.y+0.8*z, p.inner-6*z, c.AddonsTitle(), "B", points, "L")
	p.y += bandH
	amountW := p.amountWidth(c.Addons, points)
	for _, s := range c.Seldom {
		amountW = max(amountW, p.amountWidth([]report.Item{s.Item}, points))
	}
	amountW = max(amountW, p.amountWidth(c.Extras, points))
	for _, a := range c.Addons {
		p.addon(a, "", "", amountW, d.row*z)
	}
	if len(c.Seldom) > 0 {
		p.subtitle(report.SeldomTitle, d.row*z)
	}
	for i, s := range c.Seldom {
		p.addon(report.Item{Amount: s.Amount, Name: s.Name, Remark: s.Remark}, signOf(i), s.Dates, amountW, d.row*z)
	}
	if len(c.Extras) > 0 {
		p.subtitle(report.ExtrasTitle, d.row*z)
		for _, e := range c.Extras {
			p.addon(e, "", "", amountW, d.row*z)
		}
	}
}

func (p *page) subtitle(s string, row float64) {
	width := p.inner
	p.need(2 * row)
	p.inner = width
	p.gray(0)
	p.y += 0.8 * p.zoom
	p.y += p.text(p.left, p.y, p.inner, s, "B", p.pt(titlePoints), "L")
}

// addon is a row of the list: a box, the amount, the name, and small what else there is to
// say, beside the name where it finds room, else below it.
func (p *page) addon(a report.Item, sign, dates string, amountW, row float64) {
	z := p.zoom
	points, small := addonPoints*z, p.pt(smallPoints)
	side := min(5.0*z, row-1.2*z)
	indent := side + 2*z + amountW + 3*z
	room := p.inner - indent
	remark := a.Remark
	if sign != "" {
		remark = sign + " " + remark
	}
	// Names shrink a little before they take a second line.
	namePoints := points
	for namePoints > narrow*points && p.widthOf(a.Name, "", namePoints) > room {
		namePoints -= 0.5
	}
	p.font("", namePoints)
	lines := p.split(paperText(a.Name), room)
	lineH := lineMM(namePoints)
	beside := remark != "" && p.widthOf(lines[len(lines)-1], "", namePoints)+3*z+p.widthOf(remark, "B", small) <= room
	h := float64(len(lines)) * lineH
	if remark != "" && !beside {
		h += p.measure(room, remark, "B", small)
	}
	if dates != "" {
		h += p.measure(room, dates, "", small)
	}
	h = max(row, h+1.2*z)
	width := p.inner
	p.need(h)
	p.inner = width
	x, nameX := p.left+side+2*z, p.left+indent
	y := p.y + (min(row, h)-lineMM(points))/2
	p.tickBox(p.left, p.y+(min(row, h)-side)/2, side)
	p.gray(0)
	p.text(x, y, amountW, a.Amount, "B", points, "R")
	if len(lines) > 1 || remark != "" && !beside || dates != "" {
		y = p.y + 0.6*z
	} else {
		y = p.y + (row-lineH)/2
	}
	for i, l := range lines {
		p.text(nameX, y, room, l, "", namePoints, "L")
		if i == len(lines)-1 && beside {
			at := nameX + p.widthOf(l, "", namePoints) + 3*z
			p.text(at, y+lineH-lineMM(small)-0.4*z, p.left+p.inner-at+0.1, remark, "B", small, "L")
		}
		y += lineH
	}
	if remark != "" && !beside {
		y += p.paragraph(nameX, y, room, remark, "B", small)
	}
	if dates != "" {
		p.paragraph(nameX, y, room, dates, "", small)
	}
	p.y += h
	p.hline(p.left, p.y, p.inner, 0.15, 170)
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

// jar draws the box of the premix: round and reversed, so that it is never taken for a
// base.
func (p *page) jar(c *report.Card, x, w float64) {
	z, j := p.zoom, c.Jar
	pad := 3 * z
	inner := w - 2*pad
	dose := nameOnPaper(c) + ", once a day"
	titleH := lineMM(p.pt(smallPoints)) + 2.5*z
	if j.Code != "" {
		titleH += lineMM(17 * z)
	} else {
		titleH += 2 * z
	}
	doseH := p.measure(inner, dose, "", p.pt(smallPoints)) + lineMM(22*z)
	lineH := lineMM(p.pt(smallPoints)) + 5.5*z
	recipe := "Recipe: see the mixing sheet"
	h := titleH + 1.5*z + doseH + 2*lineH + 1.5*z + p.measure(inner, recipe, "", p.pt(notePoints)) + 1.5*z
	x = p.needAt(h, x)
	if !p.rehearsing {
		level := 0
		if p.void {
			level = voidGray
		}
		p.pdf.SetFillColor(level, level, level)
		p.pdf.RoundedRect(x, p.y, w, titleH, 3*z, "12", "F")
		p.pdf.SetDrawColor(level, level, level)
		p.pdf.SetLineWidth(0.4)
		p.pdf.RoundedRect(x, p.y, w, h, 3*z, "1234", "D")
	}
	y := p.y + 1.2*z
	void := p.void
	p.void = false
	p.white()
	y += p.text(x+pad, y, inner, j.Title, "", p.pt(smallPoints), "L")
	if j.Code != "" {
		p.text(x+pad, y, inner, j.Code, "B", 17*z, "L")
	}
	p.void = void
	y = p.y + titleH + 1.5*z
	p.gray(0)
	y += p.paragraph(x+pad, y, inner, dose, "", p.pt(smallPoints))
	y += p.text(x+pad, y, inner, j.Dose, "B", 22*z, "L")
	for _, blank := range []struct{ label, value string }{{"Mixed on", report.DayText(j.MixedOn)}, {fmt.Sprintf("Good until (%d days)", j.Days), report.DayText(j.GoodUntil)}} {
		p.gray(0)
		p.text(x+pad, y, inner, blank.label, "", p.pt(smallPoints), "L")
		if blank.value != "" {
			p.text(x+pad, y+lineMM(p.pt(smallPoints))-0.5*z, inner, blank.value, "B", 11*z, "L")
		}
		y += lineH
		p.hline(x+pad, y-0.4*z, inner, 0.2, 0)
	}
	p.paragraph(x+pad, y+1.2*z, inner, recipe, "", p.pt(notePoints))
	p.y += h
}
