package report

import (
	"testing"

	"bowlwright/household"
)

// One helping for several days is shown as it is measured out.
func TestHelpingForSeveralDays(t *testing.T) {
	a := household.AddonAmount{Food: "cod-liver-oil", Name: "Cod liver oil", G: 0.3, EveryDays: 4, ServedAs: "weighed", Measure: "every fourth day"}
	if got := dose(a); got != grams(1.2) {
		t.Errorf("a helping of four days: %q", got)
	}
	a.EveryDays = 0
	if got := dose(a); got != grams(0.3) {
		t.Errorf("a daily amount: %q", got)
	}
}
