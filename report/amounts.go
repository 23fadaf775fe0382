package report

import (
	"fmt"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients/number"
)

// morning is the first of two meals.
const morning = "Morning"

// mealsOf are the rows of the table of meals. The first has the add-ons; of three and
// more the others stand in one row where they are equal.
func mealsOf(pet *household.PetPlan) []Meal {
	shares := household.MealShares(pet.BaseG, pet.Meals, pet.Scales.ScaleG)
	var meals []Meal
	for i := 0; i < len(shares); i++ {
		count := 1
		for len(shares) > 2 && i > 0 && i+count < len(shares) && shares[i+count] == shares[i] {
			count++
		}
		m := Meal{Name: mealName(i, len(shares)), Amount: Grams(shares[i]), Count: count, Addons: i == 0}
		if count > 1 {
			m.Name = fmt.Sprintf("Meals %d to %d", i+1, i+count)
			if count == 2 {
				m.Name = fmt.Sprintf("Meals %d and %d", i+1, i+2)
			}
			m.Amount = fmt.Sprintf("%d × %s", count, m.Amount)
		}
		meals = append(meals, m)
		i += count - 1
	}
	return meals
}

// align writes the weights of a list with equally many digits after the point, so that
// they can be compared below one another: "4.00 g" over "10.41 g".
func align(list []Item) {
	most := 0
	for _, i := range list {
		if _, decimals, ok := strings.Cut(strings.TrimSuffix(i.Amount, " g"), "."); ok && strings.HasSuffix(i.Amount, " g") {
			most = max(most, len(decimals))
		}
	}
	for k, i := range list {
		figure, weighed := strings.CutSuffix(i.Amount, " g")
		if !weighed || most == 0 {
			continue
		}
		whole, decimals, _ := strings.Cut(figure, ".")
		list[k].Amount = whole + "." + decimals + strings.Repeat("0", most-len(decimals)) + " g"
	}
}

// MealSum are the meals in the fewest words: "3 × 171 g" or "113 + 112 g".
func MealSum(shares []float64) string {
	if shares[0] == shares[len(shares)-1] {
		return ShortMeals(shares)
	}
	var parts []string
	for _, g := range shares {
		parts = append(parts, strings.TrimSuffix(Grams(g), " g"))
	}
	return strings.Join(parts, NoBreak+"+"+NoBreak) + NoBreak + "g"
}

// ShortMeals are the meals in one short line: "3 × 171 g" where they are equal, else
// "morning: 407 g, evening: 406 g"; the colon keeps the number of a meal from running into
// its weight.
func ShortMeals(shares []float64) string {
	if n := len(shares); n > 1 && shares[0] == shares[n-1] {
		return strings.ReplaceAll(fmt.Sprintf("%d × %s", n, Grams(shares[0])), " ", NoBreak)
	}
	var parts []string
	for i, g := range shares {
		parts = append(parts, strings.ReplaceAll(strings.ToLower(mealName(i, len(shares))+": "+Grams(g)), " ", NoBreak))
	}
	return strings.Join(parts, ", ")
}

func mealName(i, meals int) string {
	switch {
	case meals == 1:
		return "Meal"
	case meals == 2:
		return [...]string{morning, "Evening"}[i]
	}
	return fmt.Sprintf("Meal %d", i+1)
}

// dose is one helping, by weight or by count: the daily amount, or that of several
// days, which the measure says.
func dose(a household.AddonAmount) string {
	if a.ServedAs == household.ServedByUnit && a.Units > 0 {
		unit := a.Unit
		if a.Units > 1 {
			unit += "s"
		}
		return fmt.Sprintf("%s %s", number.Short(a.Units), unit)
	}
	return Grams(a.G * float64(max(1, a.EveryDays)))
}

// doseRemark says the same dose in another way, and how often it is given.
func doseRemark(a household.AddonAmount) string {
	remark := a.Measure
	if a.ServedAs == household.ServedByUnit && a.Units > 0 {
		// The count is the dose itself; what it weighs can be checked on a scale.
		remark = Grams(a.G * float64(max(1, a.EveryDays)))
	}
	if a.EveryDays > 1 && !strings.HasSuffix(remark, rhythm(a)) {
		remark = strings.TrimPrefix(remark+", "+rhythm(a), ", ")
	}
	return remark
}

// rhythm is how often a helping is given that is for several days: as the record says
// it, at the end of the measure, else the number of days.
func rhythm(a household.AddonAmount) string {
	said := a.Measure[strings.LastIndex(a.Measure, ",")+1:]
	said = strings.TrimSpace(said)
	if strings.HasPrefix(said, "every ") || strings.HasPrefix(said, "once ") {
		return said
	}
	return fmt.Sprintf("every %d days", a.EveryDays)
}
