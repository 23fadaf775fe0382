package nutrients

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// TestOwnLimits: arithmetic done by hand for a dog of 20 kg, condition 5, that gets 1000
// kcal by its owner's word: its ideal weight is 20 kg, and 130 kcal x 20^0.75 = 1229.4
// kcal is the reference energy of NRC 2006, for which minima count.
func TestOwnLimits(t *testing.T) {
	dog := Animal{Species: Dog, Stage: Adult, Standard: NRC2006, WeightKg: 20, Condition: 5, Activity: Moderate, AgeWeeks: -1, EnergyKcal: 1000}
	own := func(x float64, per OwnPer) *OwnAmount { return &OwnAmount{x, per} }
	reference := 130 * math.Pow(20, 0.75)
	for name, c := range map[string]struct {
		limit        OwnLimit
		of           ID
		lower, upper float64 // 0 for none
		loosened     bool
	}{
		"maximum per energy fed":       {OwnLimit{Nutrient: Phosphorus, Maximum: own(1200, OwnPer1000kcal)}, Phosphorus, -1, 1200, false},
		"minimum per reference energy": {OwnLimit{Nutrient: Phosphorus, Minimum: own(900, OwnPer1000kcal)}, Phosphorus, 900 * reference / 1000, 0, false},
		"per kg of ideal weight":       {OwnLimit{Nutrient: Sodium, Maximum: own(50, OwnPerKgIdeal)}, Sodium, -1, 1000, false},
		"a day":                        {OwnLimit{Nutrient: Magnesium, Minimum: own(300, OwnPerDay)}, Magnesium, 300, 0, false},
		"a loosened minimum":           {OwnLimit{Nutrient: Protein, Minimum: own(10, OwnPerDay)}, Protein, 10, 0, false},
		"a raised maximum":             {OwnLimit{Nutrient: VitaminD, Maximum: own(500, OwnPerDay)}, VitaminD, -1, 500, true},
		"a lowered maximum":            {OwnLimit{Nutrient: VitaminD, Maximum: own(15, OwnPerDay)}, VitaminD, -1, 15, false},
		"a dropped maximum":            {OwnLimit{Nutrient: VitaminD, DropMaximum: true}, VitaminD, -1, 0, true},
		"vitamin A poisons as retinol": {OwnLimit{Nutrient: VitaminA, Maximum: own(3000, OwnPerDay)}, Retinol, 0, 3000, false},
		// Magnesium has no maximum: 150 mg per 1000 kcal is the minimum, and concentrates
		// may bring five times that, so a maximum beyond it says more than the standard.
		"a maximum where there is none": {OwnLimit{Nutrient: Magnesium, Maximum: own(300, OwnPerDay)}, Magnesium, -1, 300, false},
		"a maximum far beyond":          {OwnLimit{Nutrient: Magnesium, Maximum: own(3000, OwnPerDay)}, Magnesium, -1, 3000, true},
		"a minimum far beyond":          {OwnLimit{Nutrient: Magnesium, Minimum: own(1000, OwnPerDay)}, Magnesium, 1000, 0, true},
	} {
		a := dog
		before, err := TargetsFor(a)
		if err != nil {
			t.Fatal(err)
		}
		c.limit.Reason, c.limit.By = "a test", "Dr X"
		a.Limits = []OwnLimit{c.limit}
		after, err := TargetsFor(a)
		if err != nil {
			t.Fatal(name, err)
		}
		find := func(t Targets) (l Limit) {
			for _, l = range t.Limits {
				if l.Nutrient == c.of {
					return l
				}
			}
			return Limit{}
		}
		was, now := find(before), find(after)
		if c.lower < 0 && was.Lower != nil {
			c.lower = *was.Lower
		}
		same := func(got *float64, want float64) bool {
			return got == nil && want <= 0 || got != nil && math.Abs(*got-want) < 1e-9*want
		}
		if !same(now.Lower, c.lower) || !same(now.Upper, c.upper) {
			t.Errorf("%s: %v to %v, want %g to %g", name, now.Lower, now.Upper, c.lower, c.upper)
		}
		if now.Own == nil || now.Own.LoosensMaximum() != c.loosened || strings.HasPrefix(now.Own.Text(), "MAXIMUM LOOSENED. ") != c.loosened {
			t.Errorf("%s: %+v", name, now.Own)
		} else if text := now.Own.Text(); !strings.Contains(text, "set by the household: a test (prescribed by Dr X)") {
			t.Errorf("%s: %s", name, text)
		}
		if now.Aim != nil && (now.Lower == nil || *now.Aim < *now.Lower || now.Upper != nil && *now.Aim > *now.Upper) {
			t.Errorf("%s: aims at %g", name, *now.Aim)
		}
	}
}

// TestDroppedMinimumStaysBounded: without a minimum and a maximum nothing would bound what
// concentrates bring, so they keep to what the minimum allowed them.
func TestDroppedMinimumStaysBounded(t *testing.T) {
	dog := Animal{Species: Dog, Stage: Adult, Standard: NRC2006, WeightKg: 20, AgeWeeks: -1}
	before, err := TargetsFor(dog)
	if err != nil {
		t.Fatal(err)
	}
	dog.Limits = []OwnLimit{{Nutrient: Iron, DropMinimum: true, Reason: "x"}}
	after, err := TargetsFor(dog)
	if err != nil {
		t.Fatal(err)
	}
	for i, l := range after.Limits {
		if l.Nutrient == Iron && (l.Lower != nil || l.Upper == nil || *l.Upper != 5**before.Limits[i].Lower) {
			t.Errorf("%+v", l)
		}
	}
}

func TestOwnLimitsThatCross(t *testing.T) {
	dog := Animal{Species: Dog, Stage: Adult, Standard: NRC2006, WeightKg: 20, AgeWeeks: -1, Limits: []OwnLimit{
		{Nutrient: Calcium, Maximum: &OwnAmount{10, OwnPerDay}, Reason: "x"}}}
	var cannot *RangeError
	if _, err := TargetsFor(dog); !errors.As(err, &cannot) || !strings.Contains(cannot.Error(), "over the maximum") {
		t.Error(err)
	}
}
