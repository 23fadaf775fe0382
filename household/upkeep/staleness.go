package upkeep

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/nutrients"
)

const (
	// energyMoved is the share by which the energy may differ from the plan's
	// when nothing else changed: less is rounding.
	energyMoved = 0.01
)

// Days until the next weighing. Recalled from general practice, not read in a
// source: adults monthly; growing animals weekly to two-weekly, large breeds
// weekly; two weeks while weight is to change.
const (
	weighAdultDays   = 28
	weighChangeDays  = 14
	weighLargeDays   = 7
	firstWeeksDays   = 42
	largeBreedAbove  = 23.0 // kg when grown: British Veterinary Nursing Association, 2022
	overweightAbove  = 5    // body condition score
	underweightBelow = 4
)

// WeighAgainBy returns the day by which a pet weighed on a day should be weighed
// again. Steady is the day of the plan from which on its energy hardly changed: the
// first weeks after it are those in which an animal may lose too fast.
func WeighAgainBy(p *household.Pet, from, steady household.Date) household.Date {
	a := p.Animal
	if weekly := steady.AddDays(weighLargeDays); !steady.IsZero() && from.DaysSince(steady) < firstWeeksDays {
		if from.Before(steady) {
			return weekly
		}
		return from.AddDays(weighLargeDays)
	}
	switch {
	case a.Stage == nutrients.Growth && a.AdultKg > largeBreedAbove:
		return from.AddDays(weighLargeDays)
	case a.Stage != nutrients.Adult, a.Condition > overweightAbove, a.Condition > 0 && a.Condition < underweightBelow:
		return from.AddDays(weighChangeDays)
	}
	return from.AddDays(weighAdultDays)
}

// Check compares the plans in use, by the names of the pets, with the household as it is on a day. Each
// finding says what to do.
func Check(h *household.Household, inUse map[string]*household.Plan, today household.Date) []household.Finding {
	var all []household.Finding
	checks := NewChecks(h, today)
	for i := range h.Pets {
		all = append(all, checks.Pet(&h.Pets[i], inUse[h.Pets[i].Name])...)
	}
	all = append(all, checkMixes(h, inUse, today)...)
	for _, name := range slices.Sorted(maps.Keys(inUse)) {
		_, away := h.AwayPet(name)
		if _, ok := h.Pet(name); !ok && !away {
			all = append(all, household.Finding{Pet: name, Code: "pet-gone", Severity: household.Notice, Message: "there is a plan for " + name + ", who is not in household.toml", Hint: diag.Hint{Text: "nothing to do if that is meant"}})
		}
	}
	return all
}

// Checks compares plans with a household as it is on a day. Several goroutines may
// ask it at once.
type Checks struct {
	h       *household.Household
	today   household.Date
	figures figuresNow
	digests household.FoodDigests
}

// NewChecks works out what the checks of all pets have in common.
func NewChecks(h *household.Household, today household.Date) *Checks {
	return &Checks{h: h, today: today, figures: newFiguresNow(h.Base), digests: h.FoodDigests()}
}

// Pet compares a pet with its plan in use, nil for none.
func (k *Checks) Pet(p *household.Pet, plan *household.Plan) []household.Finding {
	c := checker{Checks: k, p: p, plan: plan}
	if plan != nil {
		c.against()
	} else {
		c.add("no-plan", household.Stale, p.Name+" has no plan in use", c.planAgain())
		if a := p.Animal; a.Stage == nutrients.Adult && a.Condition > 0 && a.IdealKg == 0 && a.ScoredKg == 0 {
			c.add("score-undated", household.Notice, fmt.Sprintf("the condition of %s has no date: its ideal weight follows the scale until the first plan", p.Name),
				diag.Hint{Text: "write condition_on = DATE below condition in household.toml"})
		}
	}
	c.weighing()
	c.found = append(c.found, CourseOf(k.h, p, k.today)...)
	return c.found
}

// figuresNow is the identity of the base in use, computed once for all pets.
type figuresNow struct {
	base     *household.Batch
	identity household.Identity
}

func newFiguresNow(b *household.Batch) figuresNow { return figuresNow{b, b.Identity()} }

// checker looks at one pet.
type checker struct {
	*Checks
	p     *household.Pet
	plan  *household.Plan
	found []household.Finding
}

func (c *checker) add(code string, s household.Severity, message string, hint diag.Hint, ways ...diag.Hint) {
	c.found = append(c.found, household.Finding{Pet: c.p.Name, Code: code, Severity: s, Message: message, Hint: hint, Ways: ways})
}

func (c *checker) planAgain() diag.Hint { return diag.Command("", "plan", c.p.Name) }

func (c *checker) explain() diag.Hint { return diag.Command("", "explain", c.p.Name) }

func (c *checker) stale(code, format string, args ...any) {
	c.add(code, household.Stale, fmt.Sprintf(format, args...), c.planAgain())
}

