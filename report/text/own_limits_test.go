package text

import (
	"strings"
	"testing"

	"bowlwright/report"
	"bowlwright/report/internal/sample"
)

// TestOwnLimitsAreShown: on plan and card, in words, and a loosened maximum in red too.
func TestOwnLimitsAreShown(t *testing.T) {
	base := sample.Base(t)
	p := sample.WithOwnLimits(sample.Plan("Marlow", base))
	for _, text := range []string{planText(t, p, base, Options{}), cardText(t, p, base, Options{})} {
		text = strings.Join(strings.Fields(text), " ") // as if no line ended
		for _, o := range p.Pet.OwnLimits {
			if !strings.Contains(text, report.OwnLimitsTitle) || !strings.Contains(text, o.Text) {
				t.Errorf("%q is not in\n%s", o.Text, text)
			}
		}
	}
	coloured := planText(t, p, base, Options{Color: true})
	if !strings.Contains(coloured, red+"MAXIMUM LOOSENED. ") || strings.Contains(coloured, red+"Phosphorus") {
		t.Errorf("red is elsewhere:\n%s", coloured)
	}
}
