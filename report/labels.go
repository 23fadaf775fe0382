package report

import (
	"fmt"
	"io"
)

// LabelFormat is the grid of a sheet of labels, in millimetres.
type LabelFormat struct {
	Rows, Columns     int
	WidthMM, HeightMM float64
	LeftMM, TopMM     float64
	// GapXMM and GapYMM lie between labels.
	GapXMM, GapYMM float64
}

// DefaultLabels is a grid of two by seven that fits both papers.
var DefaultLabels = LabelFormat{Rows: 7, Columns: 2, WidthMM: 90, HeightMM: 36, LeftMM: 13, TopMM: 13, GapXMM: 4}

// Least size of a label on which the code can be read.
const (
	leastLabelWidthMM  = 45.0
	leastLabelHeightMM = 24.0
)

// check refuses a grid that does not fit the paper, or labels that are too small.
func (f LabelFormat) check(width, height float64) error {
	if f.Rows < 1 || f.Columns < 1 {
		return fmt.Errorf("a sheet of labels needs at least one row and one column")
	}
	if f.LeftMM < 0 || f.TopMM < 0 || f.GapXMM < 0 || f.GapYMM < 0 {
		return fmt.Errorf("margins and gaps of labels cannot be negative")
	}
	if !(f.WidthMM >= leastLabelWidthMM && f.HeightMM >= leastLabelHeightMM) {
		return fmt.Errorf("a label of %g x %g mm is too small: at least %g x %g mm", f.WidthMM, f.HeightMM, leastLabelWidthMM, leastLabelHeightMM)
	}
	w := f.LeftMM + float64(f.Columns)*f.WidthMM + float64(f.Columns-1)*f.GapXMM
	h := f.TopMM + float64(f.Rows)*f.HeightMM + float64(f.Rows-1)*f.GapYMM
	if !(w <= width && h <= height) {
		return fmt.Errorf("labels need %.1f x %.1f mm, the paper has %.1f x %.1f mm", w, h, width, height)
	}
	return nil
}

// LabelsPDF writes one label for each container of the batch.
func LabelsPDF(w io.Writer, b *Batch, f LabelFormat, o PaperOptions) error {
	p, err := drawLabels(b, f, o)
	if err != nil {
		return err
	}
	return p.output(w)
}

func drawLabels(b *Batch, f LabelFormat, o PaperOptions) (*page, error) {
	o.TwoUp = false
	p := newPage(o, b.Date, "Labels of "+b.Name)
	width, height := p.pdf.GetPageSize()
	if err := f.check(width, height); err != nil {
		return nil, err
	}
	at := 0
	for _, c := range b.Containers {
		for range c.Count {
			if at%(f.Rows*f.Columns) == 0 {
				p.next()
			}
			cell := at % (f.Rows * f.Columns)
			x := f.LeftMM + float64(cell%f.Columns)*(f.WidthMM+f.GapXMM)
			y := f.TopMM + float64(cell/f.Columns)*(f.HeightMM+f.GapYMM)
			p.label(x, y, f, b, c)
			at++
		}
	}
	if at == 0 {
		return nil, fmt.Errorf("the pot does not feed everybody for one day, so there is no container to label")
	}
	return p, nil
}

// label draws one label; all sizes follow its height.
func (p *page) label(x, y float64, f LabelFormat, b *Batch, c Container) {
	const pad = 2.5
	p.pdf.SetDrawColor(190, 190, 190)
	p.pdf.SetLineWidth(0.15)
	p.pdf.Rect(x, y, f.WidthMM, f.HeightMM, "D")
	inner := f.WidthMM - 2*pad
	// Seven units of text height stand on a label: two lines at one and a half,
	// four at one.
	unit := (f.HeightMM - 2*pad) / 7
	size := unit / (pointInMM * 1.25)
	x, y = x+pad, y+pad
	p.gray(0)
	p.text(x, y, inner*0.5, c.Pet, "B", 1.5*size, "L")
	p.text(x+inner*0.5+1, y, inner*0.5-1, b.Code, "B", 1.5*size, "R")
	y += 1.5 * unit
	p.text(x, y, inner, b.Name, "", size, "L")
	y += unit
	p.text(x, y, inner, fmt.Sprintf("%s of base for %s", grams(c.G), days(c.Days)), "B", 1.5*size, "L")
	y += 1.5 * unit
	p.text(x, y, inner, "Each day: "+c.Meals, "", size, "L")
	y += unit
	p.text(x, y, inner, "Made on "+b.Date.String()+". Check the code against the card.", "", size, "L")
	y += unit
	p.text(x, y, inner, "Fridge until "+b.FridgeUntil.String()+", freezer until "+b.FreezerUntil.String(), "", size, "L")
}
