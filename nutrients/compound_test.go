package nutrients

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// TestCompounds: mass fractions from IUPAC atomic masses, worked out by hand.
func TestCompounds(t *testing.T) {
	cases := []struct {
		x    float64
		unit string
		id   ID
		want float64
		why  string
	}{
		{50, "mg of zinc gluconate", Zinc, 50 * 65.38 / 455.67, "Zn(C6H11O7)2"},
		{50, "mg of zinc-gluconate", Zinc, 50 * 65.38 / 455.67, "Zn(C6H11O7)2"},
		{1, "g of calcium carbonate", Calcium, 1000 * 40.078 / 100.09, "CaCO3"},
		{100, "ug of potassium iodide", Iodine, 100 * 126.904 / 166.00, "KI"},
		{0.5, "g of sodium-chloride", Chloride, 500 * 35.45 / 58.44, "NaCl"},
		{200, "mg of l-lysine-hcl", Lysine, 0.2 * 146.19 / 182.65, "C6H15ClN2O2, lysine in g"},
	}
	for _, c := range cases {
		got, err := Convert(c.x, c.unit, c.id)
		// The catalogue's mass fractions have four digits.
		if err != nil || math.Abs(got-c.want) > roundedShare*c.want {
			t.Errorf("%g %s is %g (%v), want %g by %s", c.x, c.unit, got, err, c.want, c.why)
		}
	}
	// The IU of vitamin E is 1 mg of dl-alpha-tocopheryl acetate (USP, recalled).
	iu, _ := Convert(10, "IU", VitaminE)
	mg, err := Convert(10, "mg of dl-alpha-tocopheryl acetate", VitaminE)
	if err != nil || math.Abs(iu-mg) > 1e-9 {
		t.Errorf("10 mg of dl-alpha-tocopheryl acetate is %g (%v), 10 IU is %g", mg, err, iu)
	}
}

func TestCompoundsThatCannotBe(t *testing.T) {
	cases := map[string]string{
		"mg as zinc gluconate":    `write the amount in mg alone, or "mg of zinc gluconate"`,
		"mg of zinc glucnate":     "did you mean zinc-gluconate?",
		"mg of calcium carbonate": "calcium-carbonate holds no zinc",
		"IU of zinc gluconate":    `"IU" is not a weight`,
		"mg of carrot-raw":        "no pure compound",
		"mg of ":                  "no pure compound",
	}
	for unit, part := range cases {
		var e *CompoundError
		x, err := Convert(1, unit, Zinc)
		if !errors.As(err, &e) || !strings.Contains(err.Error(), part) || x != 0 {
			t.Errorf("%q: %g, %v; want %q", unit, x, err, part)
		}
	}
}
