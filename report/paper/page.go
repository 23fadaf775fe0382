package paper

import (
	"fmt"
	"io"
	"strings"

	"github.com/jung-kurt/gofpdf"

	"bowlwright/household"
	"bowlwright/report"
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
	// area counts the pages, or the halves of pages, from one.
	area       int
	x, y, w, h float64
	points     float64
	text       string
}

// page draws on one page after another, or on one half after another, and
// remembers what it drew.
type page struct {
	pdf   *gofpdf.Fpdf
	twoUp bool
	// width and height are those of the area being drawn on: a page, or half of one.
	width, height float64
	// left, top, bottom and inner are where the margins leave room.
	left, top, bottom, inner float64
	y                        float64
	// area counts the areas begun.
	area int
	// heading is drawn on an area that goes on from the one before.
	heading func()
	boxes   []box
	// zoom scales type and measures of a card: under one on half a page, over one in
	// large print.
	zoom float64
	// void draws what is not to be fed in grey.
	void bool
	// photos are those of Options.
	photos map[string][]byte
	// notesOnBack says that the front had no room for what to mind.
	notesOnBack bool
	// comma writes numbers with a decimal comma.
	comma bool
	// rehearsing moves down the page without drawing; cramped says that something
	// found too little room meanwhile.
	rehearsing, cramped bool
	// areas are the rooms inside the margins of the areas begun.
	areas []box
}

// newPage starts a PDF with the embedded fonts and fixed dates, so that the same
// record gives the same bytes. It has no area yet: next begins the first.
func newPage(o Options, date household.Date, title string) *page {
	orientation := "P"
	if o.TwoUp {
		orientation = "L"
	}
	pdf := gofpdf.New(orientation, "mm", paperSize(o.Paper), "")
	regular, bold := fontBytes()
	pdf.AddUTF8FontFromBytes(fontName, "", regular)
	pdf.AddUTF8FontFromBytes(fontName, "B", bold)
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(date.Time())
	pdf.SetModificationDate(date.Time())
	pdf.SetTitle(paperText(title), true)
	pdf.SetCreator("bowlwright", true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(0, 0, 0)
	pdf.SetCellMargin(0)
	return &page{pdf: pdf, twoUp: o.TwoUp, zoom: 1, comma: o.DecimalComma, photos: o.Photos}
}

// paperSize is the name of a paper for the PDF writer.
func paperSize(paper string) string {
	if paper == "letter" {
		return "Letter"
	}
	return "A4"
}

// halfMarginMM is the margin of half a page.
const halfMarginMM = 9.0

// next begins the next area.
func (p *page) next() {
	p.area++
	margin, x := marginMM, 0.0
	p.width, p.height = p.pdf.GetPageSize()
	if p.twoUp {
		// The size of the page may be that of the sheet upright until the first is begun.
		p.width, p.height = max(p.width, p.height)/2, min(p.width, p.height)
		margin, x = halfMarginMM, float64((p.area-1)%2)*p.width
	}
	if x == 0 {
		p.pdf.AddPage()
		if p.twoUp {
			p.pdf.SetDrawColor(200, 200, 200)
			p.pdf.SetLineWidth(0.1)
			p.pdf.Line(p.width, 0, p.width, p.height)
		}
	}
	p.left, p.top, p.inner, p.bottom = x+margin, margin, p.width-2*margin, p.height-margin
	p.y = p.top
	p.areas = append(p.areas, box{area: p.area, x: p.left, y: p.top, w: p.inner, h: p.bottom - p.top})
}

// dustMM forgives the rounding of sums of heights.
const dustMM = 0.001

// need goes on in the next area when less than h is left in this one.
func (p *page) need(h float64) {
	if p.y+h <= p.bottom+dustMM || p.y <= p.top {
		return
	}
	if p.rehearsing {
		p.cramped = true
		return
	}
	p.next()
	if p.heading != nil {
		p.heading()
	}
}

// needAt is need for something at x: it returns where that is in the area that is drawn
// on then, since the halves of a page lie beside each other.
func (p *page) needAt(h, x float64) float64 {
	indent := x - p.left
	p.need(h)
	return p.left + indent
}

// rehearse returns the height of what draw draws, and whether it finds room enough in
// this area. Nothing is drawn.
func (p *page) rehearse(draw func()) (height float64, fits bool) {
	y := p.y
	p.rehearsing, p.cramped = true, false
	draw()
	height, fits = p.y-y, !p.cramped && p.y <= p.bottom+dustMM
	p.y, p.rehearsing = y, false
	return height, fits
}

// voidGray is what is not to be fed: still read, and unlike a valid card from afar.
const voidGray = 110

// drew remembers a shape.
func (p *page) drew(x, y, w, h float64) {
	p.boxes = append(p.boxes, box{area: p.area, x: x, y: y, w: w, h: h})
}

// output writes the document; the PDF writer's panics become errors.
func (p *page) output(w io.Writer) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the page cannot be written: %v", r)
		}
	}()
	return p.pdf.Output(w)
}

