package paper

import (
	"fmt"
	"io"

	"bowlwright/household/supplies"
	"bowlwright/nutrients"
	"bowlwright/report"
)

// Labels writes one label for each container of the batch, one for what is left
// over, and, with jars, one for the jar of each premix. It fails with a
// *LabelFormatError for a format that does not fit the paper or labels that do not hold
// their text.
func Labels(w io.Writer, b *supplies.BatchSheet, f LabelFormat, jars bool, o Options) error {
	p, err := drawLabels(b, f, jars, o)
	if err != nil {
		return err
	}
	return p.output(w)
}

// label is what stands on one label: who and which base large, what it holds, lines
// that explain it, and until when it keeps.
type label struct {
	who, code, what string
	lines           []string
	until           []string
	// jar is a label of a jar: its head is reversed, so that it is never taken for food.
	jar bool
}

// labelsOf lists all labels of a batch.
func labelsOf(b *supplies.BatchSheet, jars bool) []label {
	var all []label
	until := []string{"Fridge until " + report.LabelDay(b.FridgeUntil), "freezer until " + report.LabelDay(b.FreezerUntil)}
	made := "Made on " + report.LabelDay(b.Date) + ". Check the code against the card."
	for _, c := range b.Containers {
		for range c.Count {
			all = append(all, label{who: paperName(c.Pet, report.AnimalText(c.Species, c.WeightKg)), code: b.Code, what: report.Grams(c.G) + " of base for " + report.Days(c.Days),
				lines: []string{b.Name, "Each day: " + report.ShortMeals(c.Meals), made}, until: until})
		}
	}
	if b.LeftG >= supplies.LeastLeftG {
		all = append(all, label{who: "Left over", code: b.Code, what: report.PotGrams(b.LeftG) + " of base", lines: []string{b.Name, "For nobody yet.", made}, until: until})
	}
	if !jars {
		return all
	}
	for _, j := range b.Jars {
		l := label{jar: true, who: paperName(j.Pet, report.AnimalText(j.Species, j.WeightKg)), code: b.Code, what: "Premix: " + report.Grams(j.ServeG) + " each day",
			lines: []string{"Only with this base: " + b.Name, fmt.Sprintf("%s for %s. Mix very well, keep dry and dark.", report.Grams(j.TotalG), report.Days(j.Days))},
			until: []string{"Mixed on _______________", "mix a new jar after " + report.Days(j.Days)}}
		if j.Code != "" {
			l.code, l.lines[0] = j.Code, "Only with base "+b.Code+": "+b.Name
		}
		if j.Mix != nil {
			l.until = mixedUntil(j.Mix)
		}
		all = append(all, l)
	}
	for _, s := range b.Shared {
		all = append(all, jarLabel(s))
	}
	return all
}

func drawLabels(b *supplies.BatchSheet, f LabelFormat, jars bool, o Options) (*page, error) {
	o.TwoUp = false
	f, err := f.On(o.Paper)
	if err != nil {
		return nil, err
	}
	p := newPage(o, b.Date, "Labels of "+b.Name)
	all := labelsOf(b, jars)
	if len(all) == 0 {
		return nil, fmt.Errorf("the pot is empty, so there is no container to label")
	}
	return p, p.layLabels(all, f)
}

// labels writes labels into a document.
func (p *page) labels(all []label, f LabelFormat, w io.Writer) error {
	if err := p.layLabels(all, f); err != nil {
		return err
	}
	return p.output(w)
}

// layLabels draws labels one after the other, all in the largest type that holds each.
func (p *page) layLabels(all []label, f LabelFormat) error {
	size := mostLabelPoints
	for _, l := range all {
		for ; !p.labelFits(l, f, size); size -= 0.25 {
			if size < leastFit+0.25 {
				return &LabelFormatError{fmt.Sprintf("the label of %s does not fit on %g x %g mm: take larger labels", l.who, f.WidthMM, f.HeightMM)}
			}
		}
	}
	for i, l := range all {
		cell := (f.Skip + i) % (f.Rows * f.Columns)
		if i == 0 || cell == 0 {
			p.next()
		}
		x := f.LeftMM + float64(cell%f.Columns)*(f.WidthMM+f.GapXMM)
		y := f.TopMM + float64(cell/f.Columns)*(f.HeightMM+f.GapYMM)
		p.label(x, y, f, l, size)
	}
	return nil
}

