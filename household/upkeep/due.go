package upkeep

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/learn"
	"bowlwright/household/supplies"
	"bowlwright/nutrients"
)

// DueItem is one thing to do on a day.
type DueItem struct {
	Date household.Date `json:"date"`
	// Pet is empty for the kitchen.
	Pet string `json:"pet"`
	// What is stable and kebab-case: weigh, score, stage, plan, premix, jar, batch,
	// freezer, veterinarian.
	What    string    `json:"what"`
	Message string    `json:"message"`
	Hint    diag.Hint `json:"-"`
	// Of tells items of one kind apart that are of no pet: the name of a jar.
	Of string `json:"-"`
}

const (
	// A score is asked for again after scoreDays, after scoreMovingDays while the weight
	// is to change (common practice: at each visit, and each month on a diet).
	scoreDays, scoreMovingDays = 182, 28
	// recheckDays is how often a veterinarian sees an animal that is to lose or gain, or
	// that is growing, pregnant or nursing: "Monitor the patient monthly until the ideal
	// weight has been reached" (AAHA 2014).
	recheckDays = 28
	// aheadDays is how far the change of a stage is looked for.
	aheadDays = 400
	// carriedDays is the day of birth that is expected, from mating: dogs 58 to 68 days,
	// cats 63 to 65 (common practice).
	carriedDays = 63
)

// Due lists what comes next for all animals and the kitchen, soonest first; what should
// have been done stands on its day in the past. The plans are those in use, cooked the
// newest batch of the base in use, nil for none.
func Due(h *household.Household, plans map[string]*household.Plan, cooked *household.Cooking, today household.Date) []DueItem {
	var all []DueItem
	checks := NewChecks(h, today)
	for i := range h.Pets {
		p := &h.Pets[i]
		all = append(all, dueOf(checks, p, plans[p.Name])...)
	}
	for i := range h.Away {
		if p := &h.Away[i]; today.Before(p.Dates.Arrived) {
			all = append(all, DueItem{Date: p.Dates.Arrived, Pet: p.Name, What: "plan", Message: p.Name + " arrives: weigh and plan", Hint: diag.Command("", "plan", p.Name)})
		}
	}
	all = append(all, dueOfMixes(h, plans)...)
	all = append(all, dueToMix(h, plans, today)...)
	if cooked != nil {
		all = append(all, dueOfBatch(h, plans, cooked)...)
	}
	slices.SortStableFunc(all, func(a, b DueItem) int {
		return cmp.Or(a.Date.DaysSince(b.Date), strings.Compare(a.Pet, b.Pet))
	})
	return all
}

// Late picks what makes `check` call something out of date: a plan for which a new one
// is due, and a weighing whose day has passed.
func Late(items []DueItem, today household.Date) []DueItem {
	var late []DueItem
	for _, item := range items {
		if item.What == "plan" && !today.Before(item.Date) || item.What == "weigh" && item.Date.Before(today) {
			late = append(late, item)
		}
	}
	return late
}

func dueOf(checks *Checks, p *household.Pet, plan *household.Plan) []DueItem {
	var all []DueItem
	add := func(day household.Date, what, message string, hint diag.Hint) {
		all = append(all, DueItem{Date: day, Pet: p.Name, What: what, Message: message, Hint: hint})
	}
	today := checks.today
	planAgain := diag.Command("", "plan", p.Name)
	var reasons []household.Finding
	for _, f := range checks.Pet(p, plan) {
		if f.Code == "other-base" {
			reasons = append(reasons, f)
		}
	}
	reasons = append(reasons, household.OutOfDate(checks.Pet(p, plan))...)
	switch {
	case plan == nil:
		add(today, "plan", p.Name+" has no plan", planAgain)
	case len(reasons) > 0:
		add(today, "plan", p.Name+": the plan is out of date: "+reasons[0].Message, planAgain)
	default:
		add(PlanEnds(p, plan).AddDays(1), "plan", p.Name+": make a new plan", planAgain)
	}
	if from := weighedFrom(p, plan); !from.IsZero() {
		steady := household.Date{}
		if plan != nil {
			steady = plan.Pet.SteadySince
		}
		add(WeighAgainBy(p, from, steady), "weigh", "weigh "+p.Name, diag.Command("", "weigh", p.Name, "WEIGHT"))
	}
	if day, message := nextStage(p, today); !day.IsZero() {
		add(day, "stage", message, diag.Command("make a new plan", "plan", p.Name))
	}
	if plan != nil && plan.Pet.Premix != nil && !checks.h.HoldsMixOf(&plan.Pet) {
		add(plan.Since().AddDays(plan.Pet.Premix.Days), "premix", fmt.Sprintf("%s: the premix for %d days runs out", p.Name, plan.Pet.Premix.Days), diag.Command("weigh it out again by the card", "card", p.Name))
	}
	if day, ok := scoreDue(p, today); ok {
		add(day, "score", "score the condition of "+p.Name, scoreHint(p))
	}
	if day, ok := recheckDue(p, plan); ok {
		add(day, "veterinarian", p.Name+": let a veterinarian look at weight and plan", diag.Command("the sheet for the visit", "card", p.Name, "--format", "vet"))
	}
	return all
}

