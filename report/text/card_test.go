package text

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"

	"bowlwright/household"
	"bowlwright/report/internal/sample"
)

func TestNoTextAmountsWithoutPlan(t *testing.T) {
	base := sample.Base(t)
	p := sample.Pair(t, sample.Over(sample.Plan("Marlow", base)), base)
	var refused *household.NotPrintableError
	var b bytes.Buffer
	if err := Card(&b, p, Options{}); !errors.As(err, &refused) || b.Len() > 0 {
		t.Errorf("text: %v, %d bytes", err, b.Len())
	}
	if err := Plan(&b, p, Options{}); err != nil {
		t.Fatal(err)
	}
	if s := b.String(); strings.Contains(s, "813") || strings.Contains(s, " g ") || !strings.Contains(s, "vitamin A of the base alone") {
		t.Errorf("a plan that is over shows:\n%s", s)
	}
}

func TestTextFits(t *testing.T) {
	base := sample.Base(t)
	for _, name := range sample.HardNames {
		for _, o := range []Options{{}, {Width: 80, Full: true}, {Width: 100, Color: true, Full: true}} {
			var b bytes.Buffer
			p := sample.Pair(t, sample.Short(sample.Plan(name, base)), base)
			if err := Card(&b, p, o); err != nil {
				t.Fatal(err)
			}
			if err := Plan(&b, p, o); err != nil {
				t.Fatal(err)
			}
			s := b.String()
			for _, code := range []string{red, green, bold, plain} {
				s = strings.ReplaceAll(s, code, "")
			}
			width := o.Width
			if width == 0 {
				width = 80
			}
			for l := range strings.Lines(s) {
				if w := runewidth.StringWidth(strings.TrimSuffix(l, "\n")); w > width {
					t.Errorf("%d columns of %d: %q", w, width, l)
				}
				if strings.ContainsAny(l, "\x1b\u202e\r") {
					t.Errorf("a control got through: %q", l)
				}
			}
		}
	}
}
