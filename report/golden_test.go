package report

import (
	"bytes"
	"fmt"
	"html"
	"strings"
	"testing"

	"bowlwright/household"
)

// drawnText is all text of a page in the order of drawing, which is that of reading:
// where it stands in whole millimetres, its type, and what it says.
func drawnText(p *page) string {
	var b strings.Builder
	area := 0
	for _, box := range p.boxes {
		if box.area != area {
			area = box.area
			fmt.Fprintf(&b, "area %d\n", area)
		}
		if box.text != "" {
			// The dust keeps a half from falling to either side.
			const dust = 1e-6
			fmt.Fprintf(&b, "%4.0f %4.0f  %4.1f  %s\n", box.x+dust, box.y+dust, box.points, box.text)
		}
	}
	return b.String()
}

// pageText is what a page for a browser says, a line for each piece.
func pageText(page []byte) string {
	var b strings.Builder
	for _, piece := range markup.Split(string(page), -1) {
		if piece = strings.TrimSpace(html.UnescapeString(piece)); piece != "" {
			b.WriteString(unbound(piece) + "\n")
		}
	}
	return b.String()
}

// TestPaperGoldens holds every document on paper, so that a change of one is seen and
// judged.
func TestPaperGoldens(t *testing.T) {
	base := testBase(t)
	marlow, tansy := pair(t, testPlan("Marlow", base), base), pair(t, short(testPlan("Tansy", base)), base)
	both := []household.Paired{marlow, tansy}
	draw := func(name string, p *page, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		golden(t, name, drawnText(p))
	}
	p, err := drawCards([]household.Paired{marlow}, PaperOptions{Paper: "a4", Weights: testWeights("Marlow")})
	draw("card-a4.txt", p, err)
	p, err = drawCards([]household.Paired{tansy}, PaperOptions{Paper: "letter", DecimalComma: true})
	draw("card-letter-short-comma.txt", p, err)
	p, err = drawCards(both, PaperOptions{Paper: "a4", TwoUp: true})
	draw("card-two-up.txt", p, err)
	p, err = drawVet([]household.Paired{tansy}, PaperOptions{Paper: "a4"})
	draw("vet-a4.txt", p, err)

	b, err := household.NewBatchSheet(base, both, household.BatchOrder{Days: 4, Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	draw("batch-a4.txt", drawBatch(b, PaperOptions{Paper: "a4"}), nil)
	whole, err := household.NewBatchSheet(base, both, household.BatchOrder{Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	p, err = drawLabels(whole, LabelSize(63.5, 38.1), true, PaperOptions{Paper: "letter"})
	draw("labels-letter.txt", p, err)
}

func TestBatchTextGolden(t *testing.T) {
	base := testBase(t)
	both := []household.Paired{pair(t, testPlan("Marlow", base), base), pair(t, short(testPlan("Tansy", base)), base)}
	whole, err := household.NewBatchSheet(base, both, household.BatchOrder{Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := BatchText(&text, whole, TextOptions{}); err != nil {
		t.Fatal(err)
	}
	golden(t, "batch.txt", text.String())
}

func TestPageGoldens(t *testing.T) {
	base := testBase(t)
	both := []household.Paired{pair(t, testPlan("Marlow", base), base), pair(t, short(testPlan("Tansy", base)), base)}
	pages, err := HTMLPages(append(both, pair(t, over(testPlan("Pip", base)), base)), HTMLOptions{Weights: testWeights("Marlow")})
	if err != nil {
		t.Fatal(err)
	}
	for _, page := range pages {
		golden(t, strings.TrimSuffix(page.Name, ".html")+".page.txt", pageText(page.Data))
	}
}