func (p *page) font(style string, points float64) { p.pdf.SetFont(fontName, style, points) }

// Type in points that a line shrinks to before it is cut: a name may lose its end,
// but a line with a figure in it is rather hard to read than wrong.
const (
	leastFit       = 5.5
	leastFigureFit = 4.0
)

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
	if p.rehearsing {
		return points * pointInMM * lineFactor
	}
	if p.comma {
		s = report.WithComma(s)
	}
	least := leastFit
	if strings.ContainsAny(s, "0123456789") {
		least = leastFigureFit
	}
	s, size := p.fit(report.Unbound(s), style, points, min(points, least), width)
	p.font(style, size)
	h := points * pointInMM * lineFactor
	if p.void {
		p.pdf.SetTextColor(voidGray, voidGray, voidGray)
	}
	p.pdf.SetXY(x, y)
	p.pdf.CellFormat(width, h, asSeen(s), "", 0, align+"M", false, 0, "")
	drawn := p.pdf.GetStringWidth(s)
	at := x
	switch align {
	case "R":
		at = x + width - drawn
	case "C":
		at = x + (width-drawn)/2
	}
	p.boxes = append(p.boxes, box{p.area, at, y, drawn, h, size, s})
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
	for _, word := range p.pieces(s, width) {
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

// pieces are the words of a text, those wider than a line cut up.
func (p *page) pieces(s string, width float64) []string {
	var all []string
	for _, word := range report.Words(s) {
		if p.pdf.GetStringWidth(word) <= width {
			all = append(all, word)
			continue
		}
		piece := ""
		for _, r := range word {
			if piece != "" && p.pdf.GetStringWidth(piece+string(r)) > width {
				all = append(all, piece)
				piece = ""
			}
			piece += string(r)
		}
		all = append(all, piece)
	}
	return all
}

// measure gives the height of a paragraph without drawing it.
func (p *page) measure(width float64, s, style string, points float64) float64 {
	p.font(style, points)
	return float64(len(p.split(paperText(s), width))) * points * pointInMM * lineFactor
}

// red is for what must not be overlooked; the words say it as well.
func (p *page) red() { p.pdf.SetTextColor(150, 20, 0) }

func (p *page) gray(level int) { p.pdf.SetTextColor(level, level, level) }

// Colours: one accent, which means the bowl that gets the add-ons, about eight to one
// against white.
var accent = [3]int{0, 0x56, 0x6b}

// fill draws a full rectangle.
func (p *page) fill(x, y, w, h float64, r, g, b int) {
	if p.rehearsing {
		return
	}
	p.pdf.SetFillColor(r, g, b)
	p.pdf.Rect(x, y, w, h, "F")
}

// frame draws a rectangle of lines.
func (p *page) frame(x, y, w, h, line float64) {
	if p.rehearsing {
		return
	}
	level := 0
	if p.void {
		level = voidGray
	}
	p.pdf.SetDrawColor(level, level, level)
	p.pdf.SetLineWidth(line)
	p.pdf.Rect(x, y, w, h, "D")
}

// hline draws a line across.
func (p *page) hline(x, y, w, line float64, level int) {
	if p.rehearsing {
		return
	}
	p.pdf.SetDrawColor(level, level, level)
	p.pdf.SetLineWidth(line)
	p.pdf.Line(x, y, x+w, y)
}

// tickBox draws a box to tick.
func (p *page) tickBox(x, y, side float64) {
	if p.rehearsing {
		return
	}
	p.frame(x, y, side, side, 0.3)
	p.drew(x, y, side, side)
}

// white makes the next texts white, for bands.
func (p *page) white() { p.pdf.SetTextColor(255, 255, 255) }

// lineMM is the height of a line of type.
func lineMM(points float64) float64 { return points * pointInMM * lineFactor }
