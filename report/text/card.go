package text

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/mattn/go-runewidth"

	"bowlwright/household"
	"bowlwright/report"
)

// Heads that only the text has.
const (
	dayTitle       = "Each day"
	recipeTitle    = "Recipe of the premix"
	nutrientsTitle = "Nutrients of the day"
)

// Card writes one daily card. It fails with a *household.NotPrintableError for a plan
// without amounts.
func Card(w io.Writer, p household.Paired, o Options) error {
	c, err := report.NewCard(p, o.Setting)
	if err != nil {
		return err
	}
	t := newTextWriter(o)
	t.cardHead(c)
	t.feeding(c)
	t.nutrients(c)
	t.list(report.StoreTitle, c.Storage)
	t.ownLimits(c)
	t.list(report.NoteTitle, append(append([]string(nil), c.Notes...), c.Cautions...))
	t.line("", "")
	t.line("", c.Made)
	t.line("", c.WeighText(c.Pet)+".")
	return t.writeTo(w)
}

// Plan writes the plan as the plan command shows it: amounts, whether they are enough,
// what sets their size, what to mind. For a plan that is not printable it shows why and
// no amounts.
func Plan(w io.Writer, p household.Paired, o Options) error {
	t := newTextWriter(o)
	plan := p.Plan()
	pet := &plan.Pet
	if !pet.Status.Printable() {
		t.title(pet.Pet)
		t.line("", report.About(pet, plan.Date))
		t.line("", fmt.Sprintf("Base %s  %s", plan.Base.Code, p.Base().Name))
		t.b.WriteString(t.tint(red, "No safe plan") + "\n")
		for _, s := range pet.Conflict {
			t.line("  ", s)
		}
		for _, o := range pet.OwnLimits {
			t.line("  ", o.Text)
		}
		t.line("", report.NoAmounts)
		return t.writeTo(w)
	}
	c, err := report.NewCard(p, o.Setting)
	if err != nil {
		return err
	}
	// A new plan is always ahead of its jar, which the end of the text says.
	c.Notices = slices.DeleteFunc(slices.Clone(c.Notices), func(n report.Notice) bool { return !n.Void })
	t.cardHead(c)
	t.feeding(c)
	t.nutrients(c)
	deciding := report.Deciding(pet)
	if o.Full {
		deciding = append(deciding, report.Slopes(pet)...)
	}
	t.list(report.DecidingTitle, deciding)
	t.ownLimits(c)
	t.list(report.NoteTitle, append(append([]string(nil), c.Notes...), c.Cautions...))
	t.line("", "")
	t.line("", c.Made+" "+c.WeighText(c.Pet)+".")
	return t.writeTo(w)
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

// list writes a head and a line for each text; nothing for none.
func (t *textWriter) list(title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	t.head(title)
	for _, s := range lines {
		t.line("  ", s)
	}
}

func (t *textWriter) cardHead(c *report.Card) {
	t.notices(c.Notices)
	t.title(c.Pet)
	t.line("", c.About)
	t.line("", c.Feeding)
	t.line("", fmt.Sprintf("Base %s  %s", c.BaseCode, c.BaseName))
	if len(c.Banner) > 0 {
		t.b.WriteString(t.tint(red, report.ShortTitle) + "\n")
		for _, l := range c.Banner {
			t.line("  ", l)
		}
	}
}

// notices say above everything why the text must not be used as it is.
func (t *textWriter) notices(list []report.Notice) {
	for _, n := range list {
		t.b.WriteString(t.tint(red, "*** "+n.Title+" ***") + "\n")
		for _, s := range n.Reasons {
			t.line("  ", s)
		}
		if n.Void {
			t.line("  ", "Do not feed from this card.")
		} else {
			t.line("  ", "Do not feed from this card yet.")
		}
		if n.Advice != "" {
			t.line("  ", n.Advice)
		}
		if n.Command != "" {
			t.b.WriteString("  " + report.Clean(n.Command) + "\n")
		}
		t.b.WriteString("\n")
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
	t.head(dayTitle)
	for _, m := range c.Meals {
		t.listed("  ", m.Amount, fmt.Sprintf("base, %s: %s", strings.ToLower(m.Name), c.With(m)), nameColumn)
	}
	t.line(strings.Repeat(" ", nameColumn), c.BaseTotal())
	items := func(title string, list []report.Item) {
		if len(list) > 0 {
			t.head(title)
		}
		for _, i := range list {
			t.listed("  ", i.Amount, i.Whole(), nameColumn)
		}
	}
	items(c.AddonsTitle(), c.Addons)
	if len(c.Seldom) > 0 {
		t.head(report.SeldomTitle)
		for _, s := range c.Seldom {
			t.listed("  ", s.Amount, s.Whole()+": "+s.Dates, nameColumn)
		}
	}
	if j := c.Jar; j != nil && (j.Shared || !j.MixedOn.IsZero()) {
		t.head(strings.TrimSpace(j.Title + " " + j.Code))
		if j.MixedOn.IsZero() {
			t.line("  ", "Not mixed yet.")
		} else {
			t.line("  ", "Mixed on "+report.DayText(j.MixedOn)+", good until "+report.DayText(j.GoodUntil)+".")
		}
	}
	if c.Jar != nil && !c.Jar.Shared {
		t.head(recipeTitle)
		t.line("  ", c.Jar.Recipe)
		for _, i := range c.Jar.Powders {
			t.listed("  ", i.Amount, i.Whole(), nameColumn)
		}
	}
	items(report.ExtrasTitle, c.Extras)
}

// nutrients says whether the day is enough and not too much, and what to watch; in full
// it lists all of them.
func (t *textWriter) nutrients(c *report.Card) {
	t.head(nutrientsTitle)
	t.line("  ", c.Verdict)
	for _, w := range c.Watched {
		t.line("  ", w.Name+": "+w.Reason)
	}
	if t.full {
		t.bars(c)
		return
	}
	if mark := c.RecalledMark(); mark != "" {
		t.line("  ", mark)
	}
	for _, r := range c.Ratios {
		t.line("  ", r)
	}
}
