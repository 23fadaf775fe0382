package diag

import (
	"fmt"
	"io"
	"strings"

	"github.com/mattn/go-runewidth"
)

// TextOptions say what the terminal can do.
type TextOptions struct {
	// Width in columns, 80 when zero; longer excerpts are cut around the caret.
	Width int
	Color bool
}

const (
	red   = "\x1b[31m"
	bold  = "\x1b[1m"
	plain = "\x1b[0m"
)

// Write renders the list: file, line and column, what is wrong, the line itself
// with a caret below, and the hint.
func (l List) Write(w io.Writer, o TextOptions) error {
	if o.Width <= 0 {
		o.Width = 80
	}
	var b strings.Builder
	for _, d := range l {
		d.write(&b, o)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (d Diagnostic) write(b *strings.Builder, o TextOptions) {
	on := func(code string) string {
		if o.Color {
			return code
		}
		return ""
	}
	kind := "error"
	if d.Severity == Warning {
		kind = "warning"
	}
	where := d.At.File
	if d.At.Line > 0 {
		where = fmt.Sprintf("%s:%d:%d", d.At.File, d.At.Line, d.At.Col)
	}
	if where != "" {
		fmt.Fprintf(b, "%s%s%s: ", on(bold), where, on(plain))
	}
	fmt.Fprintf(b, "%s%s%s: %s\n", on(red), kind, on(plain), d.Summary)
	if d.At.Line > 0 && strings.TrimSpace(d.At.Excerpt) != "" {
		excerpt, col, length := clip(d.At, o.Width-8)
		number := fmt.Sprintf("%4d", d.At.Line)
		fmt.Fprintf(b, "%s | %s\n", number, excerpt)
		fmt.Fprintf(b, "     | %s%s%s%s\n", strings.Repeat(" ", col), on(red), strings.Repeat("^", length), on(plain))
	}
	if d.Hint != "" {
		fmt.Fprintf(b, "hint: %s\n", d.Hint)
	}
}

// clip returns the excerpt fit for the width, with tabs and control characters
// made visible, and the caret's column and length in it.
func clip(s Span, width int) (excerpt string, col, length int) {
	clean := func(text string) string {
		return strings.Map(func(r rune) rune {
			switch {
			case r == '\t':
				return ' '
			case r < ' ' || r == 0x7f || (r >= 0x80 && r < 0xa0) || (r >= 0x202a && r <= 0x202e) || (r >= 0x2066 && r <= 0x2069):
				return '·'
			}
			return r
		}, strings.ToValidUTF8(text, "·"))
	}
	runes := []rune(s.Excerpt)
	start := min(max(s.Col-1, 0), len(runes))
	end := min(max(s.EndCol-1, start+1), max(len(runes), start+1))
	from := 0
	width = max(width, 20)
	if start > width-12 {
		from = start - width/2
	}
	before := clean(string(runes[from:start]))
	marked := clean(string(runes[start:min(end, len(runes))]))
	rest := clean(string(runes[min(end, len(runes)):]))
	lead := ""
	if from > 0 {
		lead = "…"
	}
	excerpt = runewidth.Truncate(lead+before+marked+rest, width, "…")
	col = runewidth.StringWidth(lead + before)
	length = max(1, min(runewidth.StringWidth(marked), width-col))
	return excerpt, col, length
}
