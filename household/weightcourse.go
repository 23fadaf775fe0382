package household

import (
	"cmp"
	"fmt"
	"slices"

	"bowlwright/household/learn"
	"bowlwright/nutrients"
)

// WeightCourse is where a pet's weight came from and where it goes, for a plot and for
// words beside it.
type WeightCourse struct {
	Pet string
	// Weighings are in the order of their days, one for each.
	Weighings []WeighIn
	// GoalKg is the weight to hold or to reach and LowKg, HighKg the band about it; zero
	// for an animal without a goal.
	GoalKg, LowKg, HighKg float64
	// Planned is the weight at the rate that is aimed at, from the first planned day on,
	// until the goal; nothing for an animal that should hold its weight.
	Planned []WeightOn
	// Projection is what is expected on the plan as it is, once enough is known.
	Projection []WeightOn
}

// WeightOn is a weight on a day.
type WeightOn struct {
	Date Date
	Kg   float64
}

const (
	// goalBand is the share about the goal that counts as there: the scatter of a scale.
	goalBand = 0.03
	// projectWeeks is how far ahead a weight is expected, courseWeeks how far back the
	// weighings are shown.
	projectWeeks, courseWeeks = 8, 26
)

// WeightCourseOf gathers the course of a pet on a day.
func (h *Household) WeightCourseOf(p *Pet, today Date) WeightCourse {
	c := WeightCourse{Pet: p.Name}
	for _, w := range h.WeightsOf(p, today) {
		if today.DaysSince(w.Date) > courseWeeks*weekDays {
			continue
		}
		if i := slices.IndexFunc(c.Weighings, func(o WeighIn) bool { return o.Date == w.Date }); i >= 0 {
			c.Weighings[i] = w
		} else {
			c.Weighings = append(c.Weighings, w)
		}
	}
	slices.SortFunc(c.Weighings, func(a, b WeighIn) int { return cmp.Compare(a.Date.number(), b.Date.number()) })
	if p.Animal.Stage != nutrients.Adult {
		return c
	}
	o := h.Outlook(p, today)
	c.GoalKg, c.LowKg, c.HighKg = o.GoalKg, o.GoalKg*(1-goalBand), o.GoalKg*(1+goalBand)
	if o.HasNeed && o.Need.Enough() {
		for week := range projectWeeks + 1 {
			c.Projection = append(c.Projection, WeightOn{today.AddDays(week * weekDays), o.Need.Project(o.PlanKcal, week*weekDays)})
		}
	}
	if plans := run(p.Past, p); o.Aim == learn.Lose && len(plans) > 0 {
		kg, day := plans[0].WeightKg, plans[0].Date
		for week := 0; kg > o.GoalKg && day.AddDays(week*weekDays).Before(today.AddDays(projectWeeks*weekDays)); week++ {
			c.Planned = append(c.Planned, WeightOn{day.AddDays(week * weekDays), kg})
			kg *= 1 - learn.LossRate(p.Animal.Species)
		}
	}
	return c
}

// Words says in sentences what a plot of the course shows.
func (c WeightCourse) Words() []string {
	if len(c.Weighings) == 0 {
		return nil
	}
	first, last := c.Weighings[0], c.Weighings[len(c.Weighings)-1]
	words := []string{fmt.Sprintf("Weight of %s: %s kg on %s", c.Pet, kilos(last.Kg), last.Date)}
	if first.Date != last.Date {
		words[0] = fmt.Sprintf("Weight of %s: %s kg on %s, %s kg on %s (%s)", c.Pet, kilos(first.Kg), first.Date, kilos(last.Kg), last.Date, counted(len(c.Weighings), "weighing"))
	}
	if c.GoalKg > 0 {
		words = append(words, fmt.Sprintf("Goal: %s kg, between %s and %s kg", kilos(c.GoalKg), kilos(c.LowKg), kilos(c.HighKg)))
	}
	if n := len(c.Planned); n > 0 {
		words = append(words, fmt.Sprintf("At the rate that is aimed at: %s kg on %s", kilos(c.Planned[n-1].Kg), c.Planned[n-1].Date))
	}
	if n := len(c.Projection); n > 0 {
		words = append(words, fmt.Sprintf("Expected on the plan as it is: %s kg on %s", kilos(c.Projection[n-1].Kg), c.Projection[n-1].Date))
	}
	return words
}
