package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strconv"

	"bowlwright/cmd/bowlwright/internal/ask"
	"bowlwright/household"
	"bowlwright/household/quantity"
	"bowlwright/household/reading"
	"bowlwright/household/records"
	"bowlwright/household/safefile"
	"bowlwright/household/upkeep"
	"bowlwright/household/visible"
	"bowlwright/nutrients"

	"github.com/urfave/cli/v2"
)

func weighCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "weigh", Usage: "add a weight to the log and say what it changes", ArgsUsage: "PET WEIGHT",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "note", Usage: "a `REMARK` kept with the weight"},
			&cli.IntFlag{Name: "condition", Usage: "the body condition `SCORE` of today, 1 to 9: it fixes the ideal weight until the next score"},
			&cli.IntFlag{Name: "off-plan", Usage: "`N` days since the last weighing on which something other than the plan was eaten"},
			&cli.BoolFlag{Name: "sure", Usage: "record it even though it is far from the previous weight"},
		},
		Action: func(c *cli.Context) error {
			return weighOptions{words: c.Args().Slice(), note: visible.Strip(c.String("note")), sure: c.Bool("sure"),
				condition: c.Int("condition"), scored: c.IsSet("condition"), offPlan: c.Int("off-plan")}.run(p)
		},
	}
}

// weighOptions are what `weigh` takes: a pet and a weight, as they were typed.
type weighOptions struct {
	words []string
	note  string
	// sure takes a weight that is far from the one before.
	sure bool
	// condition is the score of today, where scored; offPlan the days off the plan.
	condition, offPlan int
	scored             bool
}

func (o weighOptions) run(p *program) error {
	args := o.words
	// "31.5 kg" may be typed with or without quotes.
	if len(args) == 3 && ask.WeightFault(args[0]+" "+args[1]) == nil {
		args = []string{args[0] + " " + args[1], args[2]}
	} else if len(args) == 3 {
		args = []string{args[0], args[1] + " " + args[2]}
	}
	if len(args) != 2 {
		return badInput("weigh takes a pet and a weight", "for example", "weigh", "Marlow", "31.2 kg")
	}
	h, today, err := p.load()
	if err != nil {
		return err
	}
	pet, err := petNamed(h, args[0])
	if _, known := h.Pet(args[1]); err != nil && known && ask.WeightFault(args[0]) == nil {
		return badInput("the weight comes before the pet", "type", "weigh", args[1], args[0])
	}
	if err != nil {
		return err
	}
	weight := args[1]
	if _, err := strconv.ParseFloat(weight, 64); err == nil {
		return badInput(fmt.Sprintf("the weight %s has no unit", weight), fmt.Sprintf(`type "%s kg" or "%s lb"`, weight, weight))
	}
	kg, err := quantity.Weight(weight)
	if err != nil {
		return err
	}
	weighIn := household.WeighIn{Date: today, Pet: pet.Name, Kg: kg, Note: o.note, Condition: o.condition, OffPlanDays: o.offPlan}
	if o.scored && (weighIn.Condition < 1 || weighIn.Condition > 9) {
		return badInput(fmt.Sprintf("a condition of %d is not possible", weighIn.Condition), "the body condition score runs from 1 (starved) over 5 (ideal) to 9 (obese)")
	}
	if weighIn.OffPlanDays < 0 || weighIn.OffPlanDays > reading.MaxOffPlanDays {
		return badInput(fmt.Sprintf("%d days off the plan is not possible", weighIn.OffPlanDays), fmt.Sprintf("type a number from 0 to %d", reading.MaxOffPlanDays))
	}
	if share, jump := reading.WeightJump(pet, weighIn); jump && !o.sure {
		return badInput(fmt.Sprintf("%.4g kg is %+.0f %% against the %.4g kg of %s: decimal point or unit wrong?", kg, 100*share, pet.Animal.WeightKg, pet.Name),
			fmt.Sprintf("weigh again; if %.4g kg is right, or corrects an earlier error, type", kg), "weigh", pet.Name, weight, "--sure")
	}
	was := pet.Animal
	if log := filepath.Join(h.Dir, reading.WeightsFile); safefile.Names(log) > 1 {
		defer fmt.Fprintf(p.env.stderr, "note: %s has another name (a hard link), which keeps the log without this weighing: the file is never changed in place\n", reading.WeightsFile)
	}
	if _, err := p.records(h.Dir, "weigh").Weigh(h, weighIn, today); err != nil {
		return err
	}
	// What the files' own warnings are was said when they were read first.
	now, list, err := reading.Load(h.Dir, today)
	switch {
	case err != nil:
		return err
	case list.HasErrors():
		return &diagnosticsError{list}
	}
	now.InHand = h.InHand
	return weighed(p, now, today, weighIn, was)
}

