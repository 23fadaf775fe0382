package paper

import (
	"fmt"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/household/supplies"
	"bowlwright/report/internal/sample"
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

// TestPaperGoldens holds every document on paper, so that a change of one is seen and
// judged.
func TestPaperGoldens(t *testing.T) {
	base := sample.Base(t)
	marlow, tansy := sample.Pair(t, sample.Plan("Marlow", base), base), sample.Pair(t, sample.Short(sample.Plan("Tansy", base)), base)
	both := []household.Paired{marlow, tansy}
	draw := func(name string, p *page, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		sample.Golden(t, name, drawnText(p))
	}
	p, err := drawCards([]household.Paired{marlow}, Options{Paper: "a4", Setting: setting("Marlow")})
	draw("card-a4.txt", p, err)
	p, err = drawCards([]household.Paired{tansy}, Options{Paper: "letter", DecimalComma: true})
	draw("card-letter-short-comma.txt", p, err)
	p, err = drawCards([]household.Paired{tansy}, Options{Paper: "a4", Large: true})
	draw("card-large.txt", p, err)
	p, err = drawCards(both, Options{Paper: "a4", TwoUp: true})
	draw("card-two-up.txt", p, err)
	p, err = drawVet([]household.Paired{tansy}, Options{Paper: "a4"})
	draw("vet-a4.txt", p, err)

	b, err := supplies.NewBatchSheet(base, both, supplies.BatchOrder{Days: 4, Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	draw("batch-a4.txt", drawBatch(b, Options{Paper: "a4"}), nil)
	whole, err := supplies.NewBatchSheet(base, both, supplies.BatchOrder{Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	p, err = drawLabels(whole, LabelSize(63.5, 38.1), true, Options{Paper: "letter"})
	draw("labels-letter.txt", p, err)
}
