package html

import (
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/report/internal/sample"
)

func TestOwnLimitsOnThePage(t *testing.T) {
	base := sample.Base(t)
	pages, err := Pages([]household.Paired{sample.Pair(t, sample.WithOwnLimits(sample.Plan("Marlow", base)), base)}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	whole := ""
	for _, p := range pages {
		whole += string(p.Data)
	}
	for _, want := range []string{"Limits set by the household", "<li>Phosphorus: maximum 900", `<li class="loosened">MAXIMUM LOOSENED. Vitamin D`} {
		if !strings.Contains(whole, want) {
			t.Errorf("no %q in %.600s", want, whole[max(0, strings.Index(whole, "Limits set")):])
		}
	}
}
