package nutrients

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// foodGen draws a food in which each nutrient may be unknown.
func foodGen() *rapid.Generator[Profile] {
	return rapid.Custom(func(t *rapid.T) Profile {
		var p Profile
		for id := ID(0); id < firstDerived; id++ {
			if rapid.Bool().Draw(t, "known") {
				lo := rapid.Float64Range(0, 50).Draw(t, "lo")
				p[id] = Between(lo, lo+rapid.Float64Range(0, 5).Draw(t, "more"))
			}
		}
		return p
	})
}

// TestTotalsAreLinear: twice the food holds twice as much, and the total of two
// foods is the sum of theirs.
func TestTotalsAreLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := foodGen().Draw(t, "a"), foodGen().Draw(t, "b")
		x, y := rapid.Float64Range(0.1, 500).Draw(t, "x"), rapid.Float64Range(0.1, 500).Draw(t, "y")
		var both, twice, first, second Mix
		both.Add(x, &a)
		both.Add(y, &b)
		twice.Add(2*x, &a)
		twice.Add(2*y, &b)
		first.Add(x, &a)
		second.Add(y, &b)
		for id := ID(0); id < firstDerived; id++ {
			sum := first.Total(id).Lo + second.Total(id).Lo
			if math.Abs(both.Total(id).Lo-sum) > 1e-9*(1+sum) {
				t.Fatalf("%s: %g together, %g apart", id, both.Total(id).Lo, sum)
			}
			if math.Abs(twice.Total(id).Hi-2*both.Total(id).Hi) > 1e-9*(1+sum) {
				t.Fatalf("%s is not linear", id)
			}
			if c := both.Total(id).Coverage; c < 0 || c > 1 {
				t.Fatalf("%s: coverage %g", id, c)
			}
		}
	})
}

// TestUnknownPropagates: what is unknown in one food lowers the coverage of the
// mixture by its share of the weight, and never counts as anything but nothing
// toward a lower limit.
func TestUnknownPropagates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		known, unknown := Profile{}, Profile{}
		known[Calcium] = Known(rapid.Float64Range(1, 1000).Draw(t, "calcium"))
		x, y := rapid.Float64Range(1, 500).Draw(t, "x"), rapid.Float64Range(1, 500).Draw(t, "y")
		var m Mix
		m.Add(x, &known)
		m.Add(y, &unknown)
		got := m.Total(Calcium)
		if math.Abs(got.Coverage-x/(x+y)) > 1e-12 || math.Abs(got.Lo-known[Calcium].Lo*x/100) > 1e-9 {
			t.Fatalf("got %v", got)
		}
		if zinc := m.Total(Zinc); zinc.IsKnown() {
			t.Fatalf("zinc: %v", zinc)
		}
		p := m.Per100g(x + y)
		if e := p.For(Dog)[Energy]; e.IsKnown() {
			t.Fatalf("energy of a food without figures: %v", e)
		}
	})
}

func TestSpeciesDiffer(t *testing.T) {
	f, _ := Default().Food("carrot-raw")
	dog, cat := f.Per100g.For(Dog), f.Per100g.For(Cat)
	// 8285 ug beta-carotene (USDA SR28 11124) x 833 IU/mg x 0.3 ug/IU = 2070 ug.
	if math.Abs(dog[VitaminA].Lo-8285*0.2499) > 1 || cat[VitaminA].Lo != 0 {
		t.Errorf("vitamin A of carrot: dog %v, cat %v", dog[VitaminA], cat[VitaminA])
	}
	oil, _ := Default().Food("oil-olive")
	if d, c := oil.Per100g.For(Dog), oil.Per100g.For(Cat); d[Energy].Lo != 900 || c[Energy].Lo != 850 {
		t.Errorf("energy of oil: dog %v, cat %v", d[Energy], c[Energy])
	}
	// Fibre is not digestible carbohydrate: rolled oats, USDA SR28 08120 prints
	// 13.15 g protein, 6.52 g fat, 67.7 g carbohydrate by difference, 10.1 g fibre.
	oats, _ := Default().Food("oats-rolled-dry")
	want := 4*13.15 + 9*6.52 + 4*(67.7-10.1)
	if e := oats.Per100g.For(Dog)[Energy]; math.Abs(e.Lo-want) > 0.1 {
		t.Errorf("energy of oats: %v, want %.1f", e, want)
	}
}

func TestUnitsRoundTripAndMismatch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := float64(rapid.IntRange(0, 1_000_000).Draw(t, "x"))
		for _, c := range []struct {
			id   ID
			unit string
			back float64
		}{{Calcium, "g", 1e-3}, {Selenium, "mg", 1e-3}, {Protein, "mg", 1e3}, {Iodine, "ug", 1}, {Zinc, "mg", 1}} {
			v, err := Convert(x, c.unit, c.id)
			if err != nil {
				t.Fatal(err)
			}
			if back := v * c.back; math.Abs(back-x) > 1e-12*x {
				t.Fatalf("%g %s of %s came back as %g", x, c.unit, c.id, back)
			}
		}
	})
	for _, c := range []struct {
		unit string
		id   ID
	}{{"IU", Calcium}, {"kcal", Zinc}, {"mg", Energy}, {"ml", VitaminD}, {"", Iron}, {"IU", Thiamin}} {
		var mismatch *MismatchError
		if _, err := Convert(1, c.unit, c.id); !errors.As(err, &mismatch) {
			t.Errorf("%q for %s: got %v, want a MismatchError", c.unit, c.id, err)
		}
	}
	// 40 IU of vitamin D are 1 ug; 1 IU of vitamin A is 0.3 ug retinol (definitions).
	if v, _ := Convert(40, "IU", VitaminD); v != 1 {
		t.Errorf("40 IU of vitamin D: %g ug", v)
	}
	if v, _ := Convert(1000, "IU", VitaminA); math.Abs(v-300) > 1e-9 {
		t.Errorf("1000 IU of vitamin A: %g ug", v)
	}
}
