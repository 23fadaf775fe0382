package paper

import (
	"fmt"
	"io"

	"bowlwright/household"
	"bowlwright/report"
)

// Measures of the mixing sheet in millimetres and points: read while weighing, at arm's
// length.
const (
	mixRowMM     = 7.1
	mixPoints    = 13.0
	mixSmall     = 9.0
	mixBoxMM     = 4.4
	mixAmountMM  = 32.0
	mixShowsMM   = 31.0
	mixPlateMM   = 51.0
	mixPlateHigh = 18.5
)

// Mix writes mixing sheets, each on a page of its own.
func Mix(w io.Writer, sheets []*household.MixSheet, o Options) error {
	return drawMix(sheets, o).output(w)
}

func drawMix(sheets []*household.MixSheet, o Options) *page {
	o.TwoUp = false
	p := newPage(o, sheets[0].Date, "Mixing sheet")
	for i, s := range sheets {
		m := report.NewMix(s)
		p.heading = nil
		p.next()
		p.mixHead(m, i+1, len(sheets), s.Household)
		p.heading = func() { p.goesOn(m.Title, m.Code) }
		for _, section := range m.Sections {
			p.mixSection(section)
		}
		p.need(mixRowMM)
		p.mixBox()
		p.text(p.left+14, p.y, mixAmountMM, m.Total, "B", mixPoints, "R")
		p.mixName(report.MixLine{Name: "in the jar", Remark: m.Range}, "B")
		p.y += mixRowMM
		p.mixRule(p.y, 0.5)
		p.y += 4
		p.mixFoot(m)
		p.need(8)
		p.y = max(p.y+2, p.bottom-6)
		p.mixRule(p.y, 0.2)
		p.text(p.left, p.y+1, p.inner, m.Foot, "", mixSmall, "L")
	}
	return p
}

// mixHead draws the title and, reversed, the code to write on the jar.
func (p *page) mixHead(m *report.Mix, n, of int, household string) {
	x := p.left + p.inner - mixPlateMM
	p.pdf.SetFillColor(0, 0, 0)
	p.pdf.RoundedRect(x, p.y, mixPlateMM, mixPlateHigh, 2.5, "1234", "F")
	p.gray(255)
	p.text(x+3.5, p.y+2, mixPlateMM-7, "Write on the jar", "", mixSmall+1, "L")
	p.text(x+3.5, p.y+7, mixPlateMM-7, m.Code, "B", 20, "L")
	p.gray(0)
	width := p.inner - mixPlateMM - 6
	y := p.y
	y += p.text(p.left, y, width, "Mixing sheet", "B", 24, "L")
	y += p.text(p.left, y, width, fmt.Sprintf("%s, jar %d of %d of %s", m.Title, n, of, household), "", 11, "L")
	p.y = max(y+p.paragraph(p.left, y, width, m.For+"; "+m.Scale, "", 11), p.y+mixPlateHigh) + 2.5
	p.mixRule(p.y, 0.5)
	p.y += 3.5
	blank := "Mixed on ______________   by __________________   good until ______________ (" + m.Good + ")"
	p.y += p.text(p.left, p.y, p.inner, blank, "", 11, "L") + 2
	if m.InHand != "" {
		p.y += p.paragraph(p.left, p.y, p.inner, m.InHand, "B", 10) + 1
	}
	p.text(p.left+14, p.y, mixAmountMM, "weigh out", "B", mixSmall, "R")
	p.text(p.left+14+mixAmountMM+5, p.y, 60, "powder", "", mixSmall, "L")
	p.text(p.left+p.inner-mixShowsMM-12, p.y, mixShowsMM+8, "scale then shows, g", "", mixSmall, "R")
	p.y += 5
}

// mixSection draws the head of a part, its weighings, and what to do after them.
func (p *page) mixSection(s report.MixSection) {
	const head = 6.0
	p.need(head + 2*mixRowMM)
	p.pdf.SetFillColor(0, 0x56, 0x6b)
	p.pdf.Rect(p.left, p.y, p.inner, head, "F")
	p.gray(255)
	p.font("B", 11.5)
	w := p.pdf.GetStringWidth(paperText(s.Head)) + 1
	p.text(p.left+2, p.y+0.5, w, s.Head, "B", 11.5, "L")
	p.text(p.left+2+w+3, p.y+0.7, p.inner-w-8, s.About, "", 10, "L")
	p.gray(0)
	p.y += head
	for _, l := range s.Lines {
		p.need(mixRowMM)
		p.pdf.SetFillColor(238, 238, 238)
		p.pdf.Rect(p.left+p.inner-mixShowsMM-4, p.y, mixShowsMM+4, mixRowMM, "F")
		p.mixBox()
		p.text(p.left+7, p.y+1, 7, fmt.Sprint(l.Number), "", mixSmall, "L")
		p.text(p.left+14, p.y+0.3, mixAmountMM, l.Amount, "B", mixPoints, "R")
		p.mixName(l, "")
		p.text(p.left+p.inner-mixShowsMM-4, p.y+0.3, mixShowsMM, l.Shows, "", mixPoints, "R")
		p.y += mixRowMM
		p.mixRule(p.y, 0.1)
	}
	if s.After != "" {
		p.need(mixRowMM)
		p.mixBox()
		p.text(p.left+14+mixAmountMM+5, p.y+1, p.inner-14-mixAmountMM-5, s.After, "B", 10, "L")
		p.y += mixRowMM
	}
}

