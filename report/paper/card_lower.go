package paper

import (
	"fmt"

	"bowlwright/household"
	"bowlwright/report"
)

// calendar draws four weeks with a box for each meal, and under the days what is due on
// them.
func (p *page) calendar(c *report.Card) {
	z := p.zoom
	rows := 0
	for _, m := range c.Meals {
		rows += m.Count
	}
	weeks := 1
	if !p.wide() {
		weeks = 2
	}
	small := max(7*z, 6)
	labelW := 18 * z
	days := report.CalendarDays / weeks
	day := (p.inner - labelW) / float64(days)
	side := min(day-1.2*z, 4.6*z)
	h := lineMM(p.pt(smallPoints)) + float64(weeks)*(3*lineMM(small)+float64(rows)*(side+1*z)+1.5*z)
	p.need(h)
	p.gray(0)
	p.y += p.text(p.left, p.y, p.inner, p.calendarTitle(c), "B", p.pt(smallPoints), "L")
	for week := range weeks {
		first := c.From.AddDays(week * days)
		p.text(p.left, p.y+lineMM(small), labelW, first.Time().Format("Jan")+monthAfter(first, days), "", small, "L")
		name := 0
		for _, m := range c.Meals {
			for i := range m.Count {
				label := m.Name
				if m.Count > 1 {
					label = fmt.Sprintf("Meal %d", name+1)
				}
				p.text(p.left, p.y+2*lineMM(small)+float64(name)*(side+1*z)+(side-lineMM(small))/2, labelW, label, "", small, "L")
				name += min(1, i+1)
			}
		}
		for i := range days {
			d := first.AddDays(i)
			x := p.left + labelW + float64(i)*day
			p.text(x, p.y, day, d.Time().Format("Mon")[:1], "", small, "C")
			p.text(x, p.y+lineMM(small), day, fmt.Sprint(d.Time().Day()), "B", small, "C")
			for r := range rows {
				p.tickBox(x+(day-side)/2, p.y+2*lineMM(small)+float64(r)*(side+1*z), side)
			}
			if signs := signsOn(c, d); signs != "" {
				p.text(x-day*0.2, p.y+2*lineMM(small)+float64(rows)*(side+1*z), day*1.4, signs, "", small, "C")
			}
		}
		p.y += 3*lineMM(small) + float64(rows)*(side+1*z) + 1.5*z
	}
}

// monthAfter names the month in which a row of days ends, where it is another.
func monthAfter(first household.Date, days int) string {
	last := first.AddDays(days - 1)
	if last.Time().Month() == first.Time().Month() {
		return ""
	}
	return " / " + last.Time().Format("Jan")
}

// calendarTitle explains the signs.
func (p *page) calendarTitle(c *report.Card) string {
	s := "Given"
	for i, o := range c.Seldom {
		s += "   " + signOf(i) + " " + o.Name
	}
	return s + "   " + weighSign + " weigh " + nameOnPaper(c)
}

// signsOn are the signs of what is due on a day.
func signsOn(c *report.Card, d household.Date) string {
	s := ""
	for i, o := range c.Seldom {
		for _, due := range o.Days {
			if due == d {
				s += signOf(i)
			}
		}
	}
	if d == c.WeighBy {
		s += weighSign
	}
	return s
}

// verdict draws whether the day is enough, what to watch and what to mind; two columns
// where there is room.
func (p *page) verdict(c *report.Card, d density) {
	z := p.zoom
	p.y += 1 * z
	p.hline(p.left, p.y, p.inner, 0.2, 0)
	p.y += 1.5 * z
	if len(c.Banner) > 0 {
		p.banner(c.Banner, 13*z)
	}
	if !p.wide() {
		p.judgement(c, p.left, p.inner)
		p.y += 1.5 * z
		p.notes(c, p.left, p.inner)
		return
	}
	if d.notesOnBack && p.twoUp {
		p.judgement(c, p.left, p.inner)
		p.need(lineMM(p.pt(titlePoints)))
		p.gray(0)
		p.y += p.text(p.left, p.y, p.inner, report.NoteTitle+p.elsewhere(), "B", p.pt(titlePoints), "L")
		return
	}
	left, inner, top, area := p.left, p.inner, p.y, p.area
	w := inner*0.5 - 3*z
	p.judgement(c, left, w)
	end := p.y
	switch {
	case p.area != area && d.notesOnBack:
		return
	case p.area != area:
		p.notes(c, p.left, inner)
		return
	}
	p.y = top
	if d.notesOnBack {
		p.firstNotes(c, left+w+6*z, w)
	} else {
		p.notes(c, left+w+6*z, w)
	}
	if p.area == area {
		p.y = max(p.y, end)
	}
}

// firstNotes draws as many of the notes as find room on a front whose back has them all.
func (p *page) firstNotes(c *report.Card, x, w float64) {
	p.need(lineMM(p.pt(titlePoints)))
	p.gray(0)
	p.y += p.text(x, p.y, w, report.NoteTitle+p.elsewhere(), "B", p.pt(titlePoints), "L") + 0.5*p.zoom
	for i, s := range c.NoteLines() {
		h := p.measure(w, s, "", p.pt(notePoints)) + 0.8*p.zoom
		if p.y+h > p.bottom {
			return
		}
		p.gray(0)
		if i < len(c.Own) && c.Own[i].Loosened {
			p.red()
		}
		p.y += p.paragraph(x, p.y, w, s, "", p.pt(notePoints)) + 0.8*p.zoom
	}
}

// elsewhere says where the notes stand.
func (p *page) elsewhere() string {
	if p.twoUp {
		return " (all on the next half)"
	}
	return " (all on the back)"
}

