package report

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"bowlwright/household"
	"bowlwright/nutrients/number"
)

// The least span in kg that the height of the plot of the weighings stands for, as a share of the weight: so that the noise of the scale does
// not look like a trend.
const (
	leastPlotShare = 0.06
	plotWeighings  = 12
)

// WeightsOf returns the newest weighings of a pet in the order of their days, none
// when there are fewer than two days.
func WeightsOf(pet string, log []household.WeighIn) []household.WeighIn {
	var own []household.WeighIn
	for _, w := range log {
		if strings.EqualFold(w.Pet, pet) {
			own = append(own, w)
		}
	}
	slices.SortStableFunc(own, func(a, b household.WeighIn) int { return a.Date.DaysSince(b.Date) })
	own = own[max(0, len(own)-plotWeighings):]
	if len(own) < 2 || own[0].Date == own[len(own)-1].Date {
		return nil
	}
	return own
}

// Point is a point on a field of one by one.
type Point struct{ X, Y float64 }

// WeightPoints places weighings on a field of one by one, time to the right and
// weight upwards (y grows downwards, as on the page).
func WeightPoints(ws []household.WeighIn) []Point {
	low, high := ws[0].Kg, ws[0].Kg
	for _, w := range ws {
		low, high = min(low, w.Kg), max(high, w.Kg)
	}
	if least := leastPlotShare * high; high-low < least {
		middle := (high + low) / 2
		low, high = middle-least/2, middle+least/2
	}
	days := float64(ws[len(ws)-1].Date.DaysSince(ws[0].Date))
	points := make([]Point, len(ws))
	for i, w := range ws {
		points[i] = Point{X: float64(w.Date.DaysSince(ws[0].Date)) / days, Y: (high - w.Kg) / (high - low)}
	}
	return points
}

// WeightText says the first and the last weighing in words.
func WeightText(ws []household.WeighIn) string {
	first, last := ws[0], ws[len(ws)-1]
	return fmt.Sprintf("Weight: %s kg on %s, %s kg on %s", kilos(first.Kg), DayText(first.Date), kilos(last.Kg), DayText(last.Date))
}

// WeightChart is the weighings with the goal on a field of one by one, time to the right
// and weight upwards (y grows downwards).
type WeightChart struct {
	Weighings []Point
	// Kilos and Months are the marks of the axes, X or Y with a text.
	Kilos, Months []Mark
	// Now is where the plan was made, Goal the height of the goal, negative for none.
	Now, Goal float64
	GoalText  string
	// Fast, Middle and Slow are where losses of 2, 1 and half a per cent a week end, from
	// Start; nil when no weight is to be lost.
	Start              Point
	Fast, Middle, Slow *Point
}

// Mark is a mark of an axis.
type Mark struct {
	At   float64
	Text string
}

// Weekly losses that are safe (Small Animal Clinical Nutrition, 5th ed., table 27-15: 0.5
// to 2 % of the weight a week), and how many weeks are drawn ahead.
const (
	slowLoss, middleLoss, fastLoss = 0.005, 0.01, 0.02
	weeksAhead                     = 26
)

// NewWeightChart returns nil when there is nothing to draw.
func NewWeightChart(pet *household.PetPlan, ws []household.WeighIn, day household.Date) *WeightChart {
	losing := pet.Losing && pet.IdealWeightKg > 0 && pet.IdealWeightKg < pet.WeightKg
	if len(ws) == 0 && !losing {
		return nil
	}
	first, last := day, day
	if len(ws) > 0 {
		first = ws[0].Date
	}
	low, high := pet.WeightKg, pet.WeightKg
	for _, w := range ws {
		low, high = min(low, w.Kg), max(high, w.Kg)
	}
	if losing {
		low, last = min(low, pet.IdealWeightKg), day.AddDays(7*weeksAhead)
	}
	if least := leastPlotShare * high; high-low < least {
		low, high = (high+low-least)/2, (high+low+least)/2
	}
	pad := 0.08 * (high - low)
	low, high = low-pad, high+pad
	span := float64(max(1, last.DaysSince(first)))
	at := func(d household.Date, kg float64) Point {
		return Point{float64(d.DaysSince(first)) / span, (high - kg) / (high - low)}
	}
	c := &WeightChart{Goal: -1, Now: at(day, high).X}
	for _, w := range ws {
		c.Weighings = append(c.Weighings, at(w.Date, w.Kg))
	}
	for _, step := range []float64{0.1, 0.2, 0.5, 1, 2, 5, 10, 20} {
		if (high-low)/step > 5 {
			continue
		}
		for kg := math.Ceil(low/step) * step; kg <= high; kg += step {
			c.Kilos = append(c.Kilos, Mark{at(day, kg).Y, number.Decimals(kg, 1)})
		}
		break
	}
	months := 1 + int(span)/120
	t := first.Time()
	for m := household.NewDate(t.Year(), t.Month()+1, 1); !last.Before(m); m = household.NewDate(m.Time().Year(), m.Time().Month()+time.Month(months), 1) {
		c.Months = append(c.Months, Mark{at(m, high).X, m.Time().Format("Jan 06")})
	}
	if goal(pet) {
		c.Goal, c.GoalText = at(day, pet.IdealWeightKg).Y, "goal "+kilos(pet.IdealWeightKg)
	}
	if losing {
		c.Start = at(day, pet.WeightKg)
		end := func(share float64) *Point {
			weeks := math.Log(pet.IdealWeightKg/pet.WeightKg) / math.Log(1-share)
			if weeks > weeksAhead {
				weeks = weeksAhead
			}
			q := at(day.AddDays(int(7*weeks)), pet.WeightKg*math.Pow(1-share, weeks))
			return &q
		}
		c.Fast, c.Middle, c.Slow = end(fastLoss), end(middleLoss), end(slowLoss)
	}
	return c
}