// against compares the plan with the pet, the base and the shelf.
func (c *checker) against() {
	plan, p, now := c.plan, c.p, c.figures
	if !now.base.IsRecorded(plan.Base) {
		mix := c.h.MixUp(plan)
		c.add("other-base", household.Refusal, mix.Error(), mix.Ways[0], mix.Ways[1:]...)
	} else if plan.Base.FiguresDigest != now.identity.FiguresDigest {
		what, _ := household.FiguresChanged(plan, now.base)
		c.stale("figures-changed", "the figures behind the base were corrected since the plan was made: %s", diag.JoinSome(what))
	}
	switch plan.Pet.Status {
	case household.Short:
		c.add("plan-short", household.Problem, "the plan in use is short: "+diag.JoinSome(c.shortOf()), c.explain())
	case household.Over, household.Impossible:
		c.add("plan-short", household.Problem, fmt.Sprintf("the plan in use has no amounts: it is %s", plan.Pet.Status), c.explain())
	}
	if !c.animalChanged() {
		c.energyChanged()
	}
	if h, usable := c.jar(); usable && !c.digests.SameShelf(h, p, plan.Pet.ShelfDigest) {
		c.stale("shelf-changed", "the add-ons on the shelf, the scales or the preference changed since the plan was made")
	}
	if !c.sameExtras(plan.Pet.Extras, p.Extras) {
		c.stale("extras-changed", "the extras changed since the plan was made")
	}
	c.age()
}

const (
	// farMoved is the share by which a weight may be off, lateDays the days by which a
	// plan may be over, before its card is refused: at a tenth the amounts of a day are
	// wrong by half a point of condition, and a fortnight is a stage of a young animal
	// (our own lines).
	farMoved = 0.10
	lateDays = 14
)

// age notices a plan whose days are over, and one of a day that has not come.
func (c *checker) age() {
	end := PlanEnds(c.p, c.plan)
	late := c.today.DaysSince(end)
	key, undated := c.p.StageUndated()
	switch {
	case c.today.Before(c.plan.Since()):
		c.stale("plan-in-future", "the plan is of %s, which has not come: is the clock of this machine right?", c.plan.Since())
	case late > 0 && undated:
		c.add("stage-undated", household.Stale, fmt.Sprintf("week %d of %s has no date, was first planned on %s and is taken for true until %s", c.p.Animal.Week, c.p.Animal.Stage, c.plan.Pet.StageSince, end),
			diag.Command(fmt.Sprintf("write %s = DATE in household.toml in place of stage and week, then make a new plan", key), "plan", c.p.Name))
		c.bar(late > lateDays)
	case late > 0:
		c.stale("plan-old", "the plan is %s old and was good until %s", counted(c.today.DaysSince(c.plan.Date), "day"), end)
		c.bar(late > lateDays)
	}
	if mated := c.p.Dates.Mated; c.p.Animal.Stage == nutrients.Gestation && !mated.IsZero() && c.today.DaysSince(mated) > household.LongestCarried {
		c.add("birth-overdue", household.Problem, fmt.Sprintf("%s was mated %d days ago and has not given birth", c.p.Name, c.today.DaysSince(mated)),
			diag.Hint{Text: "see a veterinarian; write gave_birth = DATE and litter, or take mated out of household.toml"})
	}
}

// bar marks the newest finding as past the bound.
func (c *checker) bar(yes bool) { c.found[len(c.found)-1].Barred = yes }

func (c *checker) shortOf() []string {
	var short []string
	for _, n := range c.plan.Pet.Nutrients {
		if n.State == household.StateLow || n.State == household.StateUnknown && n.Lower != nil {
			short = append(short, nutrients.InSentence(n.Name))
		}
	}
	for _, r := range c.plan.Pet.Ratios {
		if r.State != household.StateMet {
			short = append(short, strings.ReplaceAll(r.ID, "-", " to "))
		}
	}
	return short
}

// animalChanged reports what differs between the animal of the plan and the pet.
func (c *checker) animalChanged() bool {
	was, a := c.plan.Pet, c.p.Animal
	before := len(c.found)
	if was.Species != a.Species {
		c.stale("species-changed", "the plan was made for a %s", was.Species)
		c.bar(true)
	}
	if was.Stage != a.Stage {
		c.stale("stage-changed", "the plan was made for the stage %s, now it is %s", was.Stage, a.Stage)
		c.bar(true)
	}
	if !was.Born.IsZero() && !c.p.Born.IsZero() && was.Born != c.p.Born {
		c.stale("animal-changed", "the plan was made for an animal born on %s, %s was born on %s", was.Born, c.p.Name, c.p.Born)
		c.bar(true)
	}
	if was.Standard != a.Standard {
		c.stale("standard-changed", "the plan was made by the standard %s, now it is %s", was.Standard, a.Standard)
	} else if was.StandardDigest != a.StandardDigest() {
		c.stale("standard-changed", "the figures of the standard %s changed since the plan was made", a.Standard)
	}
	if !sameOwnLimits(was.OwnLimits, a) {
		c.stale("limits-changed", "the limits that the household set for %s changed since the plan was made", c.p.Name)
	}
	if was.Condition != a.Condition {
		c.stale("condition-changed", "the condition was %s in the plan, now it is %s", ConditionText(was.Condition), ConditionText(a.Condition))
	}
	if moved := a.WeightKg/was.WeightKg - 1; !(math.Abs(moved) <= c.h.Kitchen.WeightMoved) {
		c.stale("weight-moved", "the weight moved by %+.1f %%: %s kg in the plan, %s kg now", 100*moved, quantity.Text(was.WeightKg), quantity.Text(a.WeightKg))
		c.bar(!(math.Abs(moved) <= farMoved))
	}
	return len(c.found) > before
}