// judgement is the verdict with what needs attention.
func (p *page) judgement(c *report.Card, x, w float64) {
	z := p.zoom
	p.gray(0)
	h := p.measure(w, c.Verdict, "B", p.pt(titlePoints))
	x = p.needAt(h, x)
	p.y += p.paragraph(x, p.y, w, c.Verdict, "B", p.pt(titlePoints)) + 1*z
	if len(c.Watched) == 0 {
		return
	}
	x = p.needAt(4*lineMM(p.pt(notePoints)), x)
	p.gray(0)
	p.y += p.text(x, p.y, w, report.WatchTitle, "B", p.pt(notePoints), "L")
	row := lineMM(p.pt(notePoints)) + 0.6*z
	nameW, trackW := w*0.38, w*0.22
	for _, t := range c.Watched {
		style := ""
		if t.Failed {
			style = "B"
		}
		lines := max(p.measure(w-nameW-trackW-3*z, t.Reason, style, p.pt(notePoints)), p.measure(nameW-1*z, t.Name, style, p.pt(notePoints))) + 0.6*z
		x = p.needAt(max(row, lines), x)
		p.gray(0)
		p.paragraph(x, p.y, nameW-1*z, t.Name, style, p.pt(notePoints))
		p.track(x+nameW, p.y, trackW, row, t.Bar)
		p.paragraph(x+nameW+trackW+3*z, p.y, w-nameW-trackW-3*z, t.Reason, style, p.pt(notePoints))
		p.y += max(row, lines)
	}
	if mark := c.RecalledMark(); mark != "" {
		x = p.needAt(2*row, x)
		p.gray(0)
		p.y += p.paragraph(x, p.y, w, mark, "", p.pt(notePoints))
	}
}

// notes draws what to mind, nine points at least, and loosened limits in red.
func (p *page) notes(c *report.Card, x, w float64) {
	x = p.needAt(3*lineMM(p.pt(titlePoints)), x)
	p.gray(0)
	p.y += p.text(x, p.y, w, report.NoteTitle, "B", p.pt(titlePoints), "L") + 0.5*p.zoom
	area := p.area
	for i, s := range c.NoteLines() {
		h := p.measure(w, s, "", p.pt(notePoints))
		if p.need(h); p.area != area {
			x, w = p.left, p.inner
		}
		p.gray(0)
		if i < len(c.Own) && c.Own[i].Loosened {
			p.red()
		}
		p.y += p.paragraph(x, p.y, w, s, "", p.pt(notePoints)) + 0.8*p.zoom
	}
}

// banner says what is below its minimum, in words and with a frame.
func (p *page) banner(lines []string, points float64) {
	z := p.zoom
	text := ""
	for i, l := range lines {
		if i > 0 {
			text += "; "
		}
		text += l
	}
	body := p.pt(10)
	h := lineMM(points) + p.measure(p.inner-6*z, text, "", body) + 2*z
	p.need(h)
	p.frame(p.left, p.y, p.inner, h, 0.7)
	p.gray(0)
	p.text(p.left+3*z, p.y+0.8*z, p.inner-6*z, report.ShortTitle, "B", points, "L")
	p.paragraph(p.left+3*z, p.y+0.8*z+lineMM(points), p.inner-6*z, text, "", body)
	p.y += h + 2*z
}

// now says what to do with a card that is out of date.
func (p *page) now(c *report.Card) {
	z := p.zoom
	p.gray(0)
	p.y += 3 * z
	p.need(3 * lineMM(p.pt(12)))
	p.y += p.text(p.left, p.y, p.inner, "Now", "B", p.pt(13), "L") + 1*z
	for i, s := range c.Now(nameOnPaper(c)) {
		p.y += p.paragraph(p.left, p.y, p.inner, fmt.Sprintf("%d. %s", i+1, s), "", p.pt(12)) + 0.5*z
	}
}

// notices draws the bands across the top of a sheet that must not be used as it is.
func (p *page) notices(list []report.Notice) {
	z := p.zoom
	for _, n := range list {
		title, body := 30*z, p.pt(11)
		h := 4*z + lineMM(title)
		lead := "Do not feed from this card. "
		if !n.Void {
			lead = "Do not feed from this card yet. "
		}
		texts := []string{lead}
		for _, r := range n.Reasons {
			texts[0] += r + " "
		}
		if n.Advice != "" {
			texts = append(texts, n.Advice)
		}
		if n.Command != "" {
			texts = append(texts, n.Command)
		}
		for _, s := range texts {
			h += p.measure(p.inner-6*z, s, "B", body)
		}
		h += 2 * z
		p.fill(p.left, p.y, p.inner, h, 0, 0, 0)
		p.stripes(p.left, p.y+h, p.inner, 3*z)
		y := p.y + 2*z
		p.white()
		y += p.text(p.left+3*z, y, p.inner-6*z, n.Title, "B", title, "L")
		for i, s := range texts {
			style := ""
			if i > 0 && s == n.Command {
				style = "B"
			}
			p.white()
			y += p.paragraph(p.left+3*z, y, p.inner-6*z, s, style, body)
		}
		p.y += h + 5*z
	}
}

// stripes draws the edge of a band, which no valid sheet has.
func (p *page) stripes(x, y, w, h float64) {
	if p.rehearsing {
		return
	}
	p.pdf.SetFillColor(0, 0, 0)
	for at := 0.0; at+2*h <= w; at += 3 * h {
		p.pdf.Polygon(corners(x+at, y, x+at+h, y, x+at+2*h, y+h, x+at+h, y+h), "F")
	}
}
