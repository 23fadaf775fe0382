package diag

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/mattn/go-runewidth"
)

// The colours of the renderer, as escape sequences of ECMA-48.
const (
	red, yellow, bold, plain = "\x1b[31;1m", "\x1b[33;1m", "\x1b[1m", "\x1b[0m"
)

// minWidth is the least width for which excerpts are cut; narrower terminals
// get whole lines and wrap them themselves.
const minWidth = 20

// Text renders a list for a terminal of the given width (0 for no limit); write makes
// a command line of the words of a hint. Colour only repeats what the words say.
func (l List) Text(width int, colour bool, write func(words []string) string) string {
	var b strings.Builder
	for i, d := range l {
		if i > 0 {
			b.WriteByte('\n')
		}
		d.text(&b, width, colour, write)
	}
	return b.String()
}

func (d Diagnostic) text(b *strings.Builder, width int, colour bool, write func(words []string) string) {
	paint := func(code, s string) string {
		if !colour {
			return s
		}
		return code + s + plain
	}
	word, code := "error", red
	if d.Severity == Warning {
		word, code = "warning", yellow
	}
	fmt.Fprintf(b, "%s %s\n", paint(code, word+":"), paint(bold, printable(d.Summary)))
	d.At.text(b, width, func(s string) string { return paint(code, s) })
	if !d.Hint.IsZero() {
		fmt.Fprintf(b, "%s %s\n", paint(bold, "hint:"), printable(d.Hint.Render(write)))
	}
	for _, s := range d.Related {
		b.WriteString("see also:\n")
		s.text(b, width, func(s string) string { return s })
	}
}

// String returns "file:line:col", each part dropped when it is not known.
func (s Span) String() string {
	switch {
	case s.Line == 0:
		return s.File
	case s.Col == 0:
		return fmt.Sprintf("%s:%d", s.File, s.Line)
	}
	return fmt.Sprintf("%s:%d:%d", s.File, s.Line, s.Col)
}

func (s Span) text(b *strings.Builder, width int, paint func(string) string) {
	if s.File != "" {
		fmt.Fprintf(b, "  at %s\n", printable(s.String()))
	}
	if s.Line == 0 || s.Excerpt == "" {
		return
	}
	number := fmt.Sprint(s.Line)
	line := []rune(s.Excerpt)
	from := min(max(s.Col-1, 0), len(line))
	to := max(from, min(s.EndCol-1, len(line)))
	first, end := 0, len(line)
	if room := width - len(number) - 6; width >= minWidth && end > room {
		first = max(0, min(from-room/3, end-room))
		end = min(end, first+room)
	}
	shown := func(i, j int) string { return printable(string(line[i:max(i, min(j, end))])) }
	marks := max(1, runewidth.StringWidth(shown(from, to)))
	fmt.Fprintf(b, "  %s | %s\n", number, shown(first, end))
	fmt.Fprintf(b, "  %s | %s%s\n", strings.Repeat(" ", len(number)),
		strings.Repeat(" ", runewidth.StringWidth(shown(first, from))), paint(strings.Repeat("^", marks)))
}

// printable replaces what would move the cursor or hide text: tabs become a
// space, control and direction characters a visible mark.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r), r == '\ufeff', r == '\u2028', r == '\u2029':
			return '\ufffd'
		}
		return r
	}, s)
}
