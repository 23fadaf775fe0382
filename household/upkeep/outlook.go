package upkeep

import (
	"fmt"
	"math"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/learn"
	"bowlwright/household/quantity"
	"bowlwright/nutrients"
)

// scoreDrift is the share by which a weight may move from that of its score before a
// new score is asked for (common practice: about half a point of condition).
const scoreDrift = 0.05

// CourseOf says what the weights of a pet mean and what to do about its energy: one
// finding for its course, and one where its score is asked for.
func CourseOf(h *household.Household, p *household.Pet, today household.Date) []household.Finding {
	o := OutlookOf(h, p, today)
	var all []household.Finding
	add := func(code string, s household.Severity, message string, hint diag.Hint) {
		all = append(all, household.Finding{Pet: p.Name, Code: code, Severity: s, Message: message, Hint: hint})
	}
	vet := diag.Hint{Text: "let a veterinarian look for the cause"}
	lean := p.Animal.Condition >= 1 && p.Animal.Condition <= thinUpTo || p.Animal.Stage == nutrients.Growth
	switch {
	case lean && learn.Dwindling(Weighed(h, p, today), today.Number()):
		add("losing-too-fast", household.Problem, p.Name+" loses weight and has none to spare", vet)
	case o.Falling:
		add("losing-too-fast", household.Problem, fmt.Sprintf("%s loses %.1f %% of its weight a week and should hold it%s", p.Name, -o.FallPercent, o.held()), catHint(p, vet))
	case o.HasGrowth:
		all = append(all, growthOf(p, o.Growth)...)
	case o.HasNeed:
		if f, ok := o.course(p, today); ok {
			all = append(all, f)
		}
	}
	if f, ok := scoreAsked(p); ok {
		all = append(all, f)
	}
	return all
}

// catHint adds for a cat what no weighing tells in time.
func catHint(p *household.Pet, hint diag.Hint) diag.Hint {
	if p.Animal.Species == nutrients.Cat {
		hint.Text += "; a cat that eats nothing for a day needs one at once"
	}
	return hint
}

