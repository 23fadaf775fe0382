package text

import (
	"io"
	"strings"

	"github.com/mattn/go-runewidth"

	"bowlwright/report"
)

// Options say what the terminal can do.
type Options struct {
	// Width in columns; 80 when zero.
	Width int
	Color bool
	// Full adds the table of all nutrients and what each deciding limit costs.
	Full bool
	report.Setting
	// DecimalComma writes "2,5 g" instead of "2.5 g".
	DecimalComma bool
}

type textWriter struct {
	b     strings.Builder
	width int
	color bool
	full  bool
	comma bool
}

// writeTo writes everything at once.
func (t *textWriter) writeTo(w io.Writer) error {
	s := t.b.String()
	if t.comma {
		s = report.WithComma(s)
	}
	_, err := io.WriteString(w, s)
	return err
}

func newTextWriter(o Options) *textWriter {
	if o.Width < 40 {
		o.Width = 80
	}
	return &textWriter{width: o.Width, color: o.Color, full: o.Full, comma: o.DecimalComma}
}

// Colours carry meaning only beside the same meaning in words.
const (
	red   = "\x1b[31m"
	green = "\x1b[32m"
	bold  = "\x1b[1m"
	plain = "\x1b[0m"
)

func (t *textWriter) tint(code, s string) string {
	if !t.color {
		return s
	}
	return code + s + plain
}

// line writes a line, wrapped to the width with the given indent.
func (t *textWriter) line(indent, s string) {
	for _, l := range Wrap(report.Clean(s), t.width-runewidth.StringWidth(indent)) {
		t.b.WriteString(strings.TrimRight(indent+l, " ") + "\n")
	}
}

func (t *textWriter) head(s string) {
	t.b.WriteString("\n" + t.tint(bold, report.Clean(s)) + "\n")
}

// title writes a name in bold, on as many lines as it needs.
func (t *textWriter) title(s string) {
	for _, l := range Wrap(report.Clean(s), t.width) {
		t.b.WriteString(t.tint(bold, l) + "\n")
	}
}

// Wrap breaks text into lines of at most width columns at spaces.
func Wrap(s string, width int) []string {
	var lines []string
	line := ""
	for _, word := range report.Words(s) {
		for runewidth.StringWidth(word) > width {
			cut := runewidth.Truncate(word, width, "")
			if cut == "" {
				break
			}
			if line != "" {
				lines = append(lines, line)
				line = ""
			}
			lines = append(lines, cut)
			word = strings.TrimPrefix(word, cut)
		}
		switch {
		case line == "":
			line = word
		case runewidth.StringWidth(line)+1+runewidth.StringWidth(word) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	for i, l := range lines {
		lines[i] = report.Unbound(l)
	}
	return lines
}

// upTo fills a text with spaces up to a column, one at least. A figure is never
// cut: "0.0042" without its end is another amount, so what is too long pushes the
// next cell on.
func upTo(s string, column int) string {
	s = report.Clean(s)
	return s + strings.Repeat(" ", max(1, column-runewidth.StringWidth(s)))
}
