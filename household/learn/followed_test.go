package learn

import (
	"math"
	"testing"

	"bowlwright/nutrients"
)

// outcome counts how groups of animals end after half a year.
type outcome struct {
	n, within3, within5, heavy, light, fast, fastLate, proposals float64
}

// follow lets an animal live for half a year; with proposals they are taken when they
// are made, at a check every fortnight, weekly for a loss that is too fast.
func follow(t *testing.T, s *simulated, aim Aim, goal float64, every int, propose bool, o *outcome) {
	t.Helper()
	c, began := Course{Aim: aim, GoalKg: goal}, s.kg
	for s.day <= 26*7 {
		s.weigh(every)
		if propose && s.day%7 == 0 && s.day >= fastAfter {
			c.PlanKcal = s.plan[len(s.plan)-1].Kcal
			record := s.record()
			if aim == Lose {
				record.PriorPerKg = SpreadOver(s.species, s.ideal*nutrients.MetabolicKg(s.species, goal), began)
			}
			if n, ok := Estimate(record, s.day); ok {
				if a := n.Advise(c, s.day); a.Kcal > 0 && (s.day%14 == 0 || a.State == TooFast) {
					step := a.Kcal/c.PlanKcal - 1
					if math.Abs(step) > 0.10+1e-9 {
						t.Fatalf("a step of %+.3f", step)
					}
					if step < 0 && a.Kcal < Floor(s.species, goal) {
						t.Fatalf("%.0f kcal is under the floor of %.0f", a.Kcal, Floor(s.species, goal))
					}
					if a.State != TooFast && s.day-c.Changed < proposeEvery {
						t.Fatalf("two proposals in %d days", s.day-c.Changed)
					}
					s.feed(a.Kcal)
					c.Changed = s.day
					o.proposals++
				}
			}
		}
		s.live()
	}
	off := s.kg/goal - 1
	o.n++
	count := func(to *float64, yes bool) {
		if yes {
			*to++
		}
	}
	count(&o.within3, math.Abs(off) <= 0.03)
	count(&o.within5, math.Abs(off) <= 0.05)
	count(&o.heavy, off > 0.05)
	count(&o.light, off < -0.05)
	count(&o.fast, s.fastEver(0))
	count(&o.fastLate, s.fastEver(42))
}

func (o outcome) log(t *testing.T, what string) {
	t.Helper()
	t.Logf("%-44s within 3 %%: %3.0f, within 5 %%: %3.0f, too heavy / light: %2.0f / %2.0f, ever over 2 %% a week: %4.1f, after week 6: %4.1f, proposals %.1f",
		what, 100*o.within3/o.n, 100*o.within5/o.n, 100*o.heavy/o.n, 100*o.light/o.n, 100*o.fast/o.n, 100*o.fastLate/o.n, o.proposals/o.n)
}

func TestProposalsFollowed(t *testing.T) {
	for _, every := range []int{7, 14, 28} {
		var with, without outcome
		for i := range herd() {
			for _, propose := range []bool{true, false} {
				s := newSimulated(uint64(i), 0.25)
				s.feed(s.prior * nutrients.MetabolicKg(s.species, s.kg))
				o := &without
				if propose {
					o = &with
				}
				follow(t, s, Hold, s.kg, every, propose, o)
			}
		}
		with.log(t, "holding, proposals followed, every "+[]string{7: "week", 14: "2 weeks", 28: "4 weeks"}[every])
		if every == 7 {
			without.log(t, "holding, the equation alone")
		}
		if every == 14 && with.within3/with.n < 0.70 {
			t.Errorf("weighed every two weeks, within 3 %% of the goal after 26 weeks: %.0f %%", 100*with.within3/with.n)
		}
		if without.within3/without.n >= 0.20 {
			t.Errorf("the equation alone brings %.0f %% within 3 %%: the animals are too easy", 100*without.within3/without.n)
		}
		if with.fastLate > without.fastLate {
			t.Errorf("more animals lose too fast after week 6 with the proposals (%g) than without (%g)", with.fastLate, without.fastLate)
		}
	}
}

func TestLossFollowed(t *testing.T) {
	var with, without outcome
	for i := range herd() {
		for _, propose := range []bool{true, false} {
			s := newSimulated(uint64(i), 0.20)
			goal := s.kg
			s.kg *= 1.12 + 0.28*s.rng.Float64()
			// Fat burns little: the need is that of the ideal weight.
			s.ideal = s.prior
			s.perKg = s.perKg * nutrients.MetabolicKg(s.species, goal) / nutrients.MetabolicKg(s.species, s.kg)
			s.fallTo = 0.9
			factor, o := 1.0, &without
			if s.species == nutrients.Cat {
				factor = 0.8
			}
			if propose {
				o = &with
			}
			s.feed(factor * nutrients.Resting(goal))
			follow(t, s, Lose, goal, 7, propose, o)
		}
	}
	with.log(t, "losing, proposals followed, every week")
	without.log(t, "losing, the first plan kept")
	if with.fastLate > without.fastLate || with.light > without.light {
		t.Errorf("the proposals do harm: too fast after week 6 %g against %g, under the goal %g against %g", with.fastLate, without.fastLate, with.light, without.light)
	}
}
