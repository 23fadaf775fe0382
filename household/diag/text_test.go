package diag

import (
	"regexp"
	"strings"
	"testing"
)

func TestTextShowsLineCaretAndHint(t *testing.T) {
	l := List{{Summary: "unknown unit \"kgs\"", Hint: Hint{Text: "did you mean \"kg\"?"},
		At: Span{File: "household.toml", Line: 12, Col: 10, EndCol: 17, Excerpt: "weight = \"4 kgs\" # heavy"}}}
	want := `error: unknown unit "kgs"
  at household.toml:12:10
  12 | weight = "4 kgs" # heavy
     |          ^^^^^^^
hint: did you mean "kg"?
`
	if got := l.Text(80, false, Plain); got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
	coloured := l.Text(80, true, Plain)
	for _, code := range []string{red, bold, plain} {
		coloured = strings.ReplaceAll(coloured, code, "")
	}
	if coloured != want {
		t.Errorf("colour changes the words:\n%s", coloured)
	}
}

// TestCaretStandsUnderWideText: the caret counts the cells of a terminal.
func TestCaretStandsUnderWideText(t *testing.T) {
	l := List{{Summary: "x", At: Span{File: "f", Line: 1, Col: 3, EndCol: 4, Excerpt: "日本a"}}}
	lines := strings.Split(l.Text(0, false, Plain), "\n")
	if got := strings.Index(lines[3], "^"); got != len("  1 | ")+4 {
		t.Errorf("the caret stands at %d in %q", got, lines[3])
	}
}

func TestNearest(t *testing.T) {
	known := []string{"weight", "ideal_weight", "species", "born"}
	for word, want := range map[string]string{
		"wieght": "weight", "Weight": "weight", "weigth": "weight", "speces": "species", "bron": "born", "colour": "", "": "", "x": "",
	} {
		if got, ok := Nearest(word, known); got != want || ok != (want != "") {
			t.Errorf("Nearest(%q) = %q, %v; want %q", word, got, ok, want)
		}
	}
}

// excerptRow is a line with an excerpt of a file.
var excerptRow = regexp.MustCompile(`^  -?\d+ \| `)

// FuzzText renders any span: no panic, no line over the width, no character
// that moves the cursor.
func FuzzText(f *testing.F) {
	f.Add("weight = 4,2", "unknown", 1, 10, 13, 40)
	f.Add("\x1b[31m\t日本", "\u202e", 3, 0, -4, 20)
	f.Fuzz(func(t *testing.T, excerpt, summary string, line, col, end, width int) {
		l := List{{Summary: summary, Hint: Command(summary, summary), At: Span{File: "f", Line: line % 1000, Col: col, EndCol: end, Excerpt: strings.ToValidUTF8(excerpt, "?")}}}
		text := l.Text(width, false, Plain)
		for _, row := range strings.Split(text, "\n") {
			if strings.ContainsAny(row, "\x1b\r\x00\u202e") {
				t.Fatalf("%q moves the cursor", row)
			}
			// Wide characters count two cells each.
			if excerptRow.MatchString(row) && width >= minWidth && len([]rune(row)) > max(width, minWidth) {
				t.Fatalf("%q is wider than %d", row, width)
			}
		}
	})
}
