package report

import (
	"math"

	"bowlwright/household"
	"bowlwright/nutrients/number"
)

// CoursePlot is the course of a weight on a field of one by one, time to the right and
// weight upwards (y grows downwards).
type CoursePlot struct {
	Weighings, Planned, Projection []Point
	// GoalTop and GoalBottom bound the band of the goal where HasGoal.
	GoalTop, GoalBottom float64
	HasGoal             bool
	// High, Low, From and To are the ends of the axes.
	High, Low, From, To string
}

// NewCoursePlot returns nil where fewer than two weighings can be drawn.
func NewCoursePlot(c household.WeightCourse) *CoursePlot {
	if len(c.Weighings) < 2 {
		return nil
	}
	first, last := c.Weighings[0].Date, c.Weighings[len(c.Weighings)-1].Date
	low, high := math.Inf(1), math.Inf(-1)
	take := func(kg float64) { low, high = min(low, kg), max(high, kg) }
	for _, w := range c.Weighings {
		take(w.Kg)
	}
	for _, q := range c.Projection {
		take(q.Kg)
		if last.Before(q.Date) {
			last = q.Date
		}
	}
	if c.GoalKg > 0 {
		take(c.LowKg)
		take(c.HighKg)
	}
	if least := leastPlotShare * high; high-low < least {
		low, high = (high+low-least)/2, (high+low+least)/2
	}
	y := func(kg float64) float64 { return (high - kg) / (high - low) }
	at := func(day household.Date, kg float64) Point {
		return Point{X: float64(day.DaysSince(first)) / float64(last.DaysSince(first)), Y: y(kg)}
	}
	p := &CoursePlot{HasGoal: c.GoalKg > 0, High: number.Decimals(high, 1) + " kg", Low: number.Decimals(low, 1) + " kg", From: first.String(), To: last.String()}
	if p.HasGoal {
		p.GoalTop, p.GoalBottom = y(c.HighKg), y(c.LowKg)
	}
	for _, w := range c.Weighings {
		p.Weighings = append(p.Weighings, at(w.Date, w.Kg))
	}
	for _, q := range c.Projection {
		p.Projection = append(p.Projection, at(q.Date, q.Kg))
	}
	for _, q := range c.Planned {
		if point := at(q.Date, q.Kg); point.X >= 0 && point.X <= 1 && point.Y >= 0 && point.Y <= 1 {
			p.Planned = append(p.Planned, point)
		}
	}
	return p
}
