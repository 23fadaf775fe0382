package diet

import (
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
)

// Limits in words have their figures, those of a ratio too.
func TestLimitsInWords(t *testing.T) {
	h := sample.QuinceLane(t)
	p, err := Formulate(h, sample.PetNamed(t, h, "Pip"))
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, r := range p.Rows {
		words := p.InWords(r)
		if !strings.ContainsAny(words, "0123456789") || strings.HasSuffix(words, " lower") || strings.HasSuffix(words, " upper") {
			t.Errorf("%s in words: %q", r.Limit, words)
		}
		switch {
		case r.Limit.String() == "calcium-phosphorus lower" && words == "calcium : phosphorus at least 1", r.Limit.String() == "calcium-phosphorus upper" && words == "calcium : phosphorus at most 2":
			seen++
		}
	}
	if seen != 2 {
		t.Errorf("%d of the two limits of the ratio are said in words", seen)
	}
}
