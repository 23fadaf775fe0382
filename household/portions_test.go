package household

import (
	"math"
	"testing"
)

// The meals of a day hold all of it: three tenths of a gram in steps of a tenth are three
// steps, though the quotient is a hair under three.
func TestMealSharesHoldTheDay(t *testing.T) {
	for _, c := range []struct {
		dailyG, step float64
		meals        int
		want         []float64
	}{{0.3, 0.1, 1, []float64{0.3}}, {812, 1, 2, []float64{406, 406}}, {813, 1, 2, []float64{407, 406}}, {225, 5, 3, []float64{75, 75, 75}}, {5.8, 0.1, 2, []float64{2.9, 2.9}}} {
		got := MealShares(c.dailyG, c.meals, c.step)
		for i := range c.want {
			if len(got) != len(c.want) || math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("%g g in %d meals by %g g: %v, want %v", c.dailyG, c.meals, c.step, got, c.want)
				break
			}
		}
	}
}
