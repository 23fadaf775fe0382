package optimize

import (
	"strings"
	"testing"
)

// Limits in words have their figures, those of a ratio too.
func TestLimitsInWords(t *testing.T) {
	h := demo(t)
	p, err := formulate(h, petNamed(t, h, "Pip"))
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, r := range p.rows {
		words := p.inWords(r)
		if !strings.ContainsAny(words, "0123456789") || strings.HasSuffix(words, " lower") || strings.HasSuffix(words, " upper") {
			t.Errorf("%s in words: %q", r.limit, words)
		}
		switch {
		case r.limit == "calcium-phosphorus lower" && words == "calcium : phosphorus at least 1", r.limit == "calcium-phosphorus upper" && words == "calcium : phosphorus at most 2":
			seen++
		}
	}
	if seen != 2 {
		t.Errorf("%d of the two limits of the ratio are said in words", seen)
	}
}
