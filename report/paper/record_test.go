package paper

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/report"
	"bowlwright/report/internal/sample"
)

// threeDigits is how far a number of three significant digits may lie from the
// amount that it stands for: half of its last digit, at worst.
const threeDigits = 0.005 + 1e-9

// near says whether a printed number stands for an amount.
func near(t *testing.T, printed string, amount float64) bool {
	t.Helper()
	x, err := strconv.ParseFloat(printed, 64)
	return err == nil && math.Abs(x-amount) <= threeDigits*math.Abs(amount)
}

// TestCardTellsTheRecord reads every number of a card back from what was drawn and holds
// it against the record: what is weighed exactly, what is shown to its three digits, and
// nothing on the wrong side of its limit.
func TestCardTellsTheRecord(t *testing.T) {
	base := sample.Base(t)
	for _, p := range []*household.Plan{sample.Plan("Marlow", base), sample.Short(sample.Plan("Tansy", base))} {
		drawn, err := drawCards([]household.Paired{sample.Pair(t, p, base)}, Options{Paper: "a4"})
		if err != nil {
			t.Fatal(err)
		}
		var texts []string
		for _, b := range drawn.boxes {
			if b.text != "" {
				texts = append(texts, b.text)
			}
		}
		// The back has the amount behind the name, then the unit, the limits and the known
		// share.
		back := slices.Index(texts, report.Groups[0])
		for _, n := range p.Pet.Nutrients {
			b := report.NewBar(n)
			label := b.Label()
			if !b.Inside && !b.NothingKnown {
				label += ": " + b.State
			}
			i := back + slices.Index(texts[back:], label)
			if i < back {
				t.Errorf("%s is not on the card", label)
				continue
			}
			row := texts[i+1 : i+6]
			if n.Amount == nil {
				row = slices.Insert(slices.Clone(texts[i+1:i+5]), 1, "")
			}
			for k, want := range []*float64{n.Amount, nil, n.Lower, n.Upper} {
				switch {
				case k == 1:
					if n.Amount != nil && row[k] != report.UnitText(n.Unit) {
						t.Errorf("%s: %q, the record says %s", label, row, n.Unit)
					}
				case want == nil:
					if row[k] != "–" && row[k] != "unknown" {
						t.Errorf("%s: %q, and the record has no figure", label, row)
					}
				case !near(t, row[k], *want):
					t.Errorf("%s: %q, the record says %v", label, row, *want)
				}
			}
			if low := strings.Contains(label, "below minimum"); low != (n.State == household.StateLow) {
				t.Errorf("%s: the record says %s", label, n.State)
			}
		}
		together := 0.0
		for i, s := range texts {
			if (s == "Morning" || s == "Evening") && strings.HasSuffix(texts[i+1], " g") {
				g, err := strconv.ParseFloat(strings.TrimSuffix(texts[i+1], " g"), 64)
				if err != nil {
					t.Errorf("beside %s stands %q", s, texts[i+1])
				}
				together += g
			}
		}
		if together != p.Pet.BaseG {
			t.Errorf("the meals weigh %g g together, the record says %g g", together, p.Pet.BaseG)
		}
		if dose := strconv.FormatFloat(p.Pet.Premix.ServeG, 'f', -1, 64) + " g"; !slices.Contains(texts, dose) {
			t.Errorf("the dose of the premix, %s, is not on the card", dose)
		}
	}
}
