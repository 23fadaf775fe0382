package report

import (
	"fmt"
	"strings"

	"bowlwright/household"
)

// Dates on paper and pages are written in words, because 12/11 is two days to two
// readers; files and records keep ISO dates.

// DayText writes a day in full: "Mon 30 Nov 2026", "" for no date.
func DayText(d household.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.Time().Format("Mon 2 Jan 2006")
}

// LabelDay writes a day where room is short: "30 Nov 2026".
func LabelDay(d household.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.Time().Format("2 Jan 2006")
}

// ShortDay writes a day without its year: "Mon 30 Nov".
func ShortDay(d household.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.Time().Format("Mon 2 Jan")
}

// SpanText writes two days and what lies between: "29 Nov to 26 Dec 2026".
func SpanText(from, to household.Date) string {
	layout := "2 Jan"
	if from.Time().Year() != to.Time().Year() {
		layout = "2 Jan 2006"
	}
	return from.Time().Format(layout) + " to " + to.Time().Format("2 Jan 2006")
}

// daysText writes days of a few weeks, each month once: "28 Nov · 1, 4, 7 Dec".
func daysText(days []household.Date) string {
	var months []string
	var numbers []string
	for i, d := range days {
		numbers = append(numbers, fmt.Sprint(d.Time().Day()))
		if i == len(days)-1 || days[i+1].Time().Month() != d.Time().Month() {
			months = append(months, strings.Join(numbers, ", ")+" "+d.Time().Format("Jan"))
			numbers = nil
		}
	}
	return strings.Join(months, " · ")
}

// CalendarDays is how many days a card is drawn for: four weeks.
const CalendarDays = 28

// every lists the days of a calendar on which something is due that is given every n
// days, counted from the day of the plan, so that every print of it names the same days.
func every(n int, plan, from household.Date) []household.Date {
	var due []household.Date
	for i := range CalendarDays {
		d := from.AddDays(i)
		if since := d.DaysSince(plan); since >= 0 && since%n == 0 {
			due = append(due, d)
		}
	}
	return due
}
