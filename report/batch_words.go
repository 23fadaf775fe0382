package report

import (
	"fmt"
	"math"

	"bowlwright/household"
	"bowlwright/nutrients/number"
)

// kitchenG is from where on a weight of the pot stands in whole grams, the steps of a
// kitchen scale: rounding moves it by no more than the two and a half per cent that
// the scale itself may be off. What is less goes on a finer one, and is written to
// two decimals, or to two digits where those would leave none.
const kitchenG = 20.0

// PotGrams writes a weight of the kitchen: "130 g" and "70 g", but "0.36 g" of salt.
func PotGrams(g float64) string {
	if g >= kitchenG {
		return fmt.Sprintf("%.0f g", g)
	}
	if g < 0.1 {
		return number.Digits(g, 2) + " g"
	}
	return Grams(math.Round(100*g) / 100)
}

func BatchSummary(b *household.BatchSheet) string {
	s := fmt.Sprintf("%s raw, %s cooked", PotGrams(b.RawG), PotGrams(b.CookedG))
	if !b.Weighed {
		s += " as expected"
	}
	return s + fmt.Sprintf("; feeds everybody for %s, %s a day.", Days(b.Days), PotGrams(b.DailyG))
}

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

func WithMethod(l household.SheetLine) string {
	if l.Method == "" {
		return l.Name
	}
	return l.Name + " (" + l.Method + ")"
}

func ShoppingText(l household.ShoppingLine) string {
	s := l.Name
	if l.RefuseG >= 0.5 {
		s += fmt.Sprintf(" (%.0f g waste)", l.RefuseG)
	}
	if l.Price > 0 {
		s += fmt.Sprintf("; price %.2f", l.Price)
	}
	return s
}

func CostText(b *household.BatchSheet) string {
	switch {
	case b.Cost == 0:
		return "No prices are given in the batch file."
	case b.CostMissing > 0:
		return fmt.Sprintf("Price together: %.2f, and what has no price (%d).", b.Cost, b.CostMissing)
	}
	return fmt.Sprintf("Price together: %.2f.", b.Cost)
}

// ContainersTogether counts the containers, and says what no container holds.
func ContainersTogether(b *household.BatchSheet) []string {
	n, g := 0, 0.0
	for _, c := range b.Containers {
		n += c.Count
		g += float64(c.Count) * c.G
	}
	var lines []string
	if n > 0 {
		lines = append(lines, fmt.Sprintf("%s together, %s.", plural(n, "container"), PotGrams(g)))
	}
	if b.LeftG >= household.LeastLeftG {
		lines = append(lines, PotGrams(b.LeftG)+" are left over, for nobody yet: write the code on them too.")
	}
	return lines
}

func ContainerText(name string, c household.Container) string {
	return fmt.Sprintf("%s: %d × %s for %s, %s a day (%s)", name, c.Count, Grams(c.G), Days(c.Days), Grams(c.DailyG), ShortMeals(c.Meals))
}

// PortionsOutOfDate stands on a batch sheet over the reasons why portions are out of date.
const PortionsOutOfDate = "The pot may be cooked; do not portion by this sheet for these before they have a new plan."
