package household

import (
	"strings"

	"bowlwright/household/learn"
	"bowlwright/nutrients"
)

const (
	// weekDays counts the days of a week.
	weekDays = 7
	// lastGestationWeek is the last week that the equations know. Dogs carry 58 to 68
	// days from mating, cats 63 to 65 (common practice); lostLitterDays after mating,
	// without a birth, no animal is pregnant any more.
	lastGestationWeek, longestCarried, lostLitterDays = 10, 70, 84
	// nursingDays ends nursing when no day of weaning is given: young are weaned at six
	// to eight weeks (common practice).
	nursingDays = 56
	// undatedDays is how long a stage or week without a date is taken for true, from the
	// first recorded plan with it.
	undatedDays = 14
)

// lastNursingWeek is the last week for which the equations have a factor; later ones
// keep it until the young are weaned.
var lastNursingWeek = map[nutrients.Species]int{nutrients.Dog: 4, nutrients.Cat: 7}

// Dates of a pet from which stage, week and neutering follow; zero where not given.
type Dates struct {
	Mated, GaveBirth, Weaned, Neutered Date
	// Arrived and Left bound the days on which the pet is planned for. Left is the
	// first day without it.
	Arrived, Left Date
}

// Here says whether a pet is fed in this household on a day.
func (p *Pet) Here(day Date) bool {
	return !day.Before(p.Dates.Arrived) && (p.Dates.Left.IsZero() || day.Before(p.Dates.Left))
}

// On returns the animal as its dates make it on a day, at the weight in force: age,
// stage, week and whether it is neutered.
func (p *Pet) On(day Date) nutrients.Animal {
	a := p.Animal
	a.Stage, a.Week = p.declared.Stage, p.declared.Week
	if !p.Born.IsZero() {
		a.AgeWeeks = day.DaysSince(p.Born) / weekDays
	}
	if !p.Dates.Neutered.IsZero() {
		a.Neutered = !day.Before(p.Dates.Neutered)
	}
	switch d := p.Dates; {
	case d.nursing(day):
		a.Stage, a.Week = nutrients.Lactation, min(day.DaysSince(d.GaveBirth)/weekDays+1, lastNursingWeek[a.Species])
	case d.pregnant(day):
		a.Stage, a.Week = nutrients.Gestation, min(day.DaysSince(d.Mated)/weekDays+1, lastGestationWeek)
	case a.Stage == nutrients.Lactation && !d.GaveBirth.IsZero(), a.Stage == nutrients.Gestation && !d.Mated.IsZero():
		a.Stage, a.Week = nutrients.Adult, 0
	case a.Stage == nutrients.Growth && p.grown(day):
		a.Stage = nutrients.Adult
	}
	return a
}

func (d Dates) nursing(day Date) bool {
	return !d.GaveBirth.IsZero() && !day.Before(d.GaveBirth) && day.DaysSince(d.GaveBirth) < nursingDays &&
		(d.Weaned.Before(d.GaveBirth) || day.Before(d.Weaned))
}

// pregnant: a birth after the mating ends it, one before it was another litter.
func (d Dates) pregnant(day Date) bool {
	return !d.Mated.IsZero() && !day.Before(d.Mated) && day.DaysSince(d.Mated) < lostLitterDays &&
		(d.GaveBirth.Before(d.Mated) || day.Before(d.GaveBirth))
}

// GrownOn is the day from which a growing animal counts as an adult, zero where the
// birthday or the adult weight is not known.
func (p *Pet) GrownOn() Date {
	if p.Born.IsZero() || p.Animal.AdultKg <= 0 {
		return Date{}
	}
	return p.Born.AddDays(learn.GrownDays(p.Animal.AdultKg))
}

func (p *Pet) grown(day Date) bool {
	on := p.GrownOn()
	return !on.IsZero() && !day.Before(on)
}

// GoodUntil is the last day of a plan made on a day: after it the plan is too old for
// the stage of life, or stage, week or age make another energy.
func (p *Pet) GoodUntil(made Date) Date {
	end := made.AddDays(PlanLasts(p))
	if from := p.StageFrom(made); !from.IsZero() {
		end = from.AddDays(undatedDays)
	}
	now, ok := p.kcalOn(made)
	if last, ok2 := p.kcalOn(end); !ok || p.On(made).Stage == p.On(end).Stage && ok2 && last == now {
		return end
	}
	for day := made.AddDays(1); day.Before(end); day = day.AddDays(1) {
		if kcal, ok := p.kcalOn(day); !ok || kcal != now || p.On(day).Stage != p.On(made).Stage {
			return day.AddDays(-1)
		}
	}
	return end.AddDays(-1)
}

// kcalOn is the equation's energy on a day, at the weight in force and whatever energy
// the household gives.
func (p *Pet) kcalOn(day Date) (float64, bool) {
	a := p.On(day)
	a.EnergyKcal = 0
	need, err := nutrients.EnergyFor(a)
	return need.Kcal, err == nil
}

// StageUndated says whether the stage of a pet cannot follow the days, because no date
// is given from which they count, and which date would do.
func (p *Pet) StageUndated() (key string, undated bool) {
	switch p.Animal.Stage {
	case nutrients.Gestation:
		return "mated", p.Dates.Mated.IsZero()
	case nutrients.Lactation:
		return "gave_birth", p.Dates.GaveBirth.IsZero()
	}
	return "", false
}

// AwayPet finds a pet that left or has not arrived.
func (h *Household) AwayPet(name string) (*Pet, bool) {
	for i := range h.Away {
		if strings.EqualFold(h.Away[i].Name, strings.TrimSpace(name)) {
			return &h.Away[i], true
		}
	}
	return nil, false
}
