package nutrients

import (
	"math"
	"testing"
)

// A diet does not lower a minimum: with half of the reference energy every minimum is
// that of the whole, in every standard, but of fat where it is printed per energy only. Maximums that are printed per energy go by the
// energy really given.
func TestMinimumsDoNotShrinkOnADiet(t *testing.T) {
	for _, standard := range Standards() {
		for _, a := range []Animal{
			{Species: Dog, Stage: Adult, WeightKg: 10, Activity: Moderate, Neutered: true, AgeWeeks: 200, Standard: standard},
			{Species: Cat, Stage: Adult, WeightKg: 4, Activity: Moderate, Neutered: true, AgeWeeks: 200, Standard: standard},
		} {
			need, err := EnergyFor(a)
			if err != nil {
				t.Fatal(err)
			}
			full, half := a, a
			full.EnergyKcal, half.EnergyKcal = need.ReferenceKcal, need.ReferenceKcal/2
			whole, err := TargetsFor(full)
			if err != nil {
				t.Fatal(err)
			}
			diet, err := TargetsFor(half)
			if err != nil {
				t.Fatal(err)
			}
			minimums, halved := 0, 0
			for i, l := range whole.Limits {
				d := diet.Limits[i]
				// Fat of which no amount per kg of body is printed goes with the energy fed.
				perEnergy := l.Nutrient == Fat && !(standard == NRC2006 && a.Species == Dog)
				if l.Lower != nil && perEnergy && math.Abs(*d.Lower / *l.Lower - 0.5) > 1e-12 {
					t.Errorf("%s %s: the minimum of fat on half of the energy is %v, on all of it %v", standard, a.Species, *d.Lower, *l.Lower)
				}
				if l.Lower != nil && !perEnergy {
					minimums++
					if d.Lower == nil || math.Abs(*d.Lower / *l.Lower - 1) > 1e-12 {
						t.Errorf("%s %s: the minimum of %s on half of the energy is %v, on all of it %v", standard, a.Species, l.Nutrient, *d.Lower, *l.Lower)
					}
				}
				if l.Upper != nil && math.Abs(*d.Upper / *l.Upper - 0.5) < 1e-12 {
					halved++
				}
			}
			if minimums < 25 || halved == 0 {
				t.Errorf("%s %s: %d minimums, %d maximums go by the energy", standard, a.Species, minimums, halved)
			}
		}
	}
	// NRC 2006, table 15-5: calcium of an adult dog, 1.0 g per 1000 kcal, at 130 kcal per
	// kg metabolic weight.
	targets, err := TargetsFor(Animal{Species: Dog, Stage: Adult, WeightKg: 16, Activity: Moderate, AgeWeeks: 200, Standard: NRC2006, EnergyKcal: 520})
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range targets.Limits {
		if want := 1000 * 130 * 8 / 1000.0; l.Nutrient == Calcium && math.Abs(*l.Lower-want) > 1e-9*want {
			t.Errorf("a dog of 16 kg on 520 kcal needs %g mg of calcium, want %g", *l.Lower, want)
		}
	}
}

// An aim lies five per cent over the minimum, but never nearer to the maximum than to
// the minimum, and never under the minimum.
func TestAimStaysInTheMiddle(t *testing.T) {
	energy := EnergyNeed{Kcal: 1000, ReferenceKcal: 1000, MetabolicKg: 10}
	for _, c := range []struct{ maximum, want float64 }{{0, 105}, {200, 105}, {104, 102}, {100, 100}, {98, 100}} {
		rows := []*Row{{Nutrient: "zinc", Bound: RA, Basis: Per1000kcal, Value: 100, Unit: "mg"}}
		if c.maximum > 0 {
			rows = append(rows, &Row{Nutrient: "zinc", Bound: SUL, Basis: Per1000kcal, Value: c.maximum, Unit: "mg"})
		}
		if got := *limitOf(Zinc, rows, energy).Aim; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("between 100 and %g the aim is %g, want %g", c.maximum, got, c.want)
		}
	}
}

// Cooking makes no nutrient: a published retention over 100 % is taken for 100 %.
func TestCookingMakesNothing(t *testing.T) {
	over := 0
	for _, block := range cooking().kept {
		for id, k := range block {
			if k.share > 1 || k.low > 1 || k.high > 1 {
				t.Errorf("%s: %g, %g to %g of it remains", id, k.share, k.low, k.high)
			}
			if k.share == 1 {
				over++
			}
		}
	}
	if over < 10 {
		t.Errorf("only %d shares are whole: the table has more that are over", over)
	}
	// Selenium of braised beef: 103 % in the table.
	for _, f := range Default().All() {
		if f.Group != "beef" || f.State != "raw" || !f.Per100g[Selenium].IsKnown() || f.Per100g[Selenium].Lo == 0 {
			continue
		}
		c, err := Cook(f, "braised")
		if err != nil {
			t.Fatal(err)
		}
		if c.Kept[Selenium].Lo > f.Per100g[Selenium].Lo {
			t.Errorf("%s holds %g ug of selenium raw and %g ug braised", f.ID, f.Per100g[Selenium].Lo, c.Kept[Selenium].Lo)
		}
		return
	}
	t.Fatal("no raw beef with selenium")
}

// A sum keeps both ends of a range.
func TestSumsKeepBothEnds(t *testing.T) {
	var a, b Profile
	a[VitaminD], b[VitaminD] = Between(1, 3), Known(10)
	var m Mix
	m.Add(200, &a)
	m.Add(50, &b)
	if got := m.Total(VitaminD); got.Lo != 7 || got.Hi != 11 {
		t.Errorf("200 g of 1 to 3 and 50 g of 10 are %g to %g, want 7 to 11", got.Lo, got.Hi)
	}
	per := m.Per100g(500)
	used := per.For(Cat)
	if got := used[VitaminD]; math.Abs(got.Lo-1.4) > 1e-12 || math.Abs(got.Hi-2.2) > 1e-12 {
		t.Errorf("in 500 g %g to %g, want 1.4 to 2.2", got.Lo, got.Hi)
	}
}
