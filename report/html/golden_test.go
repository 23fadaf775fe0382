package html

import (
	"html"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/report"
	"bowlwright/report/internal/sample"
)

// pageText is what a page for a browser says, a line for each piece.
func pageText(page []byte) string {
	var b strings.Builder
	for _, piece := range markup.Split(string(page), -1) {
		if piece = strings.TrimSpace(html.UnescapeString(piece)); piece != "" {
			b.WriteString(report.Unbound(piece) + "\n")
		}
	}
	return b.String()
}

func TestPageGoldens(t *testing.T) {
	base := sample.Base(t)
	both := []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base), sample.Pair(t, sample.Short(sample.Plan("Tansy", base)), base)}
	page, err := Page(append(both, sample.Pair(t, sample.Over(sample.Plan("Pip", base)), base)), Options{Setting: report.Setting{Weights: sample.Weights("Marlow")}})
	if err != nil {
		t.Fatal(err)
	}
	sample.Golden(t, "page.txt", pageText(page))
}