// energyChanged notices activity, neutering, ideal weight and a given energy by
// what they do.
func (c *checker) energyChanged() {
	need, err := nutrients.EnergyFor(c.p.Animal)
	if err != nil || c.plan.Pet.EnergyKcal <= 0 {
		return
	}
	// The weight may have moved by less than matters; the energy moves with it.
	weight := c.p.Animal.WeightKg/c.plan.Pet.WeightKg - 1
	if moved := need.Kcal/c.plan.Pet.EnergyKcal - 1; math.Abs(moved) > energyMoved+math.Abs(weight) {
		c.stale("energy-changed", "the energy was %.0f kcal in the plan, now it is %.0f kcal", c.plan.Pet.EnergyKcal, need.Kcal)
	}
}

// ConditionText writes a body condition score, 0 for none.
func ConditionText(condition int) string {
	if condition == 0 {
		return "not scored"
	}
	return fmt.Sprint(condition)
}

func (c *checker) sameExtras(was []household.ExtraAmount, now []household.Portion) bool {
	a, b := make([]string, 0, len(was)), make([]string, 0, len(now))
	for _, e := range was {
		a = append(a, fmt.Sprintf("%s %.4f %s", e.Food, e.G, e.Digest))
	}
	for _, e := range now {
		b = append(b, fmt.Sprintf("%s %.4f %s", e.Food.ID, e.Grams, c.digests.Of(e.Food)))
	}
	slices.Sort(a)
	slices.Sort(b)
	return slices.Equal(a, b)
}

// weighing reports a weigh-in that is due and a weight that moves too fast.
func (c *checker) weighing() {
	from, steady := weighedFrom(c.p, c.plan), household.Date{}
	if c.plan != nil {
		steady = c.plan.Pet.SteadySince
	}
	weigh := diag.Command("", "weigh", c.p.Name, "WEIGHT")
	if by := WeighAgainBy(c.p, from, steady); !from.IsZero() && by.Before(c.today) {
		c.add("weigh-in-overdue", household.Stale, fmt.Sprintf("%s should have been weighed by %s", c.p.Name, by), weigh)
	}
	c.slips()
	trend, ok := TrendOf(c.h, c.p, c.today)
	if !ok {
		return
	}
	if trend.LastIsOdd {
		c.add("weight-odd", household.Notice, fmt.Sprintf("the last weighing, %s kg, does not fit the others: weigh again", quantity.Text(c.p.Animal.WeightKg)), weigh)
	}
}

// slips notices weighings of days that have not come or were before the birth, and two
// scores of which neither is the later one.
func (c *checker) slips() {
	for _, w := range c.h.Weights {
		switch {
		case !strings.EqualFold(w.Pet, c.p.Name):
		case c.today.Before(w.Date):
			c.add("weight-in-future", household.Notice, fmt.Sprintf("a weighing of %s is dated %s, which has not come, and is not used", c.p.Name, w.Date),
				diag.Hint{Text: "correct the date in weights.csv, or the clock of this machine"})
		case w.Date.Before(c.p.Born):
			c.add("weight-before-birth", household.Notice, fmt.Sprintf("a weighing of %s is dated %s, before it was born", c.p.Name, w.Date), diag.Hint{Text: "correct the date in weights.csv, or born"})
		}
	}
	if c.p.LogCondition {
		c.add("two-scores", household.Notice, fmt.Sprintf("household.toml and the weight log give %s different condition scores; that of the log, %d on %s, counts", c.p.Name, c.p.Animal.Condition, c.p.ScoredOn),
			diag.Hint{Text: "write condition_on = DATE in household.toml when its score is the later one"})
	}
}

// sameOwnLimits says whether a plan was made for the limits that the animal has now.
func sameOwnLimits(was []household.OwnLimit, a nutrients.Animal) bool {
	now, err := nutrients.TargetsFor(a)
	if err != nil {
		return len(was) == len(a.Limits)
	}
	return slices.EqualFunc(was, now.Overrides, func(w household.OwnLimit, n nutrients.Override) bool { return w.Same(n.OwnLimit) })
}
