package report

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/household"
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
