package paper

import (
	"math"
	"regexp"
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

var numberIn = regexp.MustCompile(`\d+(?:\.\d+)?`)

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
		for _, n := range p.Pet.Nutrients {
			label := report.NewBar(n).Label()
			i := slices.Index(texts, label)
			if i < 0 {
				t.Errorf("%s is not on the card", label)
				continue
			}
			shown := texts[i+1]
			var want []float64
			for _, x := range []*float64{n.Amount, n.Lower, n.Upper} {
				if x != nil {
					want = append(want, *x)
				}
			}
			got := numberIn.FindAllString(shown, -1)
			if len(got) != len(want) {
				t.Errorf("%s: %q holds %d numbers, the record %d", label, shown, len(got), len(want))
				continue
			}
			for k := range want {
				if !near(t, got[k], want[k]) {
					t.Errorf("%s: %q, the record says %v", label, shown, want)
				}
			}
			if low := strings.Contains(shown, "LOW"); low != (n.State == household.StateLow) || !strings.Contains(shown, report.UnitText(n.Unit)) && n.Amount != nil {
				t.Errorf("%s: %q, the record says %s in %s", label, shown, n.State, n.Unit)
			}
		}
		together := 0.0
		for i, s := range texts {
			if s == "Morning" || s == "Evening" {
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
		for _, item := range p.Pet.Premix.Items {
			if !slices.Contains(texts, strconv.FormatFloat(item.G, 'f', -1, 64)+" g") {
				t.Errorf("%s of the premix is not on the card with %g g", item.Name, item.G)
			}
		}
	}
}
