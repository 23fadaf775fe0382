package report

import "bowlwright/household"

// Ages are said in weeks up to the one, then in months up to the other, then in years:
// as exactly as an age is asked for.
const (
	weeksUntil  = 26
	monthsUntil = 24
)

// age says how old an animal is on a day, "" where that is not known.
func age(born, day household.Date) string {
	if born.IsZero() || day.Before(born) {
		return ""
	}
	b, d := born.Time(), day.Time()
	months := 12*(d.Year()-b.Year()) + int(d.Month()) - int(b.Month())
	if d.Day() < b.Day() {
		months--
	}
	switch weeks := day.DaysSince(born) / 7; {
	case weeks < weeksUntil:
		return plural(weeks, "week")
	case months < monthsUntil:
		return plural(months, "month")
	}
	return plural(months/12, "year")
}

// ageText says when an animal was born and how old it was on a day.
func ageText(born, day household.Date) string {
	if born.IsZero() {
		return "age not given"
	}
	return "born " + DayText(born) + ", " + age(born, day) + " old"
}
