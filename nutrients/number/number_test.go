package number

import "testing"

func TestDigits(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 1804.2: "1804", 413.4: "413", 24.25: "24.2", 7.049: "7.05", 0.98651: "0.987",
		0.00043: "0.00043", 4.3e-7: "0.00000043", 12: "12", 100: "100", 1e6: "1000000", -2.345: "-2.35", -1e-12: "0"} {
		if got := Short(x); got != want {
			t.Errorf("Short(%v) = %q, want %q", x, got, want)
		}
	}
	for x, want := range map[float64]string{31.55: "31.55", 0.312: "0.312", 4.325: "4.325", 24.494: "24.49"} {
		if got := Digits(x, 4); got != want {
			t.Errorf("Digits(%v, 4) = %q, want %q", x, got, want)
		}
	}
	if a, b := Decimals(13.370000000000001, 4), Exact(0.1); a != "13.37" || b != "0.1" {
		t.Errorf("%q and %q", a, b)
	}
}

func TestApart(t *testing.T) {
	for _, c := range []struct {
		x, limit float64
		a, b     string
	}{{12.26, 12.3, "12.26", "12.3"}, {3, 4, "3", "4"}, {1801.2, 1801.4, "1801.2", "1801.4"}, {5, 5, "5", "5"}, {0.0614999, 0.0615, "under 0.0615", "0.0615"},
		{574.2053, 574.2132, "under 574", "574"}, {2.0000001, 2, "over 2", "2"}} {
		if a, b := Apart(c.x, c.limit); a != c.a || b != c.b {
			t.Errorf("%v and %v are written %q and %q, want %q and %q", c.x, c.limit, a, b, c.a, c.b)
		}
	}
}
