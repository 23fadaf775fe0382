package text

import (
	"fmt"
	"io"
	"strings"

	"github.com/mattn/go-runewidth"

	"bowlwright/household"
	"bowlwright/report"
)

// Options say what the terminal can do.
type Options struct {
	// Width in columns; 80 when zero.
	Width int
	Color bool
	// DecimalComma writes "2,5 g" instead of "2.5 g".
	DecimalComma bool
}

type textWriter struct {
	b     strings.Builder
	width int
	color bool
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
	return &textWriter{width: o.Width, color: o.Color, comma: o.DecimalComma}
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

// Card writes one daily card.
func Card(w io.Writer, p household.Paired, o Options) error {
	c, err := report.NewCard(p)
	if err != nil {
		return err
	}
	t := newTextWriter(o)
	t.cardHead(c)
	t.feeding(c)
	t.head("Nutrients of the day")
	t.bars(c)
	t.foot(c)
	return t.writeTo(w)
}

func (t *textWriter) cardHead(c *report.Card) {
	t.title(c.Pet)
	t.line("", c.About)
	t.line("", fmt.Sprintf("Base %s  %s", c.BaseCode, c.BaseName))
	if len(c.Banner) > 0 {
		t.b.WriteString(t.tint(red, "NOT ALL TARGETS ARE MET") + "\n")
		for _, l := range c.Banner {
			t.line("  ", l)
		}
	}
}

// nameColumn is where names begin in the lists of the card.
const nameColumn = 14

// listed writes an amount and, from a column on, what it is of, on as many lines as
// that needs.
func (t *textWriter) listed(indent, amount, name string, column int) {
	lead := upTo(indent+amount, column)
	lines := Wrap(report.Clean(name), t.width-runewidth.StringWidth(lead))
	t.b.WriteString(lead + lines[0] + "\n")
	for _, l := range lines[1:] {
		t.b.WriteString(strings.Repeat(" ", column) + l + "\n")
	}
}

func (t *textWriter) feeding(c *report.Card) {
	t.head("Each day")
	t.b.WriteString(upTo("  "+c.Base, nameColumn) + "base " + c.BaseCode + "\n")
	for _, m := range c.Meals {
		t.line("              ", m)
	}
	items := func(list []report.Item) {
		for _, i := range list {
			t.listed("  ", i.Amount, i.Whole(), nameColumn)
		}
	}
	if len(c.Addons) > 0 {
		t.head(c.AddonsTitle())
		items(c.Addons)
	}
	if len(c.Seldom) > 0 {
		t.head(report.SeldomTitle)
		items(c.Seldom)
	}
	if len(c.Premix) > 0 {
		t.head("Recipe of the premix")
		t.line("  ", c.PremixRecipe)
		items(c.Premix)
	}
	if len(c.Extras) > 0 {
		t.head(report.ExtrasTitle)
		items(c.Extras)
	}
}

// ownLimits lists what the household changed of the limits.
func (t *textWriter) ownLimits(c *report.Card) {
	if len(c.Own) == 0 {
		return
	}
	t.head(report.OwnLimitsTitle)
	for _, o := range c.Own {
		for _, l := range Wrap(report.Clean(o.Text), t.width-2) {
			if o.Loosened {
				l = t.tint(red, l)
			}
			t.b.WriteString("  " + l + "\n")
		}
	}
}

func (t *textWriter) foot(c *report.Card) {
	t.ownLimits(c)
	t.head("Keep")
	for _, s := range c.Storage {
		t.line("  ", s)
	}
	t.head("Mind")
	for _, s := range append(append([]string(nil), c.Notes...), c.Cautions...) {
		t.line("  ", s)
	}
	t.line("", "")
	t.line("", c.Made)
	t.line("", "Weigh again by "+c.WeighBy+".")
}

// Plan writes the plan as the `plan` command shows it: amounts, every
// nutrient with amount, limits, coverage and state, what decides, cautions. For
// a plan that is not printable it shows why and no amounts.
func Plan(w io.Writer, p household.Paired, o Options) error {
	t := newTextWriter(o)
	plan := p.Plan()
	pet := &plan.Pet
	if !pet.Status.Printable() {
		t.title(pet.Pet)
		t.line("", report.About(pet))
		t.line("", fmt.Sprintf("Base %s  %s", plan.Base.Code, p.Base().Name))
		t.b.WriteString(t.tint(red, "No plan: "+string(pet.Status)) + "\n")
		for _, s := range pet.Conflict {
			t.line("  ", s)
		}
		for _, o := range pet.OwnLimits {
			t.line("  ", o.Text)
		}
		t.line("", "No amounts are shown, because none of them would be safe.")
		return t.writeTo(w)
	}
	c, err := report.NewCard(p)
	if err != nil {
		return err
	}
	t.cardHead(c)
	t.feeding(c)
	t.head("Nutrients of the day")
	t.bars(c)
	if len(pet.Binding) > 0 {
		t.head("What decides")
		for _, s := range report.Deciding(pet) {
			t.line("  ", s)
		}
	}
	t.ownLimits(c)
	if len(c.Notes)+len(c.Cautions) > 0 {
		t.head("Mind")
		for _, s := range append(append([]string(nil), c.Notes...), c.Cautions...) {
			t.line("  ", s)
		}
	}
	t.line("", "")
	t.line("", c.Made+" Weigh again by "+c.WeighBy+".")
	return t.writeTo(w)
}
