package text

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/household/supplies"
	"bowlwright/report"
	"bowlwright/report/internal/sample"

	"github.com/mattn/go-runewidth"
)

func TestTextGoldens(t *testing.T) {
	base := sample.Base(t)
	sample.Golden(t, "card-met.txt", cardText(t, sample.Plan("Marlow", base), base, Options{Full: true}))
	sample.Golden(t, "card-short-comma.txt", cardText(t, sample.Short(sample.Plan("Tansy", base)), base, Options{DecimalComma: true}))
	sample.Golden(t, "plan-short.txt", planText(t, sample.Short(sample.Plan("Tansy", base)), base, Options{}))
	sample.Golden(t, "plan-full.txt", planText(t, sample.Short(sample.Plan("Tansy", base)), base, Options{Full: true}))
	sample.Golden(t, "plan-over.txt", planText(t, sample.Over(sample.Plan("Pip", base)), base, Options{}))
}

func TestNamesCannotSteerTheTerminal(t *testing.T) {
	base := sample.Base(t)
	text := cardText(t, sample.Plan("a\x1b[2Jb\u202ec\u0085d", base), base, Options{})
	if strings.ContainsAny(text, "\x1b\u202e\u0085") {
		t.Errorf("a control character came through: %q", text[:40])
	}
	if !strings.HasPrefix(text, "a[2Jbcd\n") {
		t.Errorf("the name came out as %q", text[:20])
	}
}

func TestColourIsNeverAlone(t *testing.T) {
	base := sample.Base(t)
	escapes := regexp.MustCompile("\x1b\\[[0-9]*m")
	for _, p := range []*household.Plan{sample.Plan("Marlow", base), sample.Short(sample.Plan("Tansy", base)), sample.Over(sample.Plan("Pip", base))} {
		bare, coloured := planText(t, p, base, Options{}), planText(t, p, base, Options{Color: true})
		if strings.Contains(bare, "\x1b") {
			t.Error("colour without being asked for")
		}
		if !escapes.MatchString(coloured) || escapes.ReplaceAllString(coloured, "") != bare {
			t.Error("without its colours the text differs from the plain one")
		}
	}
}

// TestUnknownIsNotZero: what nobody knows is missing, not measured as nothing.
func TestUnknownIsNotZero(t *testing.T) {
	base := sample.Base(t)
	text := cardText(t, sample.Short(sample.Plan("Tansy", base)), base, Options{})
	if !strings.Contains(text, "Vitamin K: no figure is known, and at least 718 µg are needed\n") || strings.Contains(text, "0 of 718") {
		t.Errorf("the unknown reads as:\n%s", text[:600])
	}
}

// TestNothingIsLostInANarrowTerminal: whatever the width, every amount, limit and
// share stands there whole, and no line is wider than the terminal.
func TestNothingIsLostInANarrowTerminal(t *testing.T) {
	base := sample.Base(t)
	for _, plan := range []*household.Plan{sample.Plan("Marlow", base), sample.Short(sample.Plan("Tansy", base))} {
		lines := plan.Pet.Nutrients
		small, low, high := 0.00512345, 0.00398765, 0.15512345
		lines[5].Amount, lines[5].Lower, lines[5].Upper = &small, &low, &high
		c, err := report.NewCard(sample.Pair(t, plan, base), report.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		for _, width := range []int{40, 60, 80, 100} {
			text := planText(t, plan, base, Options{Width: width, Full: true})
			for _, line := range strings.Split(text, "\n") {
				if n := runewidth.StringWidth(line); n > width {
					t.Errorf("%d columns in a terminal of %d: %q", n, width, line)
				}
			}
			if strings.Contains(text, "…") {
				t.Errorf("something is cut at %d columns", width)
			}
			flat := strings.Join(strings.Fields(text), " ")
			for _, b := range c.Bars {
				for _, cell := range []string{b.Amount, b.Limits, b.Coverage + " " + stateCell(b)} {
					if !strings.Contains(flat, cell) {
						t.Errorf("%s: %q is not there at %d columns", b.Name, cell, width)
					}
				}
			}
		}
	}
	if c := layOut(60, 25, 9, barColumns, 16, 5, 5); c[3] != (textColumn{1, rowTurnIndent}) {
		t.Errorf("the limits begin at %v", c[3])
	}
}

// TestAWideCellMovesTheOthersDown instead of being cut.
func TestAWideCellMovesTheOthersDown(t *testing.T) {
	w := newTextWriter(Options{})
	w.row(layOut(80, 5, 4, 3), []string{"abcde", "123456", "met"}, green)
	if got, want := w.b.String(), "  abcde 123456\n             met\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestLimitsFindRoom: limits of the smallest figures, as a cat's arachidonic acid has
// them, stand in the row of their nutrient in a terminal of eighty columns.
func TestLimitsFindRoom(t *testing.T) {
	base := sample.Base(t)
	p := sample.Plan("Mim", base)
	amount, low, high := 0.0837, 0.00386, 0.0965
	n := &p.Pet.Nutrients[5]
	n.Amount, n.Lower, n.Upper, n.UpperChecked = &amount, &low, &high, false
	for line := range strings.Lines(cardText(t, p, base, Options{Width: 80, Full: true})) {
		if strings.Contains(line, "0.00386 to 0.0965") {
			if strings.HasSuffix(line, " met*\n") && strings.Contains(line, "0.0837 g") {
				return
			}
			t.Fatalf("the row is torn: %q", line)
		}
	}
	t.Error("no such limits")
}

// TestUnknownBarIsQuestions: nothing known looks like nothing known.
func TestUnknownBarIsQuestions(t *testing.T) {
	base := sample.Base(t)
	c, err := report.NewCard(sample.Pair(t, sample.Plan("Marlow", base), base), report.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	if got := (&textWriter{}).bar(c.Bars[2]); !strings.Contains(got, "????") {
		t.Errorf("vitamin K without a figure is drawn %q", got)
	}
}

// TestSeldomIsNotDailyInText: what is given once a week stands below the head of what is not
// given daily, with its rhythm.
func TestSeldomIsNotDailyInText(t *testing.T) {
	base := sample.Base(t)
	p := sample.Pair(t, sample.Plan("Marlow", base), base)
	c, err := report.NewCard(p, report.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	text := cardText(t, p.Plan(), base, Options{})
	daily, seldom := strings.Index(text, c.AddonsTitle()), strings.Index(text, report.SeldomTitle)
	given := strings.Index(text, "Wheat germ oil (once a week)")
	if daily < 0 || seldom < daily || given < seldom {
		t.Errorf("daily at %d, not daily at %d, the oil at %d", daily, seldom, given)
	}
}

func TestBatchTextFits(t *testing.T) {
	base := sample.Base(t)
	base.Name = "Turkey with everything that was left over from the feast and then some more, 犬 🐱"
	b, err := supplies.NewBatchSheet(base, sample.TestPairs(t, base), supplies.BatchOrder{Days: 10, Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := Batch(&text, b, Options{}); err != nil {
		t.Fatal(err)
	}
	for l := range strings.Lines(text.String()) {
		if w := runewidth.StringWidth(strings.TrimSuffix(l, "\n")); w > 80 {
			t.Errorf("%d columns: %q", w, l)
		}
	}
}