// weighed says what a weighing that was written down changes. The household is read
// anew: the log may move the score, the stage's plan and what was learned.
func weighed(p *program, h *household.Household, today household.Date, w household.WeighIn, was nutrients.Animal) error {
	store := records.Open(h.Dir)
	if err := errors.Join(store.Recall(h), store.Remember(h)); err != nil {
		return err
	}
	inUse, _, err := store.InUse()
	if err != nil {
		return err
	}
	pet, err := petNamed(h, w.Pet)
	if err != nil {
		return err
	}
	var plan *household.Plan
	if record, ok := inUse[pet.Name]; ok {
		plan = record.Plan
	}
	findings := upkeep.NewChecks(h, today).Pet(pet, plan)
	outOfDate := household.OutOfDate(findings)
	outlook := upkeep.OutlookOf(h, pet, today)
	before, beforeErr := nutrients.EnergyFor(was)
	now, nowErr := nutrients.EnergyFor(pet.Animal)
	change := 100 * (w.Kg/was.WeightKg - 1)
	if p.json {
		out := weighJSON{Format: "bowlwright/weigh/1", Pet: pet.Name, Date: w.Date, WeightKg: w.Kg, BeforeKg: was.WeightKg, ChangePercent: change,
			OutOfDate: []string{}, Findings: p.findingsJSON(findings)}
		if beforeErr == nil {
			out.BeforeEnergyKcal = &before.Kcal
		}
		if nowErr == nil {
			out.EnergyKcal = &now.Kcal
		}
		if outlook.GoalKg > 0 {
			out.GoalKg = &outlook.GoalKg
		}
		if outlook.HasNeed && outlook.Need.Enough() {
			low, high := outlook.Need.Interval()
			out.HoldsKcal, out.HoldsLowKcal, out.HoldsHighKcal = &outlook.Need.Kcal, &low, &high
		}
		if outlook.Advice.Kcal > 0 {
			out.ProposedKcal = &outlook.Advice.Kcal
		}
		for _, f := range outOfDate {
			out.OutOfDate = append(out.OutOfDate, f.Message)
		}
		return p.printJSON(out)
	}
	p.say("%s: %.4g kg on %s, %+.1f %% against %.4g kg.\n", pet.Name, w.Kg, w.Date, change, was.WeightKg)
	if w.Condition > 0 && pet.Animal.Stage == nutrients.Adult {
		p.say("Condition %d: the goal is %.4g kg until the next score.\n", w.Condition, outlook.GoalKg)
	}
	if trend, ok := upkeep.TrendOf(h, pet, today); ok {
		p.say("Trend: %+.2f kg (%+.1f %%) a week, from %d days of weighing since %s.\n", trend.KgPerWeek, trend.PercentPerWeek, trend.Days, trend.From)
	}
	if nowErr != nil {
		p.say("The energy cannot be worked out for this weight: %v.\n", nowErr)
	}
	if pet.Animal.Stage == nutrients.Adult && len(pet.Past) > 0 {
		p.say("%s\n", outlook.Held(pet.Name))
	}
	for _, f := range findings {
		if f.Severity == household.Stale || f.Severity == household.Refusal || f.Code == "plan-short" {
			continue
		}
		p.say("%s.\n", f.Message)
		if hint := p.advice(f); hint != "" {
			p.say("  -> %s\n", hint)
		}
	}
	if w.OffPlanDays > 0 && pet.Animal.Species == nutrients.Cat {
		p.say("A cat that ate nothing at all on one of those days needs a veterinarian at once: its liver is at risk.\n")
	}
	switch {
	case plan == nil:
		p.say("To make a plan, run: %s\n", p.command("plan", pet.Name))
	case len(outOfDate) > 0:
		p.say("The plan is out of date: %s.\nTo update the plan, run: %s\n", outOfDate[0].Message, p.command("plan", pet.Name))
	default:
		p.say("The plan in use is valid until %s.\n", upkeep.PlanEnds(pet, plan))
	}
	return nil
}

// weighJSON is the contract of `weigh --json`; unknown is null.
type weighJSON struct {
	Format           string         `json:"format"`
	Pet              string         `json:"pet"`
	Date             household.Date `json:"date"`
	WeightKg         float64        `json:"weight_kg"`
	BeforeKg         float64        `json:"before_kg"`
	ChangePercent    float64        `json:"change_percent"`
	EnergyKcal       *float64       `json:"energy_kcal"`
	BeforeEnergyKcal *float64       `json:"before_energy_kcal"`
	GoalKg           *float64       `json:"goal_kg"`
	// HoldsKcal is the energy that holds the weight, as learned, with its interval of
	// 90 %; ProposedKcal is what to write as energy.
	HoldsKcal     *float64      `json:"holds_kcal"`
	HoldsLowKcal  *float64      `json:"holds_low_kcal"`
	HoldsHighKcal *float64      `json:"holds_high_kcal"`
	ProposedKcal  *float64      `json:"proposed_energy_kcal"`
	OutOfDate     []string      `json:"out_of_date"`
	Findings      []findingJSON `json:"findings"`
}
