package main

import (
	"fmt"
	"strconv"

	"github.com/urfave/cli/v2"

	"bowlwright/cmd/bowlwright/internal/ask"
	"bowlwright/household"
	"bowlwright/household/quantity"
	"bowlwright/nutrients"
)

func (p *program) weighCommand() *cli.Command {
	return &cli.Command{
		Name: "weigh", Usage: "add a weight to the log and say what it changes", ArgsUsage: "PET WEIGHT",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "note", Usage: "a `REMARK` kept beside the weight"},
			&cli.BoolFlag{Name: "sure", Usage: "write it down although it is far from the weight before"},
		},
		Action: p.weigh,
	}
}

func (p *program) weigh(c *cli.Context) error {
	args := c.Args().Slice()
	// "31.5 kg" may be typed with or without quotes.
	if len(args) == 3 && ask.WeightFault(args[0]+" "+args[1]) == nil {
		args = []string{args[0] + " " + args[1], args[2]}
	} else if len(args) == 3 {
		args = []string{args[0], args[1] + " " + args[2]}
	}
	if len(args) != 2 {
		return badInput("weigh takes a pet and a weight", "for example", "weigh", "Marlow", "31.2 kg")
	}
	h, today, err := p.load(c)
	if err != nil {
		return err
	}
	pet, err := petNamed(h, args[0])
	if _, known := h.Pet(args[1]); err != nil && known && ask.WeightFault(args[0]) == nil {
		return badInput("the weight stands before the pet", "type", "weigh", args[1], args[0])
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
	weighIn := household.WeighIn{Date: today, Pet: pet.Name, Kg: kg, Note: c.String("note")}
	if share, jump := household.WeightJump(pet, weighIn); jump && !c.Bool("sure") {
		return badInput(fmt.Sprintf("%.4g kg is %+.0f %% against the %.4g kg of %s: decimal point or unit wrong?", kg, 100*share, pet.Animal.WeightKg, pet.Name),
			fmt.Sprintf("weigh again; if %.4g kg is right, or corrects an earlier error, type", kg), "weigh", pet.Name, weight, "--sure")
	}
	before := pet.Animal
	beforeNeed, beforeErr := nutrients.EnergyFor(before)
	if _, err := p.records(h.Dir, "weigh").Weigh(h, weighIn, today); err != nil {
		return err
	}
	after := before
	after.WeightKg = kg
	afterNeed, afterErr := nutrients.EnergyFor(after)
	change := 100 * (kg - before.WeightKg) / before.WeightKg
	if c.Bool("json") {
		out := map[string]any{"format": "bowlwright/weigh/1", "pet": pet.Name, "date": today, "weight_kg": kg,
			"before_kg": before.WeightKg, "change_percent": change, "energy_kcal": nil, "before_energy_kcal": nil}
		if beforeErr == nil {
			out["before_energy_kcal"] = beforeNeed.Kcal
		}
		if afterErr == nil {
			out["energy_kcal"] = afterNeed.Kcal
		}
		return p.printJSON(out)
	}
	p.say(c, "%s: %.4g kg on %s, %+.1f %% against %.4g kg.\n", pet.Name, kg, today, change, before.WeightKg)
	if beforeErr == nil && afterErr == nil {
		p.say(c, "Energy: %.0f kcal a day, %.0f before.\n", afterNeed.Kcal, beforeNeed.Kcal)
	}
	if afterErr != nil {
		p.say(c, "The energy cannot be worked out for this weight: %v.\n", afterErr)
	}
	p.say(c, "%s", trendLine(h.Dir, pet.Name, today))
	p.say(c, "To update the plan, run: %s\n", p.command("plan", pet.Name))
	return nil
}

// trendLine says how the weight moves, once enough weighings are in the log.
func trendLine(dir, name string, today household.Date) string {
	h, list, err := household.Load(dir, today)
	if err != nil || list.HasErrors() {
		return ""
	}
	pet, ok := h.Pet(name)
	if !ok {
		return ""
	}
	trend, ok := h.Trend(pet, today)
	if !ok {
		return ""
	}
	odd := ""
	if trend.LastIsOdd {
		odd = "; this weighing does not fit the others: weigh again"
	}
	return fmt.Sprintf("Trend: %+.2f kg (%+.1f %%) a week, from %d days of weighing since %s%s.\n", trend.KgPerWeek, trend.PercentPerWeek, trend.Days, trend.From, odd)
}
