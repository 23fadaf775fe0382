package report

import (
	"fmt"
	"io"
)

// BatchText writes the batch sheet with its shopping list for the terminal.
func BatchText(w io.Writer, b *Batch, o TextOptions) error {
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
	for _, r := range b.Cooking {
		t.line("  ", r)
	}
	return t.writeTo(w)
}

// entry is an amount and what it is of.
func (t *textWriter) entry(amount, name string) { t.listed("    ", amount, name, 16) }

// potGrams writes a weight of the kitchen: whole grams, tenths under a hundred.
func potGrams(g float64) string {
	if g < 100 {
		return fmt.Sprintf("%.1f g", g)
	}
	return fmt.Sprintf("%.0f g", g)
}

func batchSummary(b *Batch) string {
	s := fmt.Sprintf("%s raw, %s cooked", potGrams(b.RawG), potGrams(b.CookedG))
	if !b.Weighed {
		s += " as expected"
	}
	return s + fmt.Sprintf("; feeds everybody for %s, %s a day.", days(b.Days), potGrams(b.DailyG))
}

func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

func withMethod(l BatchLine) string {
	if l.Method == "" {
		return l.Name
	}
	return l.Name + " (" + l.Method + ")"
}

func shoppingText(l ShoppingLine) string {
	s := l.Name
	if l.RefuseG >= 0.5 {
		s += fmt.Sprintf(" (about %.0f g of it refuse)", l.RefuseG)
	}
	if l.Price > 0 {
		s += fmt.Sprintf("; price %.2f", l.Price)
	}
	return s
}

func costText(b *Batch) string {
	switch {
	case b.Cost == 0:
		return "No prices are given in the batch file."
	case b.CostMissing > 0:
		return fmt.Sprintf("Price together: %.2f, and what has no price (%d).", b.Cost, b.CostMissing)
	}
	return fmt.Sprintf("Price together: %.2f.", b.Cost)
}

// containersTogether counts the containers, and says what no container holds.
func containersTogether(b *Batch) []string {
	n, g := 0, 0.0
	for _, c := range b.Containers {
		n += c.Count
		g += float64(c.Count) * c.G
	}
	var lines []string
	if n > 0 {
		lines = append(lines, fmt.Sprintf("%d containers together, %s.", n, potGrams(g)))
	}
	if b.LeftG >= leastLeftG {
		lines = append(lines, potGrams(b.LeftG)+" are left over, for nobody yet: write the code on them too.")
	}
	return lines
}

func containerText(name string, c Container) string {
	return fmt.Sprintf("%s: %d × %s for %s, %s a day (%s)", name, c.Count, grams(c.G), days(c.Days), grams(c.DailyG), c.Meals)
}
