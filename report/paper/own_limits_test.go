package paper

import (
	"bytes"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/report/internal/sample"
)

// TestOwnLimitsOnPaper: card and vet page hold each text, and red where a maximum was
// loosened and nowhere else.
func TestOwnLimitsOnPaper(t *testing.T) {
	const redText = "0.588 0.078 0.000 rg"
	base := sample.Base(t)
	for name, draw := range map[string]func([]household.Paired, Options) (*page, error){"card": drawCards, "vet": drawVet} {
		for _, loosened := range []bool{false, true} {
			plan := sample.WithOwnLimits(sample.Plan("Marlow", base))
			plan.Pet.OwnLimits[1].LoosensMaximum = loosened
			drawn, err := draw([]household.Paired{sample.Pair(t, plan, base)}, Options{Paper: "a4"})
			if err != nil {
				t.Fatal(err)
			}
			var words strings.Builder
			for _, b := range drawn.boxes {
				words.WriteString(b.text + " ")
			}
			for _, want := range []string{"Phosphorus: maximum 900 mg a day", "MAXIMUM LOOSENED."} {
				if !strings.Contains(words.String(), want) {
					t.Errorf("%s: no %q in %s", name, want, words.String())
				}
			}
			drawn.pdf.SetCompression(false)
			var b bytes.Buffer
			if err := drawn.output(&b); err != nil {
				t.Fatal(err)
			}
			if strings.Contains(b.String(), redText) != loosened {
				t.Errorf("%s: red is %v, loosened %v", name, !loosened, loosened)
			}
		}
	}
}
