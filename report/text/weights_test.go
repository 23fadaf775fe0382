package text

import (
	"strings"
	"testing"
	"time"

	"bowlwright/household"
)

// TestPlotOfWeights reads the plot back: a mark for each weighing, the heaviest on top, the
// goal as whole rows between its two weights, and the same in words.
func TestPlotOfWeights(t *testing.T) {
	day := household.NewDate(2026, time.November, 1)
	c := household.WeightCourse{Pet: "Tansy", GoalKg: 7, LowKg: 6.8, HighKg: 7.2}
	for week := range 6 {
		c.Weighings = append(c.Weighings, household.WeighIn{Date: day.AddDays(7 * week), Pet: "Tansy", Kg: 8.4 - 0.1*float64(week)})
	}
	c.Projection = []household.WeightOn{{Date: day.AddDays(35), Kg: 7.9}, {Date: day.AddDays(91), Kg: 7.1}}
	var b strings.Builder
	if err := Weights(&b, c, Options{Width: 100}); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(b.String(), "\n")
	marks, lastRow, lastColumn := 0, -1, -1
	for r, line := range lines[:plotRows] {
		field := line[strings.Index(line, "|")+1:]
		for x := range field {
			if field[x] != 'o' {
				continue
			}
			marks++
			if r < lastRow || x <= lastColumn {
				t.Errorf("a later and lighter weighing stands at row %d, column %d after %d, %d", r, x, lastRow, lastColumn)
			}
			lastRow, lastColumn = r, x
		}
		// 8.4 kg on top, 6.8 kg at the bottom: a row is 0.145 kg.
		kg := 8.4 - float64(r)*1.6/(plotRows-1)
		if in := strings.Contains(field, "::"); in != (kg <= 7.2+0.08) {
			t.Errorf("row %d, %.2f kg, shows the goal: %v", r, kg, in)
		}
	}
	if marks != 6 {
		t.Errorf("%d marks for 6 weighings in\n%s", marks, b.String())
	}
	if first := lines[0]; !strings.HasPrefix(first, " 8.40 kg |o") {
		t.Errorf("the first line is %q", first)
	}
	for _, want := range []string{"2026-11-01", "2027-01-31", "Weight of Tansy: 8.4 kg on 2026-11-01, 7.9 kg on 2026-12-06 (6 weighings).",
		"Goal: 7 kg, between 6.8 and 7.2 kg.", "Expected on the plan as it is: 7.1 kg on 2027-01-31."} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is missing", want)
		}
	}
	// One weighing is words only.
	c.Weighings = c.Weighings[:1]
	b.Reset()
	if err := Weights(&b, c, Options{Width: 100}); err != nil || strings.Contains(b.String(), "|") || !strings.Contains(b.String(), "8.4 kg on 2026-11-01") {
		t.Errorf("%v, %q", err, b.String())
	}
}
