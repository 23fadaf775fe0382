package report

import (
	"fmt"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients/number"
)

// mealLines say what goes into each meal.
func mealLines(pet *household.PetPlan) []string {
	shares := household.MealShares(pet.BaseG, pet.Meals, pet.Scales.ScaleG)
	var lines []string
	for i, g := range shares {
		lines = append(lines, fmt.Sprintf("%s: %s of base", mealName(i, len(shares)), Grams(g)))
	}
	return lines
}

// ShortMeals are the meals in one short line: "morning: 407 g, evening: 406 g"; the
// colon keeps the number of a meal from running into its weight.
func ShortMeals(shares []float64) string {
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
		return [...]string{"Morning", "Evening"}[i]
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
