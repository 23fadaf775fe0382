package text

import (
	"io"

	"bowlwright/household"
	"bowlwright/report"
)

// Assessment writes what a pet eats now against its limits. It proposes nothing.
func Assessment(w io.Writer, a *household.Assessment, o Options) error {
	t := newTextWriter(o)
	view := report.NewAssessed(a)
	t.title(view.Pet)
	t.line("", view.About)
	t.line("", view.From)
	t.head("Eaten in a day")
	for _, i := range view.Eats {
		t.listed("  ", i.Amount, i.Whole(), nameColumn)
	}
	t.line("  ", view.Energy)
	t.b.WriteString("\n")
	t.line("", view.Verdict)
	for _, list := range []struct {
		title string
		lines []string
		tint  string
	}{
		{"Above maximum", view.Above, red},
		{"Below minimum", view.Below, red},
		{"Below minimum as far as known", view.Partly, red},
		{"Not known for any of this food", view.Unknown, red},
	} {
		if len(list.lines) == 0 {
			continue
		}
		t.b.WriteString("\n" + t.tint(list.tint, list.title) + "\n")
		for _, l := range list.lines {
			t.line("  ", l)
		}
	}
	t.head("Nutrients of the day")
	t.table(view.Bars, view.Ratios)
	if len(view.Cautions) > 0 {
		t.head("Please note")
		for _, c := range view.Cautions {
			t.line("  ", c)
		}
	}
	return t.writeTo(w)
}