// mixBox draws a box to tick at the left of a row.
func (p *page) mixBox() {
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.3)
	p.pdf.Rect(p.left, p.y+(mixRowMM-mixBoxMM)/2, mixBoxMM, mixBoxMM, "D")
}

// mixName draws the name of a powder with its remark beside it.
func (p *page) mixName(l report.MixLine, style string) {
	x := p.left + 14 + mixAmountMM + 5
	width := p.inner - 14 - mixAmountMM - 5 - mixShowsMM - 6
	name := l.Name
	if l.Remark == "" {
		p.text(x, p.y+0.3, width, name, style, mixPoints, "L")
		return
	}
	p.font("", mixSmall)
	remark := p.pdf.GetStringWidth(paperText(l.Remark)) + 1
	if style == "B" {
		// The total has no column of its own.
		width += mixShowsMM
	}
	p.font(style, mixPoints)
	w := min(p.pdf.GetStringWidth(paperText(name))+0.5, width-remark-2)
	p.text(x, p.y+0.3, w, name, style, mixPoints, "L")
	p.text(x+w+2, p.y+1.3, remark, l.Remark, "", mixSmall, "L")
}

func (p *page) mixRule(y, width float64) {
	p.pdf.SetDrawColor(0, 0, 0)
	if width < 0.2 {
		p.pdf.SetDrawColor(200, 200, 200)
	}
	p.pdf.SetLineWidth(width)
	p.pdf.Line(p.left, y, p.left+p.inner, y)
}

// mixFoot draws the doses and, beside them where both find room on the page, what to note.
func (p *page) mixFoot(m *report.Mix) {
	left, inner := p.left, p.inner
	const gap = 8.0
	half := (inner - gap) / 2
	beside := func() (float64, bool) {
		p.inner = half
		doses, fits := p.rehearse(func() { p.mixDoses(m) })
		notes, also := p.rehearse(func() { p.mixNotes(m) })
		p.inner = inner
		return max(doses, notes), fits && also && p.y+max(doses, notes) <= p.bottom-8
	}
	if h, fits := beside(); fits && len(m.Doses) < mostBeside {
		top := p.y
		p.inner = half
		p.mixDoses(m)
		p.y, p.left = top, left+half+gap
		p.mixNotes(m)
		p.left, p.inner, p.y = left, inner, top+h
		return
	}
	p.mixDoses(m)
	p.mixNotes(m)
}

// mostBeside is for how many pets doses and notes stand beside each other.
const mostBeside = 9

// mixDoses draws the dose of each pet in large type.
func (p *page) mixDoses(m *report.Mix) {
	const row = 8.0
	p.need(14 + row*float64(min(len(m.Doses), 4)))
	p.text(p.left, p.y, p.inner, "Doses from this jar, once a day", "B", 12, "L")
	p.y += 6.5
	for _, d := range m.Doses {
		p.need(row)
		p.text(p.left, p.y+1, p.inner*0.36, d.Pet+", "+d.Kind, "", 11.5, "L")
		p.text(p.left+p.inner*0.36, p.y, p.inner*0.27, d.Dose, "B", 17, "R")
		p.text(p.left+p.inner*0.66, p.y+1.2, p.inner*0.34, fmt.Sprintf("%s days, %s", d.Days, d.InAll), "", 9.5, "L")
		p.y += row
		if !p.rehearsing {
			p.mixRule(p.y, 0.1)
		}
	}
	p.y += 1
	p.y += p.paragraph(p.left, p.y, p.inner, m.Taken, "", 9.5) + 2
}

// mixNotes draws what to note and what is given beside the jar.
func (p *page) mixNotes(m *report.Mix) {
	write := func(s string) {
		p.need(p.measure(p.inner, s, "", 9))
		p.y += p.paragraph(p.left, p.y, p.inner, s, "", 9) + 0.5
	}
	p.need(10)
	p.y += p.text(p.left, p.y, p.inner, "Please note", "B", 12, "L") + 0.5
	for _, n := range m.Notes {
		write(n)
	}
	if len(m.Buy) == 0 {
		return
	}
	line := fmt.Sprintf("Given beside the jar in %s: ", m.Good)
	for i, b := range m.Buy {
		if i > 0 {
			line += "; "
		}
		line += b.Amount + " " + b.Name
	}
	write(line + ".")
}

// JarLabels writes a label for each jar: code, doses, when it was mixed and until when it
// is good. It fails with a *LabelFormatError for labels that do not hold their text.
func JarLabels(w io.Writer, sheets []*household.MixSheet, f LabelFormat, o Options) error {
	o.TwoUp = false
	f, err := f.On(o.Paper)
	if err != nil {
		return err
	}
	p := newPage(o, sheets[0].Date, "Labels of jars")
	var all []label
	for _, s := range sheets {
		all = append(all, jarLabel(s))
	}
	return p.labels(all, f, w)
}

// jarLabel says what a jar is and each pet's dose of it.
func jarLabel(s *household.MixSheet) label {
	m := report.NewMix(s)
	l := label{jar: true, who: m.Title, code: m.Code, what: m.Total, lines: []string{s.Household + ", base " + s.Base},
		until: []string{"Mixed on _______________", "use by _______________"}}
	if h := s.InHand; h != nil {
		l.what, l.until = report.Grams(h.MixedG), mixedUntil(h)
	}
	for _, d := range m.Doses {
		l.lines = append(l.lines, d.Pet+", "+d.Kind+": "+d.Dose+" a day")
	}
	return l
}

func mixedUntil(h *household.Mixing) []string {
	return []string{"Mixed on " + report.LabelDay(h.Date), "use by " + report.LabelDay(h.UseBy)}
}
