package quantity

import (
	"errors"
	"math"
	"testing"

	"bowlwright/household/diag"
	"bowlwright/nutrients/number"
)

func TestParseWeight(t *testing.T) {
	for s, want := range map[string]float64{
		"31.5 kg": 31.5, "31.5kg": 31.5, " 31.5  kg ": 31.5, "69 lb": 69 * 0.45359237, "8 oz": 8 * 0.028349523125, "4300 g": 4.3, "31.5\u00a0kg": 31.5, "+4 kg": 4, ".5 kg": 0.5, "4. kg": 4,
	} {
		if got, err := Weight(s); err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("Weight(%q) = %g, %v; want %g", s, got, err, want)
		}
	}
	for s, code := range map[string]string{
		"31,5 kg": "decimal-comma", "1,000 g": "decimal-comma", "31.5": "no-unit", "31.5 stone": "unknown-unit", "31.5 KG": "unknown-unit",
		"": "not-a-number", "kg": "not-a-number", "nan kg": "not-a-number", "inf kg": "not-a-number", "1e3 kg": "unknown-unit", "0 kg": "not-positive",
		"-3 kg": "not-positive", "1/2 kg": "not-a-number", "3 4 kg": "not-a-number", "0x10 kg": "unknown-unit",
	} {
		_, err := Weight(s)
		var in *diag.InputError
		if !errors.As(err, &in) || in.Code != code || in.Advice.IsZero() {
			t.Errorf("Weight(%q): %+v, want the code %s", s, err, code)
		}
	}
}

func TestOtherQuantities(t *testing.T) {
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-12 }
	if x, err := Energy("5481.04 kJ"); err != nil || !near(x, 1310) {
		t.Errorf("%g, %v", x, err)
	}
	if x, err := Share("12 %"); err != nil || !near(x, 0.12) {
		t.Errorf("%g, %v", x, err)
	}
	for s, want := range map[string]float64{"7.90 per kg": 0.0079, "4.20 per 100 g": 0.042, "3 per lb": 3 / 453.59237} {
		if x, err := PricePerGram(s); err != nil || !near(x, want) {
			t.Errorf("%q: %g, %v", s, x, err)
		}
	}
	for s, want := range map[string][2]float64{"2 g": {2, 0}, "2 g per day": {2, 0}, "0.3 g per kg": {0, 0.3}, "50 mg per kg": {0, 0.05}} {
		if a, b, err := DailyMax(s); err != nil || !near(a, want[0]) || !near(b, want[1]) {
			t.Errorf("%q: %g, %g, %v", s, a, b, err)
		}
	}
	for _, s := range []string{"7.90", "7,90 per kg", "7.90 per cup", "-1 per kg", "1 per 0 g"} {
		if x, err := PricePerGram(s); err == nil {
			t.Errorf("the price %q is %g", s, x)
		}
	}
}

// FuzzQuantities: whatever is typed gives a finite number or a fault with a hint,
// and an accepted weight reads back from its plain form.
func FuzzQuantities(f *testing.F) {
	for _, s := range []string{"31.5 kg", "4,2 kg", "1/2 tsp", "7.90 per kg", "0.3 g per kg", "12 %", "1310 kcal", "\u2009", "9999999999999999999999999999 kg"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		kg, err := Weight(s)
		var in *diag.InputError
		if err != nil && (!errors.As(err, &in) || in.Advice.IsZero()) {
			t.Fatalf("%q: %v has no hint", s, err)
		}
		if err == nil {
			if !(kg > 0) || math.IsInf(kg, 0) {
				t.Fatalf("%q weighs %g", s, kg)
			}
			if again, err := Weight(number.Exact(kg) + " kg"); err != nil || math.Abs(again-kg) > 1e-12*kg {
				t.Fatalf("%q weighs %g, read back %g, %v", s, kg, again, err)
			}
		}
		for _, parse := range []func(string) (float64, error){Mass, Energy, Share, PricePerGram} {
			if x, err := parse(s); err == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
				t.Fatalf("%q gives %g", s, x)
			}
		}
		if a, b, err := DailyMax(s); err == nil && a*b != 0 {
			t.Fatalf("%q caps in two ways", s)
		}
	})
}
