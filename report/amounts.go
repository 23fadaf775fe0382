package report

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household"
)

// mealLines say what goes into each meal.
func mealLines(pet *household.PetPlan) []string {
	meals := max(1, pet.Meals)
	var lines []string
	for i, g := range mealShares(pet.BaseG, meals, pet.Scales.ScaleG) {
		lines = append(lines, fmt.Sprintf("%s: %s of base", mealName(i, meals), grams(g)))
	}
	return lines
}

// shortMeals are the meals in one short line: "morning: 407 g, evening: 406 g"; the
// colon keeps the number of a meal from running into its weight.
func shortMeals(dailyG float64, meals int, step float64) string {
	meals = max(1, meals)
	var parts []string
	for i, g := range mealShares(dailyG, meals, step) {
		parts = append(parts, strings.ReplaceAll(strings.ToLower(mealName(i, meals))+": "+grams(g), " ", noBreak))
	}
	return strings.Join(parts, ", ")
}

// mealShares divide a day's base over the meals in whole scale steps; what does
// not divide evenly goes to the first meals.
func mealShares(dailyG float64, meals int, step float64) []float64 {
	if step <= 0 {
		step = 1
	}
	steps := int(math.Round(dailyG / step))
	shares := make([]float64, meals)
	for i := range shares {
		n := steps / meals
		if i < steps%meals {
			n++
		}
		shares[i] = float64(n) * step
	}
	return shares
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
	if a.ServedAs == "unit" && a.Units > 0 {
		unit := a.Unit
		if a.Units > 1 {
			unit += "s"
		}
		return fmt.Sprintf("%s %s", number(a.Units), unit)
	}
	return grams(a.G * float64(max(1, a.EveryDays)))
}

// doseRemark says the same dose in another way, and how often it is given.
func doseRemark(a household.AddonAmount) string {
	remark := a.Measure
	if a.ServedAs == "unit" && a.Units > 0 {
		// The count is the dose itself; what it weighs can be checked on a scale.
		remark = grams(a.G * float64(max(1, a.EveryDays)))
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
