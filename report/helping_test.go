package report

import (
	"slices"
	"testing"

	"bowlwright/household"
	"bowlwright/report/internal/sample"
)

// One helping for several days is shown as it is measured out.
func TestHelpingForSeveralDays(t *testing.T) {
	a := household.AddonAmount{Food: "cod-liver-oil", Name: "Cod liver oil", G: 0.3, EveryDays: 4, ServedAs: household.ServedWeighed, Measure: "every fourth day"}
	if got := dose(a); got != Grams(1.2) {
		t.Errorf("a helping of four days: %q", got)
	}
	a.EveryDays = 0
	if got := dose(a); got != Grams(0.3) {
		t.Errorf("a daily amount: %q", got)
	}
}

// TestSeldomIsNotDaily: what is given once a week never stands under the head of what is
// given daily, in any document, and always with its rhythm.
func TestSeldomIsNotDaily(t *testing.T) {
	base := sample.Base(t)
	p := sample.Pair(t, sample.Plan("Marlow", base), base)
	c, err := NewCard(p, Setting{Day: household.NewDate(2026, 11, 27)})
	if err != nil {
		t.Fatal(err)
	}
	if slices.ContainsFunc(c.Addons, func(i Item) bool { return i.Name == "Wheat germ oil" }) || len(c.Seldom) != 1 || c.Seldom[0].Item != (Item{"0.7 g", "Wheat germ oil", "once a week"}) || c.Seldom[0].Dates != "2, 9, 16, 23 Dec" {
		t.Errorf("daily %v, not daily %v", c.Addons, c.Seldom)
	}
}

func TestDoseRemark(t *testing.T) {
	for want, a := range map[string]household.AddonAmount{
		"1.2 g":                        {G: 1.2, ServedAs: household.ServedByUnit, Unit: "capsule", Units: 2, Measure: "2 capsules"},
		"1.2 g, every second day":      {G: 0.6, EveryDays: 2, ServedAs: household.ServedByUnit, Unit: "capsule", Units: 2, Measure: "2 capsules, every second day"},
		"about 2 tbsp":                 {G: 24, ServedAs: household.ServedWeighed, Measure: "about 2 tbsp"},
		"about ¼ tsp, every third day": {G: 0.2, EveryDays: 3, ServedAs: household.ServedWeighed, Measure: "about ¼ tsp, every third day"},
		"every 5 days":                 {G: 0.2, EveryDays: 5, ServedAs: household.ServedWeighed},
	} {
		if got := doseRemark(a); got != want {
			t.Errorf("remark %q, want %q", got, want)
		}
	}
}

// TestDaysInWords: counted from the day of the plan, so that every print names the same.
func TestDaysInWords(t *testing.T) {
	plan := household.NewDate(2026, 11, 25)
	for _, c := range []struct {
		n    int
		from household.Date
		want string
	}{
		{7, plan, "25 Nov · 2, 9, 16 Dec"},
		{7, plan.AddDays(1), "2, 9, 16, 23 Dec"},
		{4, plan.AddDays(40), "4, 8, 12, 16, 20, 24, 28 Jan"},
	} {
		if got := daysText(every(c.n, plan, c.from)); got != c.want {
			t.Errorf("every %d days from %s: %q, want %q", c.n, c.from, got, c.want)
		}
	}
	if got := DayText(plan); got != "Wed 25 Nov 2026" {
		t.Errorf("%q", got)
	}
	if got := SpanText(household.NewDate(2026, 12, 20), household.NewDate(2027, 1, 16)); got != "20 Dec 2026 to 16 Jan 2027" {
		t.Errorf("%q", got)
	}
}
