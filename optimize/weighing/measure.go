package weighing

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
	"bowlwright/optimize/diet"
)

// CountMeasure writes a number of units ("2 capsules", "0.5 tablet").
func CountMeasure(n float64, unit string) string {
	if n > 1 && !strings.HasSuffix(unit, "s") {
		unit += "s"
	}
	return number.Decimals(n, 3) + " " + unit
}

const (
	// quarters are the parts of a measure that a kitchen has.
	quarters = 4
	// mostMeasures is how many of one measure are still quicker than a scale.
	mostMeasures = 4
	// measureTol is how far, relative, a kitchen measure may be from the grams it
	// stands for: level and heaped spoons differ by more.
	measureTol = 0.1
)

// fractions are the quarters as they are written.
var fractions = [quarters]string{"", "¼", "½", "¾"}

// KitchenMeasure gives the published measure nearest to an amount, in quarters,
// when it is within measureTol, of equals the one nearest to one spoon; "" for supplements, which must be weighed.
func KitchenMeasure(f *nutrients.Food, g float64) string {
	if f.Supplement() {
		return noMeasure
	}
	best, off, from := noMeasure, measureTol, math.Inf(1)
	for _, m := range f.Measures {
		count, name := countOf(m.Name)
		if m.Grams <= 0 || count <= 0 {
			continue
		}
		each := m.Grams / count
		n := math.Round(g / each * quarters)
		if n < 1 || n > mostMeasures*quarters {
			continue
		}
		d := math.Abs(n/quarters*each/g - 1)
		fromOne := math.Abs(math.Log(n / quarters))
		if d < off-diet.LimitTol || d <= off+diet.LimitTol && fromOne < from && best != noMeasure {
			best, off, from = "about "+inQuarters(int(n))+" "+name, d, fromOne
		}
	}
	return best
}

// spoons writes spoons in one way: the tables have "tbsp" beside "tablespoon".
var spoons = strings.NewReplacer("tablespoons", "tbsp", "tablespoon", "tbsp", "teaspoons", "tsp", "teaspoon", "tsp")

// sameAmount is a published equal of a measure, "2 tbsp (1/8 cup)": it holds for the
// published number of measures only, and kitchenMeasure gives others.
var sameAmount = regexp.MustCompile(` \([^()]*\b(tbsp|tsp|cup|oz)\)`)

// countOf splits the number off the name of a measure: "2 tbsp" is two of "tbsp".
// A measure that names no number is one.
func countOf(name string) (float64, string) {
	var n float64
	name = spoons.Replace(name)
	head, rest, _ := strings.Cut(name, " ")
	if got, err := fmt.Sscanf(head, "%g", &n); got == 1 && err == nil && fmt.Sprintf("%g", n) == head && rest != "" {
		return n, sameAmount.ReplaceAllString(rest, "")
	}
	return 1, sameAmount.ReplaceAllString(name, "")
}

func inQuarters(n int) string {
	whole, part := n/quarters, fractions[n%quarters]
	if whole == 0 {
		return part
	}
	return fmt.Sprint(whole) + part
}

// EveryText says how often a helping is given.
func EveryText(days int) string {
	switch days {
	case 2:
		return "every other day"
	case 3:
		return "every third day"
	case 4:
		return "every fourth day"
	case 7:
		return "once a week"
	}
	return fmt.Sprintf("every %d days", days)
}
