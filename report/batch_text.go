package report

import (
	"fmt"
	"io"

	"bowlwright/household"
)

// BatchText writes the batch sheet with its shopping list for the terminal.
func BatchText(w io.Writer, b *household.BatchSheet, o TextOptions) error {
	t := newTextWriter(o)
	t.title("Batch sheet: " + b.Name)
	t.line("", fmt.Sprintf("Base %s, %s, %s", b.Code, b.Household, b.Date))
	t.line("", batchSummary(b))
	t.head("Into the pot")
	for _, l := range b.Ingredients {
		t.entry(potGrams(l.G), withMethod(l))
	}
	t.head("Shopping list")
	for _, g := range b.Shopping {
		t.line("  ", shelfName(g.Group))
		for _, l := range g.Lines {
			t.entry(grams(l.BuyG), shoppingText(l))
		}
	}
	t.line("  ", costText(b))
	t.head("Containers")
	for _, c := range b.Containers {
		t.line("  ", containerText(c.Pet, c))
	}
	for _, s := range containersTogether(b) {
		t.line("  ", s)
	}
	t.head("Cook and keep")
	for _, r := range cookingRules(b.Groups) {
		t.line("  ", r)
	}
	return t.writeTo(w)
}

// entry is an amount and what it is of.
func (t *textWriter) entry(amount, name string) { t.listed("    ", amount, name, 16) }
