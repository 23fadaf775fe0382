package learn

import (
	"math"

	"bowlwright/nutrients"
)

// Aim is what an animal's weight is meant to do.
type Aim int

// The aims. Hold is also that of an animal that reached its goal.
const (
	Hold Aim = iota
	Lose
	Gain
)

// Course is where an animal is meant to go and what it gets for that.
type Course struct {
	Aim Aim
	// GoalKg is the weight to hold or to reach.
	GoalKg float64
	// PlanKcal is what the plan in use gives a day.
	PlanKcal float64
	// Start is the first planned day, Changed the day on which the planned energy
	// last changed.
	Start, Changed int
}

// State is what the weight does on the plan.
type State string

// The states.
const (
	// TooEarly: nothing can be said yet.
	TooEarly State = "too-early"
	// OnCourse: nothing is to be changed.
	OnCourse State = "on-course"
	// TooFast: the animal loses more a week than is safe.
	TooFast State = "too-fast"
	// Stalled: an animal that is to lose weight hardly does.
	Stalled State = "stalled"
	// Past: an animal that was to lose weight is at its goal or below it.
	Past State = "past-goal"
	// TooMuch and TooLittle: the plan gives more or less than the aim takes.
	TooMuch   State = "too-much"
	TooLittle State = "too-little"
)

// Advice is what to do about the plan.
type Advice struct {
	State State
	// Kcal is the energy proposed, 0 where none is; it is at most a tenth from that of
	// the plan.
	Kcal float64
	// PercentPerWeek is how the weight moves on the plan, by the filter.
	PercentPerWeek float64
	// GoalDay is when the goal is expected on the plan as it is; HasGoalDay says that
	// it is within sight.
	GoalDay    int
	HasGoalDay bool
	// Veterinarian says that nothing should be changed without one.
	Veterinarian bool
}

const (
	// proposeEvery is how many days lie between two proposals at least, firstAfter the
	// days of a plan before the first one. A loss that is too fast does not wait:
	// fastAfter days do.
	proposeEvery, firstAfter, fastAfter = 14, 28, 14
	leastToPropose                      = 3 // weighings
	// leastGap is the share between plan and target under which nothing is proposed,
	// smallGap that up to which the step is the small one.
	leastGap, smallGap   = 0.05, 0.075
	smallStep, largeStep = 0.05, 0.10
	// holdDays is the time in which an animal that should hold comes back to its goal,
	// holdRate the share of its weight that it moves in a week for that at most.
	holdDays, holdRate = 56, 0.005
	// losing animals are those this share above their goal.
	aboveGoal = 1.02
	// The rate of loss to aim at, a week: "1% of body weight per week" of dogs
	// (Clinician's Brief); cats in trials lost 0.6 to 0.8 %.
	dogLoss, catLoss = 0.010, 0.0075
	// The largest safe loss, in per cent a week: "0.5 to 2% initial body weight per
	// week" (Small Animal Clinical Nutrition, 5th edition, p. 512); cats less.
	dogFastest, catFastest = 2.0, 1.5
	// slowest is the least loss of that range; stalledAfter the days after which it
	// counts as stalled.
	slowest, stalledAfter = 0.5, 42
	// No proposal goes under these shares of the resting energy at the goal; a dog goes
	// under vetShare only with a veterinarian (loss of cats is begun at 0.8, that of
	// dogs at 1.0: AAHA 2014; the 0.7 is our own line).
	dogFloor, catFloor, vetShare = 0.7, 0.8, 1.0
	// sightDays is how far ahead the day of the goal is looked for.
	sightDays = 730
)

// Fastest is the largest safe loss of a species, in per cent of the weight a week.
func Fastest(sp nutrients.Species) float64 {
	if sp == nutrients.Cat {
		return catFastest
	}
	return dogFastest
}

// LossRate is the share of its weight that an animal on a diet is meant to lose a week.
func LossRate(sp nutrients.Species) float64 {
	if sp == nutrients.Cat {
		return catLoss
	}
	return dogLoss
}

