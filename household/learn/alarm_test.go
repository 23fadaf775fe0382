package learn

import (
	"math"
	"testing"

	"bowlwright/nutrients"
)

// firstAlarm weighs an animal until the rule calls, in weeks; 27 when it never does.
// From a day on the animal loses this share of its weight a week.
func firstAlarm(s *simulated, every int, lossFrom int, perWeek float64) float64 {
	s.feed(s.prior * nutrients.MetabolicKg(s.species, s.kg))
	level := s.kg
	for s.day <= lossFrom+26*7 {
		s.weigh(every)
		if s.day >= lossFrom && s.day%7 == 0 {
			if _, yes := Falling(s.log, s.day); yes {
				return float64(s.day-lossFrom) / 7
			}
		}
		s.live()
		// An adult that holds its weight, but for the loss.
		if s.day >= lossFrom {
			level *= 1 - perWeek/7
		}
		s.kg = level
	}
	return 27
}

func TestFallingWeight(t *testing.T) {
	for _, every := range []int{7, 14} {
		for _, perWeek := range []float64{0, 0.02, 0.03, 0.04} {
			var weeks []float64
			called := 0.0
			for i := range herd() {
				s := newSimulated(uint64(i), 0)
				from := 0
				if perWeek > 0 {
					from = 56
				}
				w := firstAlarm(s, every, from, perWeek)
				weeks = append(weeks, w)
				if w < 27 {
					called++
				}
			}
			share := called / float64(herd())
			t.Logf("weighed every %2d days, loss of %.0f %% a week: called %3.0f %% in 26 weeks, after %.1f weeks (median; nine in ten %.1f)",
				every, 100*perWeek, 100*share, quantile(weeks, 0.5), quantile(weeks, 0.9))
			switch {
			case perWeek == 0 && share > 0.06+2*math.Sqrt(0.06/float64(herd())):
				t.Errorf("every %d days: %.1f %% of steady adults are called in half a year", every, 100*share)
			case every == 7 && perWeek == 0.03 && quantile(weeks, 0.5) > 4:
				t.Errorf("a loss of 3 %% a week is seen after %.1f weeks", quantile(weeks, 0.5))
			case perWeek > 0 && share < 0.99:
				t.Errorf("a loss of %.0f %% a week is not seen in %.1f %%", 100*perWeek, 100*(1-share))
			}
		}
	}
}

// One bad weighing among good ones calls nobody, and three weighings are too few.
func TestOneBadWeighingIsNoFall(t *testing.T) {
	log := []Weighing{{0, 10}, {7, 10.1}, {14, 9.9}, {21, 10}, {28, 10}, {35, 7}}
	if _, yes := Falling(log, 35); yes {
		t.Error("a single light weighing counts as a fall")
	}
	if _, yes := Falling([]Weighing{{0, 10}, {14, 8}, {28, 6}}, 28); yes {
		t.Error("three weighings suffice")
	}
	// Steep enough, but the last two are only 2 and 3 % lower than the middle one before.
	if _, yes := Falling([]Weighing{{0, 10}, {7, 9.88}, {14, 9.76}, {21, 9.66}, {28, 9.56}}, 28); yes {
		t.Error("3 % less counts as a fall")
	}
	week, yes := Falling([]Weighing{{0, 10}, {7, 9.7}, {14, 9.409}, {21, 9.12673}, {28, 8.8529281}}, 28)
	if !yes || math.Abs(week+3) > 1e-9 {
		t.Errorf("3 %% a week by arithmetic: %g, %v", week, yes)
	}
}

func TestDwindling(t *testing.T) {
	if !Dwindling([]Weighing{{0, 5}, {7, 4.95}, {14, 4.9}, {21, 4.84}}, 21) {
		t.Error("a loss of 1 % a week is not seen")
	}
	if Dwindling([]Weighing{{0, 5}, {7, 5.1}, {14, 5.2}, {21, 4.7}}, 21) {
		t.Error("one light weighing counts as a loss")
	}
	if Dwindling([]Weighing{{0, 5}, {7, 4.9}}, 7) {
		t.Error("two weighings suffice")
	}
}
