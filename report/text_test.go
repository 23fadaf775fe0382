package report

import (
	"testing"
)

func TestDecimalComma(t *testing.T) {
	for in, want := range map[string]string{"2.5 g": "2,5 g", "0.492 to 1.5": "0,492 to 1,5", "2026-11-25.": "2026-11-25.", "M2P-N20-5, 1. a": "M2P-N20-5, 1. a"} {
		if got := WithComma(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}
