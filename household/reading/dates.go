package reading

import (
	"fmt"

	"bowlwright/household"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// readDates reads the days from which score, stage, week and neutering follow, and puts
// the animal of today into the pet. A day of the future is a slip, but for what can be
// known before.
func (l *loader) readDates(t tomldoc.Table, p *household.Pet) {
	day := func(key string, mayCome bool) household.Date {
		when, ok := t.Date(key)
		d := household.DateOf(when)
		switch {
		case !ok:
			return household.Date{}
		case !mayCome && l.today.Before(d):
			t.Fault(key, "date-in-future", fmt.Sprintf("%s = %s lies in the future", key, d), "write the day as year-month-day, and check the clock of this machine")
		case !p.Born.IsZero() && d.Before(p.Born):
			t.Fault(key, "date-before-birth", fmt.Sprintf("%s = %s is before %s was born", key, d, p.Name), "correct it, or born")
		}
		return d
	}
	d := &p.Dates
	p.ConditionOn = day("condition_on", false)
	d.Mated, d.GaveBirth, d.Weaned = day("mated", false), day("gave_birth", false), day("weaned", true)
	d.Arrived, d.Left = day("arrived", true), day("left", true)
	if t.Dated("neutered") {
		d.Neutered = day("neutered", true)
	}
	if t.Has("condition_on") && p.Animal.Condition == 0 {
		t.Fault("condition_on", "score-missing", "condition_on dates a score that is not there", "write condition = 5, or what the score was")
	}
	inOrder := func(first, then string, a, b household.Date) {
		if !a.IsZero() && !b.IsZero() && b.Before(a) {
			t.Fault(then, "dates-crossed", fmt.Sprintf("%s = %s is before %s = %s", then, b, first, a), "correct one of them, or take out the one of an earlier litter")
		}
	}
	inOrder("gave_birth", "weaned", d.GaveBirth, d.Weaned)
	inOrder("arrived", "left", d.Arrived, d.Left)
	if p.Sex == household.Male && (t.Has("mated") || t.Has("gave_birth")) {
		t.Fault("sex", "stage-and-sex", "a male carries no young", "correct sex, or take out mated and gave_birth")
	}
	if t.Has("weaned") && !t.Has("gave_birth") {
		t.Fault("weaned", "dates-crossed", "weaned says when the young of a litter were weaned", "write gave_birth = DATE too; a puppy or kitten needs born and adult_weight only")
	}
	p.Declared = p.Animal
	if !t.Has("stage") && p.Animal.AdultKg > 0 && !p.Born.IsZero() && !p.Grown(l.today) {
		p.Declared.Stage = nutrients.Growth
	}
	p.Animal = p.On(l.today)
}

// needsOfStage reports what a stage cannot do without.
func needsOfStage(t tomldoc.Table, p *household.Pet) {
	a := p.Animal
	switch a.Stage {
	case nutrients.Growth:
		if !t.Has("adult_weight") {
			t.Missing("adult_weight", "growth needs the weight expected when grown", "write adult_weight = \"22 kg\", from the parents or the breed")
		}
	case nutrients.Gestation, nutrients.Lactation:
		if p.Sex == household.Male && t.Has("stage") {
			t.Fault("stage", "stage-and-sex", fmt.Sprintf("a male cannot be in %s", a.Stage), "correct sex or stage")
		}
		if a.Week == 0 && !t.Has("week") {
			t.Missing("week", fmt.Sprintf("%s needs the day it began", a.Stage), "write mated = DATE or gave_birth = DATE, or for two weeks week = 5")
		}
		if a.Stage == nutrients.Lactation && !t.Has("litter") {
			t.Missing("litter", "lactation needs the number of young", "write litter = 4")
		}
	case nutrients.Adult:
		if a.AgeWeeks >= 0 && a.AgeWeeks < youngWeeks && p.Declared.Stage != nutrients.Growth {
			t.Warn("born", "stage-and-age", fmt.Sprintf("%s is %d weeks old and planned as an adult", p.Name, a.AgeWeeks), "write stage = \"growth\" and adult_weight = \"…\"")
		}
	}
}
