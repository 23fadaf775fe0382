package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/household"
	"bowlwright/optimize"
)

// growthWeeks is for how many weeks a growth table does when it is not told.
const growthWeeks = 6

func growthCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "growth", Usage: "a table for the fridge: what a growing animal gets at each weight of the next weeks", ArgsUsage: "PET",
		Description: "A row for each weight, with base, premix and add-ons, every row a verified plan. Weigh the\nanimal and feed by the row of the nearest weight; no new paper is needed until the table ends.\nWhere the limits allow it one premix serves all rows. Nothing is recorded.",
		Flags:       []cli.Flag{&cli.IntFlag{Name: "weeks", Value: growthWeeks, Usage: "for `N` weeks, 1 to 12"}},
		Action: func(c *cli.Context) error {
			return growthOptions{pet: c.Args().First(), weeks: c.Int("weeks")}.run(p)
		},
	}
}

// growthOptions are what `growth` takes.
type growthOptions struct {
	pet   string
	weeks int
}

// growthJSON is the contract of `growth --json`.
type growthJSON struct {
	Format string          `json:"format"`
	Pet    string          `json:"pet"`
	Date   household.Date  `json:"date"`
	Until  household.Date  `json:"until"`
	Base   string          `json:"base_code"`
	Jar    *household.Jar  `json:"jar"`
	Rows   []growthRowJSON `json:"rows"`
	Note   string          `json:"note"`
}

type growthRowJSON struct {
	WeightKg   float64                 `json:"weight_kg"`
	Expected   household.Date          `json:"expected"`
	Status     household.Status        `json:"status"`
	EnergyKcal float64                 `json:"energy_kcal"`
	BaseG      float64                 `json:"base_g"`
	DoseG      *float64                `json:"dose_g"`
	Premix     *household.Premix       `json:"premix"`
	Addons     []household.AddonAmount `json:"addons"`
}

func (o growthOptions) run(p *program) error {
	h, pet, today, err := petAsked(p, o.pet, "growth Juno", 1)
	if err != nil {
		return err
	}
	if o.weeks < 1 || o.weeks > 12 {
		return badInput(fmt.Sprintf("--weeks %d is outside 1 to 12", o.weeks), "type how many weeks the table is to do, for example --weeks 6")
	}
	ctx, cancel := limited(growthRows)
	defer cancel()
	table, err := optimize.Growth(ctx, optimize.GrowthRequest{Household: h, Pet: pet, Today: today, Version: version, Weeks: o.weeks})
	if err != nil {
		return err
	}
	if p.json {
		err = p.printJSON(growthOf(h, table, today))
	} else {
		p.say("%s", growthText(h, pet, table, today))
	}
	if err == nil && len(table.Rows) == 0 {
		return unmet("no weight of "+pet.Name+" has a plan that meets every limit", "see what is in the way with", "explain", pet.Name)
	}
	return err
}

// growthRows is how many plans a table may take the time of.
const growthRows = 60

func growthOf(h *household.Household, t *optimize.GrowthTable, today household.Date) growthJSON {
	out := growthJSON{"bowlwright/growth/1", t.Pet, today, t.Until, h.Base.Identity().Code, t.Jar, []growthRowJSON{}, t.Note}
	for _, r := range t.Rows {
		pet := &r.Plan.Pet
		row := growthRowJSON{WeightKg: r.WeightKg, Expected: r.Expected, Status: pet.Status, EnergyKcal: pet.PlannedKcal, BaseG: pet.BaseG, Premix: pet.Premix, Addons: direct(pet)}
		if pet.Jar != nil {
			row.DoseG = &pet.Jar.DoseG
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// direct are the add-ons that are given beside jar and premix.
func direct(pet *household.PetPlan) []household.AddonAmount {
	given := []household.AddonAmount{}
	for _, a := range pet.Addons {
		if a.ServedAs != "jar" && a.ServedAs != "premix" {
			given = append(given, a)
		}
	}
	return given
}

// growthText is the table for a screen or a printer.
func growthText(h *household.Household, pet *household.Pet, t *optimize.GrowthTable, today household.Date) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s grows: %s to %s, base %s, %s\n", pet.Name, today, t.Until, h.Base.Identity().Code, h.Base.Name)
	b.WriteString("Weigh once a week and feed by the row of the nearest weight. For other weights, for illness\nand after the last day make a new table.\n\n")
	fmt.Fprintf(&b, "%9s  %-10s  %9s  %9s  %s\n", "weight", "expected", "base", "premix", "and each day also")
	for _, r := range t.Rows {
		plan := &r.Plan.Pet
		mix := "-"
		switch {
		case plan.Jar != nil:
			mix = shortFigure(plan.Jar.DoseG) + " g"
		case plan.Premix != nil:
			mix = shortFigure(plan.Premix.ServeG) + " g"
		}
		var beside []string
		for _, a := range direct(plan) {
			amount := shortFigure(a.G) + " g"
			if a.EveryDays > 1 {
				amount = fmt.Sprintf("%s g every %d days", shortFigure(a.G*float64(a.EveryDays)), a.EveryDays)
			}
			beside = append(beside, a.Name+" "+amount)
		}
		fmt.Fprintf(&b, "%6.4g kg  %-10s  %7s g  %9s  %s\n", r.WeightKg, r.Expected, shortFigure(plan.BaseG), mix, strings.Join(beside, "; "))
	}
	if t.Jar != nil {
		fmt.Fprintf(&b, "\nOne premix for the whole table (%s), %s g, enough for %d days. Weigh out in this order; the scale shows:\n", t.Jar.Code, shortFigure(t.Jar.MakesG), t.JarDays())
		for _, s := range t.Jar.Steps() {
			fmt.Fprintf(&b, "%9s g  %-40s %9s g\n", shortFigure(s.G), s.Name, shortFigure(s.TotalG))
		}
	}
	if t.Note != "" {
		fmt.Fprintf(&b, "\n%s\n", t.Note)
	}
	for _, x := range pet.Extras {
		fmt.Fprintf(&b, "\nAlso given every day (already counted): %s %s g\n", x.Food.Name, shortFigure(x.Grams))
	}
	b.WriteString("\nA veterinarian looks over the plan of a growing animal. The plan in use stays the one that\n`check` knows: this table is not recorded.\n")
	return b.String()
}
