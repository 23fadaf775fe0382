package html

import (
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/report/internal/sample"
)

func TestOwnLimitsOnThePage(t *testing.T) {
	base := sample.Base(t)
	page, err := Page([]household.Paired{sample.Pair(t, sample.WithOwnLimits(sample.Plan("Marlow", base)), base)}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Limits set by the household", "<li>Phosphorus: maximum 900", `<li class="out">MAXIMUM LOOSENED. Vitamin D`} {
		if !strings.Contains(string(page), want) {
			t.Errorf("no %q", want)
		}
	}
}