// losing says whether an animal that is to lose weight still is above its goal.
func (c Course) losing(kg float64) bool { return c.Aim == Lose && kg > aboveGoal*c.GoalKg }

// target is the energy that the aim takes at the present weight.
func (n Need) target(c Course) float64 {
	if c.losing(n.Kg) {
		return n.Kcal - fatKcal*LossRate(n.species)*n.Kg/7
	}
	most := fatKcal * holdRate * n.Kg / 7
	back := fatKcal * (c.GoalKg - n.Kg) / holdDays
	return n.Holds(c.GoalKg) + math.Max(-most, math.Min(most, back))
}

// Floor is the energy under which no proposal goes.
func Floor(sp nutrients.Species, goalKg float64) float64 {
	if sp == nutrients.Cat {
		return catFloor * nutrients.Resting(goalKg)
	}
	return dogFloor * nutrients.Resting(goalKg)
}

// Advise says what an animal's weight does on a day and proposes a change where the
// filter is 90 % sure of the side and the gap is over 5 %.
func (n Need) Advise(c Course, today int) Advice {
	a := Advice{State: OnCourse, PercentPerWeek: n.PercentPerWeek(c.PlanKcal)}
	days := today - c.Start
	if n.Weighings < leastToPropose || days < fastAfter {
		a.State = TooEarly
		return a
	}
	gap := math.Log(n.target(c) / c.PlanKcal)
	sure := math.Abs(gap) > leastGap && math.Abs(gap) > zSide*n.LogSD
	switch losing := c.losing(n.Kg); {
	case a.PercentPerWeek < -Fastest(n.species):
		a.State = TooFast
		a.propose(n, c, math.Max(gap, leastGap))
		return a
	case days < firstAfter:
		a.State = TooEarly
		return a
	case c.Aim == Lose && !losing:
		a.State = Past
	case losing && sure && gap < 0 && a.PercentPerWeek > -slowest && days >= stalledAfter:
		a.State = Stalled
	case sure && gap > 0:
		a.State = TooLittle
	case sure:
		a.State = TooMuch
	}
	if sure && today-c.Changed >= proposeEvery {
		a.propose(n, c, gap)
	}
	if c.losing(n.Kg) || c.Aim == Gain {
		a.GoalDay, a.HasGoalDay = n.reaches(c, today)
	}
	return a
}

// propose takes one step towards the target, in whole kilocalories and never further
// than the step.
func (a *Advice) propose(n Need, c Course, gap float64) {
	step := largeStep
	if math.Abs(gap) <= smallGap {
		step = smallStep
	}
	if gap > 0 {
		a.Kcal = math.Floor(c.PlanKcal * (1 + step))
		a.Veterinarian = a.State == TooFast || c.Aim == Gain
		return
	}
	a.Veterinarian = c.Aim == Gain
	if c.Aim == Gain {
		return
	}
	kcal := math.Ceil(math.Max(c.PlanKcal*(1-step), Floor(n.species, c.GoalKg)))
	if n.species == nutrients.Dog && kcal < vetShare*nutrients.Resting(c.GoalKg) {
		a.Veterinarian = true
	}
	if kcal < c.PlanKcal*(1-smallStep/2) {
		a.Kcal = kcal
	} else {
		// The floor is reached: less food is not the answer.
		a.Veterinarian = true
	}
}

// reaches finds the day on which the goal is reached on the plan as it is.
func (n Need) reaches(c Course, today int) (day int, ok bool) {
	kg, down := n.Kg, n.Kg > c.GoalKg
	for day := range sightDays {
		if down == (kg <= c.GoalKg) {
			return today + day, true
		}
		kg += (c.PlanKcal - n.Holds(kg)) / fatKcal
	}
	return 0, false
}

// Project returns the weight that is expected after some days on so many kcal a day.
func (n Need) Project(kcal float64, days int) float64 {
	kg := n.Kg
	for range days {
		kg += (kcal - n.Holds(kg)) / fatKcal
	}
	return kg
}
