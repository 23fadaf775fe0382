package report

import (
	"math"
	"testing"
	"time"

	"bowlwright/household"
)

// TestCoursePlot places by hand: 8 to 6 kg over 100 days, the goal of 7 kg in the middle.
func TestCoursePlot(t *testing.T) {
	day := household.NewDate(2026, time.January, 1)
	c := household.WeightCourse{Pet: "Tansy", GoalKg: 7, LowKg: 6.8, HighKg: 7.2,
		Weighings:  []household.WeighIn{{Date: day, Kg: 8}, {Date: day.AddDays(50), Kg: 7.5}},
		Planned:    []household.WeightOn{{Date: day.AddDays(-7), Kg: 8.1}, {Date: day.AddDays(25), Kg: 7.75}},
		Projection: []household.WeightOn{{Date: day.AddDays(50), Kg: 7.5}, {Date: day.AddDays(100), Kg: 6}}}
	p := NewCoursePlot(c)
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s is at %g, not %g", what, got, want)
		}
	}
	near("the first weighing, across", p.Weighings[0].X, 0)
	near("the first weighing, down", p.Weighings[0].Y, 0)
	near("the second weighing, across", p.Weighings[1].X, 0.5)
	near("the second weighing, down", p.Weighings[1].Y, 0.25)
	near("the last expected weight, across", p.Projection[1].X, 1)
	near("the last expected weight, down", p.Projection[1].Y, 1)
	near("the top of the goal", p.GoalTop, 0.4)
	near("the bottom of the goal", p.GoalBottom, 0.6)
	if len(p.Planned) != 1 || p.Planned[0] != (Point{0.25, 0.125}) {
		t.Errorf("the rate that is aimed at is drawn at %v", p.Planned)
	}
	if p.From != "2026-01-01" || p.To != "2026-04-11" || p.High != "8 kg" || p.Low != "6 kg" {
		t.Errorf("axes from %s to %s, %s to %s", p.From, p.To, p.Low, p.High)
	}
	c.Weighings = c.Weighings[:1]
	if NewCoursePlot(c) != nil {
		t.Error("one weighing is drawn as a line")
	}
}
