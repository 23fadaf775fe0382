package report

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household/supplies"
	"bowlwright/nutrients/number"
)

// kitchenG is from where on a weight of the pot stands in whole grams, the steps of a
// kitchen scale: rounding moves it by no more than the two and a half per cent that
// the scale itself may be off. What is less goes on a finer one, and is written to
// two decimals, or to two digits where those would leave none.
const kitchenG = 20.0

// kiloG is from where on a weight of the kitchen is written in kilograms.
const kiloG = 10000.0

// PotGrams writes a weight of the kitchen: "130 g" and "70 g", but "0.36 g" of salt and
// "101.7 kg" of a large pot.
func PotGrams(g float64) string {
	switch {
	case g >= kiloG:
		return number.Digits(g/1000, weightDigits) + " kg"
	case g >= kitchenG:
		return fmt.Sprintf("%.0f g", g)
	case g < 0.1:
		return number.Digits(g, 2) + " g"
	}
	return Grams(math.Round(100*g) / 100)
}

// potKilos writes the weight of a pot in a sentence: "4.66 kg", and grams under one
// kilogram.
func potKilos(g float64) string {
	if g < 1000 {
		return PotGrams(g)
	}
	return number.Digits(g/1000, max(3, weightDigits-1)) + " kg"
}

// BatchSummary says how much is cooked and for how long.
func BatchSummary(b *supplies.BatchSheet) string {
	about := "about "
	if b.Weighed {
		about = ""
	}
	return fmt.Sprintf("%s raw, %s%s cooked: %s for everyone, %s a day.", potKilos(b.RawG), about, potKilos(b.CookedG), Days(b.Days), potKilos(b.DailyG))
}

// Heads of the two lists of a pot.
const (
	PotTitle   = "Into the pot"
	AfterTitle = "Stir in after cooking (ready to eat)"
)

// PotLines are the ingredients that are cooked, then those that are ready to eat and
// counted without losses of cooking.
func PotLines(b *supplies.BatchSheet) (pot, after []supplies.SheetLine) {
	for _, l := range b.Ingredients {
		if l.Method == "" {
			after = append(after, l)
		} else {
			pot = append(pot, l)
		}
	}
	if len(pot) == 0 {
		return after, nil
	}
	return pot, after
}

// Days counts days.
func Days(n int) string { return plural(n, "day") }

// Counted counts things: "1 animal", "3 animals".
func Counted(n int, one string) string { return plural(n, one) }

// plural counts things: "1 day", "3 days".
func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

// WithMethod is an ingredient with how it is cooked, eggs with their number.
func WithMethod(l supplies.SheetLine) string {
	var remarks []string
	if n := math.Round(l.Pieces); n >= 1 {
		remarks = append(remarks, "about "+plural(int(n), "egg"))
	}
	if l.Method != "" {
		remarks = append(remarks, l.Method)
	}
	if len(remarks) == 0 {
		return l.Name
	}
	return l.Name + " (" + strings.Join(remarks, ", ") + ")"
}

// ShoppingText is what to buy, with what of it is thrown away and its price.
func ShoppingText(l supplies.ShoppingLine) string {
	s := l.Name
	if l.RefuseG >= 0.5 {
		s += fmt.Sprintf(" (%.0f g waste)", l.RefuseG)
	}
	if l.Price > 0 {
		s += fmt.Sprintf("; price %.2f", l.Price)
	}
	return s
}

// CostText says what the list costs, "" where no prices are given.
func CostText(b *supplies.BatchSheet) string {
	switch {
	case b.Cost == 0:
		return ""
	case b.CostMissing > 0:
		return fmt.Sprintf("Total: %.2f, and what has no price (%d).", b.Cost, b.CostMissing)
	}
	return fmt.Sprintf("Total: %.2f.", b.Cost)
}

// ContainersTogether counts the containers, and says what no container holds.
func ContainersTogether(b *supplies.BatchSheet) []string {
	n, g := 0, 0.0
	for _, c := range b.Containers {
		n += c.Count
		g += float64(c.Count) * c.G
	}
	var lines []string
	if n > 0 {
		lines = append(lines, fmt.Sprintf("%s in all, %s.", plural(n, "container"), PotGrams(g)))
	}
	if b.LeftG >= supplies.LeastLeftG {
		lines = append(lines, PotGrams(b.LeftG)+" are left over, for nobody yet: write the code on them too.")
	}
	return lines
}

// ContainerText is a line of the containers.
func ContainerText(name string, c supplies.Container) string {
	return fmt.Sprintf("%s: %d × %s for %s, %s a day (%s)", name, c.Count, Grams(c.G), Days(c.Days), Grams(c.DailyG), ShortMeals(c.Meals))
}

// PortionsOutOfDate stands on a batch sheet over the reasons why portions are out of date.
const PortionsOutOfDate = "The pot may be cooked; do not portion by this sheet for these before they have a new plan."
