package report

import (
	"fmt"
	"io"
	"strings"

	"github.com/jung-kurt/gofpdf"

	"bowlwright/household"
)

// Page measures in millimetres.
const (
	marginMM  = 12.0
	fontName  = "sans"
	pointInMM = 25.4 / 72
	// lineFactor is the height of a line over the size of its type.
	lineFactor = 1.25
)

// box is something drawn, for the tests that look for overlaps and overruns.
type box struct {
	x, y, w, h float64
	points     float64
	text       string
}

// page draws on one PDF page and remembers what it drew.
type page struct {
	pdf    *gofpdf.Fpdf
	width  float64
	height float64
	y      float64
	boxes  []box
	// zoom enlarges what is fed and minded, on cards printed at half the size.
	zoom float64
}

// newDocument starts a PDF with the embedded fonts and fixed dates, so that the
// same record gives the same bytes.
func newDocument(paper string, date household.Date, title string) *gofpdf.Fpdf {
	size := "A4"
	if paper == "letter" {
		size = "Letter"
	}
	return prepare(gofpdf.New("P", "mm", size, ""), date, title)
}

// prepare sets the fonts and the dates of a document.
func prepare(pdf *gofpdf.Fpdf, date household.Date, title string) *gofpdf.Fpdf {
	regular, bold := fontBytes()
	pdf.AddUTF8FontFromBytes(fontName, "", regular)
	pdf.AddUTF8FontFromBytes(fontName, "B", bold)
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(date.Time())
	pdf.SetModificationDate(date.Time())
	pdf.SetTitle(paperText(title), true)
	pdf.SetCreator("bowlwright", true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(marginMM, marginMM, marginMM)
	return pdf
}

// newPage adds a page to the document.
func newPage(pdf *gofpdf.Fpdf) *page {
	pdf.AddPage()
	p := &page{pdf: pdf, y: marginMM, zoom: 1}
	p.width, p.height = pdf.GetPageSize()
	return p
}

// output writes the document; the PDF writer's panics become errors.
func output(pdf *gofpdf.Fpdf, w io.Writer) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the page cannot be written: %v", r)
		}
	}()
	return pdf.Output(w)
}

func (p *page) font(style string, points float64) { p.pdf.SetFont(fontName, style, points) }

// fit returns the largest size up to points at which the text is no wider than
// width, but not under least; what is still too wide is cut with an ellipsis.
func (p *page) fit(s, style string, points, least, width float64) (string, float64) {
	s = paperText(s)
	for size := points; size >= least; size -= 0.5 {
		p.font(style, size)
		if p.pdf.GetStringWidth(s) <= width {
			return s, size
		}
	}
	p.font(style, least)
	runes := []rune(s)
	for len(runes) > 1 && p.pdf.GetStringWidth(string(runes)+"…") > width {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + "…", least
}

// text draws one line with its top at y and returns its height.
func (p *page) text(x, y, width float64, s, style string, points float64, align string) float64 {
	s, size := p.fit(s, style, points, min(points, 5.5), width)
	p.font(style, size)
	h := points * pointInMM * lineFactor
	p.pdf.SetXY(x, y)
	p.pdf.CellFormat(width, h, s, "", 0, align+"M", false, 0, "")
	drawn := p.pdf.GetStringWidth(s)
	at := x
	switch align {
	case "R":
		at = x + width - drawn
	case "C":
		at = x + (width-drawn)/2
	}
	p.boxes = append(p.boxes, box{at, y, drawn, h, size, s})
	return h
}

// paragraph draws wrapped text and returns its height.
func (p *page) paragraph(x, y, width float64, s, style string, points float64) float64 {
	p.font(style, points)
	h := points * pointInMM * lineFactor
	top := y
	for _, l := range p.split(paperText(s), width) {
		p.text(x, y, width, l, style, points, "L")
		y += h
	}
	return y - top
}

// split wraps text at spaces by measured width.
func (p *page) split(s string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		candidate := word
		if line != "" {
			candidate = line + " " + word
		}
		if line != "" && p.pdf.GetStringWidth(candidate) > width {
			lines = append(lines, line)
			candidate = word
		}
		line = candidate
	}
	return append(lines, line)
}

// height measures a paragraph without drawing it.
func (p *page) measure(width float64, s, style string, points float64) float64 {
	p.font(style, points)
	return float64(len(p.split(paperText(s), width))) * points * pointInMM * lineFactor
}

func (p *page) gray(level int) { p.pdf.SetTextColor(level, level, level) }