// Type on a label in points: as large as all of them hold, from the one to the least
// that a line shrinks to; who, code and amount stand larger by a factor.
const (
	mostLabelPoints = 18.0
	largeOnLabel    = 1.5
	labelPadMM      = 2.0
)

func (f LabelFormat) inner() (width, height float64) {
	return f.WidthMM - 2*labelPadMM, f.HeightMM - 2*labelPadMM
}

func (p *page) labelFits(l label, f LabelFormat, size float64) bool {
	width, height := f.inner()
	_, h, ok := p.labelLines(l, width, size)
	return ok && h <= height+dustMM
}

// label draws one label. Lines wrap, so that no amount, date or pet's name is cut.
func (p *page) label(x, y float64, f LabelFormat, l label, size float64) {
	width, height := f.inner()
	lines, h, _ := p.labelLines(l, width, size)
	p.pdf.SetDrawColor(190, 190, 190)
	p.pdf.SetLineWidth(0.15)
	p.pdf.Rect(x, y, f.WidthMM, f.HeightMM, "D")
	beside := p.beside(l, width, size)
	head := 0.0
	if beside {
		head = lineMM(largeOnLabel * size)
	}
	for _, line := range lines {
		if line.head {
			head += lineMM(line.points)
		}
	}
	top := y + labelPadMM + (height-h)/2
	below := 0.0
	if l.jar {
		top, below = y+labelPadMM, (height-h)/2
		// The band goes over the whole width from the upper edge.
		p.fill(x, y, f.WidthMM, top+head-y+0.4, 0, 0, 0)
	}
	ink := func(head bool) {
		if head && l.jar {
			p.white()
		} else {
			p.gray(0)
		}
	}
	x, y = x+labelPadMM, top
	ink(true)
	if beside {
		code := p.widthOf(l.code, "B", largeOnLabel*size)
		p.text(x, y, width-code-2, l.who, "B", largeOnLabel*size, "L")
		y += p.text(x+width-code-0.5, y, code+0.5, l.code, "B", largeOnLabel*size, "R")
	}
	started := false
	for _, line := range lines {
		ink(line.head)
		if !line.head && !started {
			y, started = y+below, true
		}
		y += p.text(x, y, width, line.text, line.style, line.points, "L")
	}
}

// labelLine is a line below the head of a label.
type labelLine struct {
	text, style string
	points      float64
	// head is who it is for and which code.
	head bool
}

// labelLines wraps the lines of a label and returns the height of all of it; ok is
// false when its code or what it holds takes more than a line.
func (p *page) labelLines(l label, width, size float64) (lines []labelLine, height float64, ok bool) {
	add := func(s, style string, points float64) {
		p.font(style, points)
		for _, line := range p.split(paperText(s), width) {
			lines = append(lines, labelLine{text: line, style: style, points: points})
		}
	}
	if p.beside(l, width, size) {
		height = largeOnLabel * size * pointInMM * lineFactor
	} else {
		add(l.who, "B", size)
		add(l.code, "B", largeOnLabel*size)
		for i := range lines {
			lines[i].head = true
		}
	}
	before := len(lines)
	add(l.what, "B", largeOnLabel*size)
	glance := len(lines) == before+1
	// A base has a name of any length: one line of it is enough, the code says which.
	lines = append(lines, labelLine{text: l.lines[0], points: size})
	for _, s := range l.lines[1:] {
		add(s, "", size)
	}
	if both := l.until[0] + ", " + l.until[1]; p.widthOf(both, "B", size) <= width {
		add(both, "B", size)
	} else {
		add(l.until[0], "B", size)
		add(nutrients.Capital(l.until[1]), "B", size)
	}
	for _, line := range lines {
		height += line.points * pointInMM * lineFactor
	}
	// What it holds is read at a glance or not at all.
	return lines, height, glance && p.widthOf(l.code, "B", largeOnLabel*size) <= width
}

// beside says whether who and code stand beside each other; else each has lines of its
// own.
func (p *page) beside(l label, width, size float64) bool {
	return p.widthOf(l.who, "B", largeOnLabel*size)+2+p.widthOf(l.code, "B", largeOnLabel*size) <= width
}

// widthOf measures a line.
func (p *page) widthOf(s, style string, points float64) float64 {
	p.font(style, points)
	return p.pdf.GetStringWidth(report.Unbound(paperText(s)))
}
