package text

import (
	"strings"
	"testing"
)

func TestFold(t *testing.T) {
	for _, c := range []struct {
		in    string
		width int
		want  string
	}{
		{"short", 10, "short"},
		{"one two three", 9, "one two\n  three"},
		{"  ab  cd ef gh", 10, "  ab  cd\n    ef gh"},
		{"give 1.25 g of it", 11, "give 1.25 g\n  of it"},
		{"give 1.25 g of it", 10, "give\n  1.25 g\n  of it"},
		{"ab  cd ef gh ij kl mn", 12, "ab  cd ef gh\n    ij kl mn"},
		{"see averyveryverylongword now", 10, "see\n  averyveryverylongword\n  now"},
		{"averyveryverylongword", 10, "averyveryverylongword"},
		{"\x1b[1mone two\x1b[0m three", 9, "\x1b[1mone two\x1b[0m\n  three"},
		{"貓的食物 貓的食物", 10, "貓的食物\n  貓的食物"},
	} {
		if got := strings.Join(Fold(c.in, c.width), "\n"); got != c.want {
			t.Errorf("%q at %d: %q, want %q", c.in, c.width, got, c.want)
		}
	}
}