// PlanEnds is the last day of a plan.
func PlanEnds(p *household.Pet, plan *household.Plan) household.Date {
	if !plan.Pet.GoodUntil.IsZero() {
		return plan.Pet.GoodUntil
	}
	return plan.Date.AddDays(household.PlanLasts(p))
}

// weighedFrom is the day from which the next weighing counts.
func weighedFrom(p *household.Pet, plan *household.Plan) household.Date {
	if p.WeightDate.IsZero() && plan != nil {
		return plan.Date
	}
	return p.WeightDate
}

// nextStage is the next day on which stage, week or age make another plan, and what
// happens on it.
func nextStage(p *household.Pet, today household.Date) (household.Date, string) {
	if key, undated := p.StageUndated(); undated {
		from := p.StageSince
		if from.IsZero() {
			from = today
		}
		return from.AddDays(household.UndatedDays), fmt.Sprintf("%s: the week of %s has no date: write %s = DATE", p.Name, p.Animal.Stage, key)
	}
	now := p.On(today)
	kcal, ok := p.KcalOn(today)
	for n := 1; n <= aheadDays; n++ {
		day := today.AddDays(n)
		then := p.On(day)
		if then.Stage != now.Stage {
			return day, fmt.Sprintf("%s: %s ends, then %s", p.Name, now.Stage, then.Stage)
		}
		if now.Stage == nutrients.Gestation && day == p.Dates.Mated.AddDays(carriedDays) {
			return day, p.Name + ": birth is expected about now; write gave_birth = DATE and litter"
		}
		if moved, ok2 := p.KcalOn(day); ok && ok2 && moved != kcal {
			if then.Week != now.Week {
				return day, fmt.Sprintf("%s: week %d of %s", p.Name, then.Week, then.Stage)
			}
			return day, fmt.Sprintf("%s: its age changes the energy", p.Name)
		}
	}
	return household.Date{}, ""
}

// scoreDue is the day by which the condition of an adult should be scored again.
func scoreDue(p *household.Pet, today household.Date) (household.Date, bool) {
	if p.Animal.Stage != nutrients.Adult || p.Animal.IdealKg > 0 {
		return household.Date{}, false
	}
	if _, asked := scoreAsked(p); asked {
		return today, true
	}
	_, day := p.ScoredWeight()
	if day.IsZero() {
		return household.Date{}, false
	}
	if aim, _ := GoalOf(p); aim != learn.Hold {
		return day.AddDays(scoreMovingDays), true
	}
	return day.AddDays(scoreDays), true
}

// recheckDue is the day of the next visit, counted from the plan in use.
func recheckDue(p *household.Pet, plan *household.Plan) (household.Date, bool) {
	if plan == nil {
		return household.Date{}, false
	}
	aim := learn.Hold
	if p.Animal.Stage == nutrients.Adult {
		aim, _ = GoalOf(p)
	}
	if p.Animal.Stage == nutrients.Adult && aim == learn.Hold {
		return household.Date{}, false
	}
	return plan.Since().AddDays(recheckDays), true
}

// dueOfBatch says when the newest batch is eaten and when it should be, frozen.
func dueOfBatch(h *household.Household, plans map[string]*household.Plan, cooked *household.Cooking) []DueItem {
	perDay := 0.0
	for i := range h.Pets {
		if plan := plans[h.Pets[i].Name]; plan != nil && (plan.Base.RecipeDigest == cooked.Base.RecipeDigest || h.Base.IsRecorded(plan.Base) && h.Base.IsRecorded(cooked.Base)) && plan.Pet.Status.Printable() {
			perDay += plan.Pet.BaseG * cooked.Factor()
		}
	}
	cook := diag.Command("", "cook")
	expires := DueItem{Date: cooked.Date.AddDays(supplies.FreezerDays), What: "freezer", Message: fmt.Sprintf("what is left of the batch of %s has been frozen for %d days", cooked.Date, supplies.FreezerDays)}
	if perDay <= 0 {
		return []DueItem{expires}
	}
	days := int(math.Floor(cooked.CookedG / perDay))
	if days > supplies.FreezerDays {
		return []DueItem{expires}
	}
	return []DueItem{{Date: cooked.Date.AddDays(days), What: "batch", Message: fmt.Sprintf("the batch of %s is eaten: %s kg for %s", cooked.Date, kilos(cooked.CookedG/1000), counted(days, "day")), Hint: cook}}
}

// dueOfMixes says when each mix in hand runs out or is too old, by what the plans in use
// take from it a day.
func dueOfMixes(h *household.Household, plans map[string]*household.Plan) []DueItem {
	var all []DueItem
	for _, m := range h.InHand {
		perDay, used := 0.0, false
		for i := range h.Pets {
			plan := plans[h.Pets[i].Name]
			if plan == nil {
				continue
			}
			if _, _, digest, ok := plan.Pet.Mix(); !ok || digest != m.Jar.Digest {
				continue
			}
			used = true
			if plan.Pet.Jar != nil {
				perDay += plan.Pet.Jar.DoseG
			} else {
				perDay += plan.Pet.Premix.ServeG
			}
		}
		if used {
			all = append(all, DueItem{Date: m.LastsUntil(perDay).AddDays(1), What: "jar", Of: m.Jar.Name,
				Message: fmt.Sprintf("the jar %s (%s) is used up", m.Jar.Name, m.Jar.Code), Hint: diag.Command("mix it again", "mix", m.Jar.Name)})
		}
	}
	return all
}
