package html

import (
	"fmt"
	"regexp"
	"strings"

	"bowlwright/household"
	"bowlwright/report"
)

// markup is what of a page is not text to read.
var markup = regexp.MustCompile(`(?s)<style>.*?</style>|<[^>]*>`)

// inText changes what of a page is text to read, but not its style sheet and its tags.
// A "<" in a text is escaped, so every one is a tag.
func inText(page string, change func(string) string) string {
	var b strings.Builder
	at := 0
	for _, m := range markup.FindAllStringIndex(page, -1) {
		b.WriteString(change(page[at:m[0]]))
		b.WriteString(page[m[0]:m[1]])
		at = m[1]
	}
	b.WriteString(change(page[at:]))
	return b.String()
}

// plot is the weighings as a line on a field of 300 by 60.
type plot struct {
	Text, Line string
	Dots       []dot
	// Words go on after Text; Planned and Projection are lines, Band is the top of the goal
	// and its height where HasBand; Axis are the ends of the two axes.
	Words               []string
	Planned, Projection string
	BandY, BandH        float64
	HasBand             bool
	High, Low, From, To string
}

type dot struct{ X, Y float64 }

// The field of the plot inside its frame.
const (
	plotEdge, plotWide, plotHigh = 6.0, 288.0, 48.0
)

// newCourse draws weighings with the goal, the rate that is aimed at and what is expected.
func newCourse(c household.WeightCourse) *plot {
	course := report.NewCoursePlot(c)
	if course == nil {
		return nil
	}
	words := report.CleanAll(c.Words())
	p := &plot{Text: words[0] + ".", Words: words[1:], HasBand: course.HasGoal, BandY: plotEdge + plotHigh*course.GoalTop,
		BandH: plotHigh * (course.GoalBottom - course.GoalTop), High: course.High, Low: course.Low, From: course.From, To: course.To}
	line := func(points []report.Point) string {
		var all []string
		for _, q := range points {
			all = append(all, fmt.Sprintf("%.1f,%.1f", plotEdge+q.X*plotWide, plotEdge+q.Y*plotHigh))
		}
		return strings.Join(all, " ")
	}
	p.Line, p.Planned, p.Projection = line(course.Weighings), line(course.Planned), line(course.Projection)
	for _, q := range course.Weighings {
		p.Dots = append(p.Dots, dot{plotEdge + q.X*plotWide, plotEdge + q.Y*plotHigh})
	}
	return p
}

// newPlot returns nil when there is nothing to draw.
func newPlot(ws []household.WeighIn) *plot {
	if len(ws) == 0 {
		return nil
	}
	p := &plot{Text: report.WeightText(ws)}
	var line []string
	for _, q := range report.WeightPoints(ws) {
		x, y := 6+q.X*288, 6+q.Y*48
		p.Dots = append(p.Dots, dot{x, y})
		line = append(line, fmt.Sprintf("%.1f,%.1f", x, y))
	}
	p.Line = strings.Join(line, " ")
	return p
}

// trackUnits is the width of a bar in units of its drawing.
const trackUnits = 200.0

// bar is a row of the table of nutrients with its drawing.
type bar struct {
	Name, Amount, Limits, Known, State string
	Inside, Minimum                    bool
	Grid                               []string
	// Base and Addons are widths, Dots is that of the unknown from DotsAt on.
	Base, Addons, DotsAt, Dots, Maximum, Left string
	Stripes                                   string
}

func newBar(b report.Bar) bar {
	units := func(x float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", trackUnits*x), ".0") }
	v := bar{Name: b.Label(), Amount: b.Amount, Limits: b.Limits, Known: b.Coverage, State: b.ShortState(), Inside: b.Inside, Minimum: b.HasMinimum, Base: units(b.Base)}
	for _, times := range []float64{2, 4, 8, 16} {
		v.Grid = append(v.Grid, units(report.PlaceOf(times)))
	}
	if w := b.Addons - b.Base; w > 0 {
		v.Addons = units(w)
		var path strings.Builder
		for x := -4.0; x < trackUnits*w; x += 3.5 {
			fmt.Fprintf(&path, "M%.1f 6l6 -6", x)
		}
		v.Stripes = path.String()
	}
	if w := b.Unknown - b.Addons; w > 0 {
		v.DotsAt, v.Dots = units(b.Addons), units(w)
	}
	if b.Maximum > 0 {
		v.Maximum, v.Left = units(b.Maximum), units(b.Maximum-0.02)
	}
	return v
}
