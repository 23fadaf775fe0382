package report

import (
	"regexp"
	"strings"
	"testing"

	"bowlwright/household"
)

func TestTextGoldens(t *testing.T) {
	base := testBase(t)
	golden(t, "card-met.txt", cardText(t, testPlan("Marlow", base), base, TextOptions{}))
	golden(t, "card-short-comma.txt", cardText(t, short(testPlan("Tansy", base)), base, TextOptions{DecimalComma: true}))
	golden(t, "plan-short.txt", planText(t, short(testPlan("Tansy", base)), base, TextOptions{}))
	golden(t, "plan-over.txt", planText(t, over(testPlan("Pip", base)), base, TextOptions{}))
}

func TestNamesCannotSteerTheTerminal(t *testing.T) {
	base := testBase(t)
	text := cardText(t, testPlan("a\x1b[2Jb\u202ec\u0085d", base), base, TextOptions{})
	if strings.ContainsAny(text, "\x1b\u202e\u0085") {
		t.Errorf("a control character came through: %q", text[:40])
	}
	if !strings.HasPrefix(text, "a[2Jbcd\n") {
		t.Errorf("the name came out as %q", text[:20])
	}
}

func TestColourIsNeverAlone(t *testing.T) {
	base := testBase(t)
	escapes := regexp.MustCompile("\x1b\\[[0-9]*m")
	for _, p := range []*household.Plan{testPlan("Marlow", base), short(testPlan("Tansy", base)), over(testPlan("Pip", base))} {
		bare, coloured := planText(t, p, base, TextOptions{}), planText(t, p, base, TextOptions{Color: true})
		if strings.Contains(bare, "\x1b") {
			t.Error("colour without being asked for")
		}
		if !escapes.MatchString(coloured) || escapes.ReplaceAllString(coloured, "") != bare {
			t.Error("without its colours the text differs from the plain one")
		}
	}
}

func TestDecimalComma(t *testing.T) {
	for in, want := range map[string]string{"2.5 g": "2,5 g", "0.492 to 1.5": "0,492 to 1,5", "2026-11-25.": "2026-11-25.", "M2P-N20-5, 1. a": "M2P-N20-5, 1. a"} {
		if got := withComma(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

// TestUnknownIsNotZero: what nobody knows is missing, not measured as nothing.
func TestUnknownIsNotZero(t *testing.T) {
	base := testBase(t)
	text := cardText(t, short(testPlan("Tansy", base)), base, TextOptions{})
	if !strings.Contains(text, "Vitamin K: nothing is known of it, 718 µg are needed\n") || strings.Contains(text, "0 of 718") {
		t.Errorf("the unknown reads as:\n%s", text[:600])
	}
}
