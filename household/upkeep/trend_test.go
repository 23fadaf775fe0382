package upkeep

import (
	"math"
	"testing"

	"bowlwright/household"
)

// TestTrendOfALine: a steady loss is found, and one bad weighing does not tilt it.
func TestTrendOfALine(t *testing.T) {
	p := &household.Pet{Name: "Tansy"}
	h := &household.Household{}
	for i := range 9 {
		h.Weights = append(h.Weights, household.WeighIn{Date: testDay.AddDays(7 * (i - 8)), Pet: "Tansy", Kg: 8.4 - 0.1*float64(i)})
	}
	check := func(what string, odd int, last bool) {
		t.Helper()
		got, ok := TrendOf(h, p, testDay)
		if !ok || math.Abs(got.KgPerWeek+0.1) > 1e-9 || len(got.Odd) != odd || got.LastIsOdd != last {
			t.Errorf("%s: %+v, %v", what, got, ok)
		}
	}
	check("a line", 0, false)
	if got, _ := TrendOf(h, p, testDay); math.Abs(got.PercentPerWeek+100*0.1/7.6) > 1e-9 {
		t.Errorf("%g %% a week", got.PercentPerWeek)
	}
	h.Weights[4].Kg = 80
	check("a point slipped", 1, false)
	h.Weights[4].Kg = 8.0
	h.Weights[0].Kg = 80
	check("the first slipped", 1, false)
	h.Weights[0].Kg = 8.4
	h.Weights[8].Kg = 3
	check("the last is odd", 1, true)
	h.Weights = append(h.Weights, household.WeighIn{Date: testDay, Pet: "Tansy", Kg: 7.6})
	check("the last was corrected on the same day", 0, false)
	if _, ok := TrendOf(h, p, testDay.AddDays(200)); ok {
		t.Error("a trend from weighings of last year")
	}
	if _, ok := TrendOf(h, &household.Pet{Name: "Pip"}, testDay); ok {
		t.Error("a trend from nothing")
	}
}
