package text

import (
	"fmt"
	"io"

	"bowlwright/household/supplies"
	"bowlwright/report"
)

// Batch writes the batch sheet with its shopping list for the terminal.
func Batch(w io.Writer, b *supplies.BatchSheet, o Options) error {
	t := newTextWriter(o)
	t.title("Batch sheet: " + b.Name)
	t.line("", fmt.Sprintf("Base %s, %s, %s", b.Code, b.Household, report.DayText(b.Date)))
	t.line("", report.BatchSummary(b))
	if len(b.OutOfDate) > 0 {
		t.b.WriteString("\n" + t.tint(red, "*** "+report.OutOfDateTitle+" ***") + "\n")
		t.line("  ", report.PortionsOutOfDate)
		for _, why := range b.OutOfDate {
			t.line("  ", why)
		}
	}
	pot, after := report.PotLines(b)
	t.head(report.PotTitle)
	for _, l := range pot {
		t.entry(report.PotGrams(l.G), report.WithMethod(l))
	}
	if len(after) > 0 {
		t.head(report.AfterTitle)
		for _, l := range after {
			t.entry(report.PotGrams(l.G), report.WithMethod(l))
		}
	}
	t.head("Shopping list")
	for _, g := range b.Shopping {
		t.line("  ", report.ShelfName(g.Group))
		for _, l := range g.Lines {
			t.entry(report.Grams(l.BuyG), report.ShoppingText(l))
		}
	}
	if cost := report.CostText(b); cost != "" {
		t.line("  ", cost)
	}
	t.head("Containers")
	for _, c := range b.Containers {
		t.line("  ", report.ContainerText(c.Pet, c))
	}
	for _, s := range report.ContainersTogether(b) {
		t.line("  ", s)
	}
	t.head("Cook and keep")
	for _, r := range report.CookingRules(b.Groups) {
		t.line("  ", r)
	}
	return t.writeTo(w)
}

// entry is an amount and what it is of.
func (t *textWriter) entry(amount, name string) { t.listed("    ", amount, name, 16) }