// Held is the sentence about the need that was learned, or says that nothing can be
// said yet.
func (o Outlook) Held(name string) string {
	if !o.HasNeed || !o.Need.Enough() {
		n := 0
		if o.HasNeed {
			n = o.Need.Weighings
		}
		if o.HasNeed && o.Need.Long() {
			return fmt.Sprintf("The %s since the plan of %s began do not yet tell well enough what holds its weight.", counted(n, "weighing"), name)
		}
		return fmt.Sprintf("Not enough weighings yet to say what holds the weight of %s: %s since its plan began, at least four over four weeks are needed.", name, counted(n, "weighing"))
	}
	low, high := o.Need.Interval()
	return fmt.Sprintf("The weight of %s is held by %.0f kcal a day (9 in 10 times between %.0f and %.0f; %s in %s). The plan gives %.0f.",
		name, o.Need.Kcal, low, high, counted(o.Need.Weighings, "weighing"), counted((o.Need.Last-o.Need.First+household.WeekDays/2)/household.WeekDays, "week"), o.PlanKcal)
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// held is what is known of the need, for the end of a sentence.
func (o Outlook) held() string {
	if !o.HasNeed || !o.Need.Enough() {
		return ""
	}
	low, high := o.Need.Interval()
	return fmt.Sprintf("; about %.0f kcal a day hold it (%.0f to %.0f), the plan gives %.0f", o.Need.Kcal, low, high, o.PlanKcal)
}

// course is the one sentence on where an adult goes.
func (o Outlook) course(p *household.Pet, today household.Date) (household.Finding, bool) {
	a, goal := o.Advice, kilos(o.GoalKg)
	rate := fmt.Sprintf("%.1f %% of its weight a week", math.Abs(a.PercentPerWeek))
	f := household.Finding{Pet: p.Name, Severity: household.Notice, Hint: o.line(p)}
	switch {
	case a.State == learn.TooFast:
		f.Code, f.Severity = "losing-too-fast", household.Problem
		f.Message = fmt.Sprintf("%s loses %s, more than the %s %% that are safe", p.Name, rate, quantity.Text(learn.Fastest(p.Animal.Species)))
		f.Hint = catHint(p, f.Hint)
	case a.State == learn.Stalled:
		f.Code, f.Message = "stalled", fmt.Sprintf("%s hardly loses weight any more (%s, goal %s kg)", p.Name, rate, goal)
	case a.State == learn.Past:
		f.Code, f.Message = "past-goal", fmt.Sprintf("%s reached its goal of %s kg (now about %s kg): score its condition anew", p.Name, goal, kilos(o.Need.Kg))
		if a.Kcal == 0 {
			f.Hint = scoreHint(p)
		}
	case a.State == learn.TooMuch && a.Kcal > 0:
		f.Code, f.Message = "plan-energy", fmt.Sprintf("%s gets more than its goal of %s kg takes%s", p.Name, goal, o.held())
		if o.Aim == learn.Lose {
			f.Message = fmt.Sprintf("%s loses more slowly than planned (%s, goal %s kg)%s", p.Name, rate, goal, o.held())
		}
	case a.State == learn.TooLittle && a.Kcal > 0:
		f.Code, f.Message = "plan-energy", fmt.Sprintf("%s gets less than its goal of %s kg takes%s", p.Name, goal, o.held())
		if o.Aim == learn.Lose {
			f.Message = fmt.Sprintf("%s loses faster than planned (%s, goal %s kg)%s", p.Name, rate, goal, o.held())
		}
	case a.State == learn.OnCourse && o.Aim != learn.Hold && a.HasGoalDay && math.Abs(a.PercentPerWeek) >= leastRate:
		moves := "loses"
		if o.Aim == learn.Gain {
			moves = "gains"
		}
		f.Code, f.Message = "on-course", fmt.Sprintf("%s is on course: it %s about %s, and the goal of %s kg is expected about %s", p.Name, moves, rate, goal, household.DayOne.AddDays(a.GoalDay))
	default:
		return f, false
	}
	return f, true
}

// leastRate is the rate in per cent a week under which no course is spoken of.
const leastRate = 0.1

// line is the line of household.toml that is proposed.
func (o Outlook) line(p *household.Pet) diag.Hint {
	switch {
	case o.Advice.Kcal <= 0 && o.Veterinarian:
		return diag.Hint{Text: "let a veterinarian decide how to go on"}
	case o.Advice.Kcal <= 0:
		return diag.Hint{}
	}
	text := fmt.Sprintf("write energy = \"%.0f kcal\" for %s in household.toml (%+.0f %%)", o.Advice.Kcal, p.Name, 100*(o.Advice.Kcal/o.PlanKcal-1))
	if o.Veterinarian {
		text += ", with your veterinarian's word"
	}
	return diag.Command(text+", then make a new plan", "plan", p.Name)
}

// growthOf says whether a growing animal leaves its line.
func growthOf(p *household.Pet, g learn.Growth) []household.Finding {
	f := household.Finding{Pet: p.Name, Code: "growth", Severity: household.Notice}
	switch {
	case g.Far():
		f.Severity = household.Problem
		f.Message = fmt.Sprintf("%s is %+.0f %% from the line on which its weighings began", p.Name, 100*g.FromFirst)
		f.Hint = diag.Hint{Text: "let a veterinarian look at it, and at the adult_weight that it grows to"}
	case g.Fast():
		f.Message = fmt.Sprintf("%s grows faster than its curve, by %.0f %% in four weeks: an animal that gets fat, or an adult_weight that is too small", p.Name, 100*g.Change)
		f.Hint = diag.Hint{Text: "feel its ribs: under fat give 5 % less; else correct adult_weight"}
	case g.Slow():
		f.Message = fmt.Sprintf("%s grows more slowly than its curve, by %.0f %% in four weeks", p.Name, -100*g.Change)
		f.Hint = diag.Hint{Text: "weigh again, make a new plan for today's weight, and ask a veterinarian when it goes on"}
	default:
		return nil
	}
	return []household.Finding{f}
}

// scoreAsked asks for a condition score where the one in force has no date to work
// from, or the weight moved away from it.
func scoreAsked(p *household.Pet) (household.Finding, bool) {
	f := household.Finding{Pet: p.Name, Code: "score-again", Severity: household.Notice, Hint: scoreHint(p)}
	a := p.Animal
	if a.Stage != nutrients.Adult || a.IdealKg > 0 {
		return f, false
	}
	kg, day := p.ScoredWeight()
	moved := a.WeightKg/kg - 1
	if a.ScoredKg == 0 || math.Abs(moved) < scoreDrift {
		return f, false
	}
	f.Message = fmt.Sprintf("%s weighs %s kg, %+.0f %% since its condition was scored", p.Name, kilos(a.WeightKg), 100*moved)
	if a.Condition == 0 {
		f.Message = fmt.Sprintf("%s weighs %s kg, %+.0f %% since its first plan, and its condition was never scored", p.Name, kilos(a.WeightKg), 100*moved)
	}
	if !day.IsZero() {
		f.Message += fmt.Sprintf(" (%s kg on %s)", kilos(kg), day)
	}
	return f, true
}

func scoreHint(p *household.Pet) diag.Hint {
	return diag.Command("score it by eye and hand with its next weighing", "weigh", p.Name, "WEIGHT", "--condition", "SCORE")
}

// kilos writes a weight to two decimals at most.
func kilos(kg float64) string { return quantity.Text(math.Round(100*kg) / 100) }
