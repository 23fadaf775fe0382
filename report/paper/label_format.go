package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// LabelFormat is the grid of a sheet of labels, in millimetres.
type LabelFormat struct {
	// Rows and Columns of labels; 0 for as many as the paper holds.
	Rows, Columns     int
	WidthMM, HeightMM float64
	// LeftMM and TopMM are the margins of the sheet; Centred shares what the labels
	// leave free equally between both sides.
	LeftMM, TopMM float64
	// GapXMM and GapYMM lie between labels.
	GapXMM, GapYMM float64
	// Skip is how many labels of the first sheet are left free, because they are used.
	Skip int
}

// Centred is the margin that puts the grid into the middle of the sheet.
const Centred = -1.0

// DefaultLabels is a grid of two by seven that fits both papers.
var DefaultLabels = LabelFormat{Rows: 7, Columns: 2, WidthMM: 90, HeightMM: 36, LeftMM: 13, TopMM: 13, GapXMM: 4}

// LabelSize is the format of a sheet that is full of labels of one size.
func LabelSize(widthMM, heightMM float64) LabelFormat {
	return LabelFormat{WidthMM: widthMM, HeightMM: heightMM, LeftMM: Centred, TopMM: Centred}
}

// ParseLabelSize reads "63.5x38.1", the width and the height of a label in millimetres.
// It fails with a *LabelFormatError.
func ParseLabelSize(s string) (LabelFormat, error) {
	width, height, ok := strings.Cut(s, "x")
	w, errW := ParseMM(width)
	h, errH := ParseMM(height)
	if !ok || errW != nil || errH != nil {
		return LabelFormat{}, &LabelFormatError{fmt.Sprintf("%q is not a width and a height", s)}
	}
	return LabelSize(w, h), nil
}

// mostMM is beyond every sheet.
const mostMM = 1000

// ParseMM reads a length in millimetres, with or without its unit. It fails with a
// *LabelFormatError.
func ParseMM(s string) (float64, error) {
	x, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "mm")), 64)
	if err != nil || !(x >= 0 && x < mostMM) {
		return 0, &LabelFormatError{fmt.Sprintf("%q is not a length in millimetres", s)}
	}
	return x, nil
}

// sheetMM is the size of a sheet in millimetres: A4 by ISO 216, Letter by ANSI, both as
// the PDF writer has them in points.
func sheetMM(paper string) (width, height float64) {
	if paper == "letter" {
		return 612 * pointInMM, 792 * pointInMM
	}
	return 595.28 * pointInMM, 841.89 * pointInMM
}

// LabelFormatError says what is wrong with a format.
type LabelFormatError struct{ Why string }

func (e *LabelFormatError) Error() string { return e.Why }

// Least size of a label on which the code can be read.
const (
	leastLabelWidthMM  = 45.0
	leastLabelHeightMM = 24.0
)

// gridSlackMM forgives the rounding of dimensions converted from inches.
const gridSlackMM = 0.3

// On returns the format with rows, columns and margins worked out for a paper, "a4" or
// "letter". It fails with a *LabelFormatError for a grid that does not fit the paper and
// for labels that are too small.
func (f LabelFormat) On(paper string) (LabelFormat, error) {
	width, height := sheetMM(paper)
	wrong := func(format string, args ...any) (LabelFormat, error) {
		return f, &LabelFormatError{fmt.Sprintf(format, args...)}
	}
	if f.Rows < 0 || f.Columns < 0 || f.Skip < 0 {
		return wrong("rows, columns and labels left free cannot be negative")
	}
	if !(f.WidthMM >= leastLabelWidthMM && f.HeightMM >= leastLabelHeightMM) {
		return wrong("a label of %g x %g mm is too small: at least %g x %g mm", f.WidthMM, f.HeightMM, leastLabelWidthMM, leastLabelHeightMM)
	}
	if !(f.GapXMM >= 0 && f.GapYMM >= 0) || !margin(f.LeftMM) || !margin(f.TopMM) {
		return wrong("margins and gaps of labels cannot be negative")
	}
	f.Columns, f.LeftMM = along(width, f.Columns, f.WidthMM, f.GapXMM, f.LeftMM)
	f.Rows, f.TopMM = along(height, f.Rows, f.HeightMM, f.GapYMM, f.TopMM)
	if f.Rows < 1 || f.Columns < 1 {
		return wrong("a label of %g x %g mm is larger than the paper, %.1f x %.1f mm", f.WidthMM, f.HeightMM, width, height)
	}
	w := f.LeftMM + span(f.Columns, f.WidthMM, f.GapXMM)
	h := f.TopMM + span(f.Rows, f.HeightMM, f.GapYMM)
	if !(f.LeftMM >= 0 && f.TopMM >= 0 && w <= width+gridSlackMM && h <= height+gridSlackMM) {
		return wrong("%d x %d labels of %g x %g mm need %.1f x %.1f mm with their margins and gaps; the paper has %.1f x %.1f mm",
			f.Columns, f.Rows, f.WidthMM, f.HeightMM, max(w, w-f.LeftMM), max(h, h-f.TopMM), width, height)
	}
	if f.Skip >= f.Rows*f.Columns {
		return wrong("%d labels are to be left free, and a sheet has %d", f.Skip, f.Rows*f.Columns)
	}
	return f, nil
}

// margin says whether a margin is one: not negative, or Centred.
func margin(x float64) bool { return x >= 0 || x == Centred }

// span is the length of n labels in a row.
func span(n int, size, gap float64) float64 { return float64(n)*size + float64(n-1)*gap }

// along works out the count and the margin of labels along one side of the paper.
func along(paper float64, n int, size, gap, margin float64) (int, float64) {
	if n == 0 {
		n = int(math.Floor((paper - max(margin, 0) + gap + gridSlackMM) / (size + gap)))
	}
	if margin == Centred {
		margin = (paper - span(n, size, gap)) / 2
		if margin > -gridSlackMM {
			margin = max(margin, 0)
		}
	}
	return n, margin
}
