package report

import (
	"math"
	"testing"

	"bowlwright/household"
	"bowlwright/report/internal/sample"
)

func TestWeightPoints(t *testing.T) {
	ws := WeightsOf("marlow", sample.Weights("Marlow"))
	if len(ws) != 3 || ws[0].Kg != 33 || ws[2].Kg != 31.5 {
		t.Fatalf("weighings: %+v", ws)
	}
	// 33, 32.1 and 31.5 kg span 1.5 kg, less than six hundredths of 33, which is
	// 1.98 kg around 32.25.
	for i, want := range []struct{ x, y float64 }{{0, 0.24 / 1.98}, {0.5, 1.14 / 1.98}, {1, 1.74 / 1.98}} {
		if got := WeightPoints(ws)[i]; math.Abs(got.X-want.x) > 1e-9 || math.Abs(got.Y-want.y) > 1e-9 {
			t.Errorf("point %d at %+v, want %+v", i, got, want)
		}
	}
	day := household.NewDate(2026, 1, 1)
	for _, few := range [][]household.WeighIn{nil, {{Date: day, Pet: "Pip", Kg: 4}}, {{Date: day, Pet: "Pip", Kg: 4}, {Date: day, Pet: "Pip", Kg: 4.1}}} {
		if got := WeightsOf("Pip", few); got != nil {
			t.Errorf("a plot of %+v", got)
		}
	}
	for _, q := range WeightPoints([]household.WeighIn{{Date: day, Kg: 2}, {Date: day.AddDays(9), Kg: 60}}) {
		if q.Y < 0 || q.Y > 1 || q.X < 0 || q.X > 1 {
			t.Errorf("outside the field: %+v", q)
		}
	}
}
