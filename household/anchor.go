package household

import (
	"iter"
	"math"

	"bowlwright/nutrients"
)

// PastPlan is what a recorded plan says of the animal and of its energy.
type PastPlan struct {
	// Date is the day from which the plan was followed.
	Date      Date
	Species   nutrients.Species
	Stage     nutrients.Stage
	Week      int
	Condition int
	WeightKg  float64
	// WeightDate is the day of that weighing, zero when it stood in household.toml.
	WeightDate Date
	// ScoredKg and ScoredOn are the weighing behind the condition; older records have
	// none.
	ScoredKg float64
	ScoredOn Date
	// StageSince is the day of the first recorded plan with this stage and week,
	// SteadySince that of the first one from which on the energy hardly changed; older
	// records have neither.
	StageSince, SteadySince Date
	// Kcal is the energy planned, 0 for a plan without amounts; Given says that the
	// household gave it.
	Kcal  float64
	Given bool
}

// steadyShare is by how much the planned energy may differ and still count as the same.
const steadyShare = 0.05

// Recall fixes what follows from earlier plans, newest first: the weighing behind a
// score without a date is that of the first plan with this score, and a stage or week
// without a date counts from the first plan with it.
func (p *Pet) Recall(past iter.Seq[PastPlan]) {
	a := &p.Animal
	anchored := a.Stage != nutrients.Adult || !p.ScoredOn.IsZero()
	_, undated := p.StageUndated()
	first := true
	for was := range past {
		if was.Species != a.Species || was.Date.Before(p.Dates.Arrived) {
			return
		}
		if first {
			p.Last, first = was, false
		}
		sameScore := was.Stage == nutrients.Adult && was.Condition == a.Condition
		sameStage := was.Stage == a.Stage && was.Week == a.Week
		if !anchored {
			switch {
			case !sameScore:
				anchored = true
			case was.ScoredKg > 0:
				a.ScoredKg, p.scoredFrom, anchored = was.ScoredKg, was.ScoredOn, true
			default:
				a.ScoredKg, p.scoredFrom = was.WeightKg, was.since()
			}
		}
		if undated {
			switch {
			case !sameStage:
				undated = false
			case !was.StageSince.IsZero():
				p.StageSince, undated = was.StageSince, false
			default:
				p.StageSince = was.Date
			}
		}
		if anchored && !undated {
			return
		}
	}
}

// since is the day of the weighing behind the plan.
func (was PastPlan) since() Date {
	if was.WeightDate.IsZero() {
		return was.Date
	}
	return was.WeightDate
}

// ScoredWeight is the weight from which the ideal weight is worked out and the day of
// it, zero where that is not known.
func (p *Pet) ScoredWeight() (kg float64, day Date) {
	switch a := p.Animal; {
	case a.ScoredKg > 0 && !p.ScoredOn.IsZero():
		return a.ScoredKg, p.ScoredOn
	case a.ScoredKg > 0:
		return a.ScoredKg, p.scoredFrom
	}
	return p.Animal.WeightKg, p.WeightDate
}

// SteadyFrom is the day from which the energy of a plan made on a day is steady.
func (p *Pet) SteadyFrom(kcal float64, made Date) Date {
	was := p.Last
	if was.Stage != p.Animal.Stage || was.Kcal <= 0 || math.Abs(kcal/was.Kcal-1) > steadyShare {
		return made
	}
	if was.SteadySince.IsZero() {
		return was.Date
	}
	return was.SteadySince
}

// StageFrom is the day of the first plan with the stage and week that a plan made on a
// day has.
func (p *Pet) StageFrom(made Date) Date {
	if _, undated := p.StageUndated(); !undated {
		return Date{}
	}
	if p.StageSince.IsZero() {
		return made
	}
	return p.StageSince
}

// score puts the dated scores in force: that of household.toml with condition_on, and
// those of the weight log, of which the latest counts. A score without a date is
// older than any with one.
func (h *Household) score(p *Pet, today Date) {
	if p.Animal.Stage != nutrients.Adult {
		return
	}
	log := h.WeightsOf(p, today)
	var scored WeighIn
	for _, w := range log {
		if w.Condition > 0 && !w.Date.Before(scored.Date) {
			scored = w
		}
	}
	switch {
	case scored.Condition > 0 && !scored.Date.Before(p.conditionOn):
		p.LogCondition = p.Animal.Condition != scored.Condition && p.conditionOn.IsZero() && p.Animal.Condition > 0
		p.Animal.Condition, p.ScoredOn = scored.Condition, scored.Date
	case !p.conditionOn.IsZero():
		p.ScoredOn = p.conditionOn
	default:
		return
	}
	p.Animal.ScoredKg = weightOn(log, p.ScoredOn, p.declared.WeightKg)
}

// nearScoreDays is how many days after a score its weighing may be, when none stands
// before it.
const nearScoreDays = 14

// weightOn is the weight in force on a day: the last weighing until then, else the
// first one shortly after it, else what household.toml says.
func weightOn(log []WeighIn, day Date, otherwise float64) float64 {
	kg, on, after := 0.0, Date{}, Date{}
	for _, w := range log {
		switch {
		case !day.Before(w.Date) && !w.Date.Before(on):
			kg, on = w.Kg, w.Date
		case on.IsZero() && w.Date.DaysSince(day) <= nearScoreDays && day.Before(w.Date) && (after.IsZero() || !after.Before(w.Date)):
			kg, after = w.Kg, w.Date
		}
	}
	if kg > 0 {
		return kg
	}
	return otherwise
}
