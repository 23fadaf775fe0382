package upkeep

import (
	"math"

	"bowlwright/household"
	"bowlwright/household/learn"
	"bowlwright/nutrients"
)

// OutlookOf is what the weights and plans of a pet say on a day.
type Outlook struct {
	// Aim and GoalKg are where an adult is meant to go; no goal for other animals.
	Aim    learn.Aim
	GoalKg float64
	// Need is what was learned, where HasNeed; it is a number to say only when it is
	// Enough.
	Need    learn.Need
	HasNeed bool
	Advice  learn.Advice
	// PlanKcal is what the plan in use gives.
	PlanKcal float64
	// Falling says that the weighings fall, by FallPercent a week.
	Falling     bool
	FallPercent float64
	// Growth is how a growing animal follows its curve, where HasGrowth.
	Growth    learn.Growth
	HasGrowth bool
	// Veterinarian says that nothing is proposed because one decides.
	Veterinarian bool
}

// thinGoal is the score whose weight is the first goal of a thin animal; each point
// under it is about a tenth of that weight (AAHA, recalled). A new score then decides
// how to go on.
const (
	thinGoal      = 4
	thinPerPoint  = 0.10
	thinUpTo      = 3
	obeseFrom     = 8
	goalTolerance = 1.02
)

// GoalOf is the weight that an adult is meant to hold or to reach. It comes from the
// weighing behind its condition score and does not move with the scale.
func GoalOf(p *household.Pet) (aim learn.Aim, kg float64) {
	a := p.Animal
	scored, _ := p.ScoredWeight()
	switch {
	case a.IdealKg > 0 && scored > goalTolerance*a.IdealKg:
		return learn.Lose, a.IdealKg
	case a.IdealKg > goalTolerance*scored:
		return learn.Gain, a.IdealKg
	case a.IdealKg > 0:
		return learn.Hold, a.IdealKg
	case a.Condition > overweightAbove:
		return learn.Lose, a.Ideal()
	case a.Condition >= 1 && a.Condition <= thinUpTo:
		return learn.Gain, scored / (1 - thinPerPoint*float64(thinGoal-a.Condition))
	}
	return learn.Hold, a.Ideal()
}

// Weighed returns the weighings of a pet until a day, in the form that learning takes.
func Weighed(h *household.Household, p *household.Pet, today household.Date) []learn.Weighing {
	var log []learn.Weighing
	for _, w := range h.WeightsOf(p, today) {
		log = append(log, learn.Weighing{Day: w.Date.Number(), Kg: w.Kg})
	}
	return log
}

// offPlan tells on which days a pet was off its plan: the last ones before the weighing
// that says so.
func offPlan(log []household.WeighIn) func(day int) bool {
	off := map[int]bool{}
	for _, w := range log {
		for n := range w.OffPlanDays {
			off[w.Date.Number()-1-n] = true
		}
	}
	return func(day int) bool { return off[day] }
}

// run returns the plans with amounts of the present stretch as an adult, in order.
func run(past []household.PastPlan, p *household.Pet) []household.PastPlan {
	var plans []household.PastPlan
	for _, was := range past {
		switch {
		case was.Stage != nutrients.Adult || was.Species != p.Animal.Species:
			plans = nil
		case was.Kcal > 0 && !was.Date.Before(p.Dates.Arrived):
			plans = append(plans, was)
		}
	}
	return plans
}

// holdKcal is what the equation expects to hold the goal weight.
func holdKcal(p *household.Pet, goal float64) (float64, bool) {
	a := p.Animal
	a.WeightKg, a.ScoredKg, a.IdealKg, a.Condition, a.EnergyKcal = goal, 0, 0, 5, 0
	need, err := nutrients.EnergyFor(a)
	return need.Kcal, err == nil
}

// OutlookOf says what the weights of a pet mean beside its earlier plans.
func OutlookOf(h *household.Household, p *household.Pet, today household.Date) Outlook {
	var o Outlook
	log, a, day := Weighed(h, p, today), p.Animal, today.Number()
	if a.Stage == nutrients.Growth && !p.Born.IsZero() {
		o.Growth, o.HasGrowth = learn.FollowGrowth(log, a.AdultKg, p.Born.Number(), day)
	}
	if a.Stage != nutrients.Adult {
		return o
	}
	o.Aim, o.GoalKg = GoalOf(p)
	if o.Aim != learn.Lose {
		o.FallPercent, o.Falling = learn.Falling(log, day)
	}
	o.Veterinarian = a.Condition >= obeseFrom
	plans := run(p.Past, p)
	if len(plans) == 0 {
		return o
	}
	record := learn.Record{Species: a.Species, PriorCV: learn.PriorCV, Weighings: log, Off: offPlan(h.WeightsOf(p, today))}
	changed := plans[0].Date
	for i, was := range plans {
		record.Plan = append(record.Plan, learn.Stretch{From: was.Date.Number(), Kcal: was.Kcal})
		if i > 0 && math.Abs(was.Kcal/plans[i-1].Kcal-1) > smallestChange {
			changed = was.Date
		}
	}
	first, last := plans[0], plans[len(plans)-1]
	o.PlanKcal = last.Kcal
	hold, ok := holdKcal(p, o.GoalKg)
	if first.Given && o.Aim == learn.Hold {
		hold, record.PriorCV = first.Kcal, learn.PriorCVGiven
	}
	if !ok {
		return o
	}
	record.PriorPerKg = learn.SpreadOver(a.Species, hold, first.WeightKg)
	if o.Need, o.HasNeed = learn.Estimate(record, day); o.HasNeed {
		o.Advice = o.Need.Advise(learn.Course{Aim: o.Aim, GoalKg: o.GoalKg, PlanKcal: last.Kcal,
			Start: first.Date.Number(), Changed: changed.Number()}, day)
		o.Veterinarian = o.Veterinarian || o.Advice.Veterinarian
		if a.Condition >= obeseFrom || a.Condition >= 1 && a.Condition <= thinUpTo && o.Advice.State != learn.TooLittle && o.Advice.State != learn.TooFast {
			o.Advice.Kcal = 0
		}
	}
	return o
}

// smallestChange is the share by which planned energy must differ to count as changed:
// less is rounding to whole steps of a scale.
const smallestChange = 0.02
