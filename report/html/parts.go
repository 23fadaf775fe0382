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

// htmlPlot is the weighings as a line on a field of 300 by 60.
type htmlPlot struct {
	Text, Line string
	Dots       []htmlDot
}

type htmlDot struct{ X, Y float64 }

// newHTMLPlot returns nil when there is nothing to draw.
func newHTMLPlot(ws []household.WeighIn) *htmlPlot {
	if len(ws) == 0 {
		return nil
	}
	p := &htmlPlot{Text: report.WeightText(ws)}
	var line []string
	for _, q := range report.WeightPoints(ws) {
		x, y := 6+q.X*288, 6+q.Y*48
		p.Dots = append(p.Dots, htmlDot{x, y})
		line = append(line, fmt.Sprintf("%.1f,%.1f", x, y))
	}
	p.Line = strings.Join(line, " ")
	return p
}
