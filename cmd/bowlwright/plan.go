package main

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"bowlwright/cmd/bowlwright/internal/terminal"
	"bowlwright/household"
	"bowlwright/household/records"
	"bowlwright/nutrients"
	"bowlwright/report/text"
)

// solveLimit is how long the plans of petsPerLimit pets may take before the program
// gives up: a thousand times what they take.
const (
	solveLimit   = 30 * time.Second
	petsPerLimit = 10
)

// limited is a context that ends when the plans of so many pets take too long.
func limited(pets int) (context.Context, context.CancelFunc) {
	return context.WithTimeout(context.Background(), solveLimit*time.Duration(1+pets/petsPerLimit))
}

func planCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "plan", Usage: "work out base portion and add-ons for each pet, show and record them", ArgsUsage: "[PET…]",
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "dry-run", Usage: "record nothing"},
			&cli.BoolFlag{Name: "compare", Usage: "show what changed against the plan in use"},
			&cli.BoolFlag{Name: "full", Usage: "list all nutrients, and what each deciding limit costs"},
			&cli.BoolFlag{Name: "new-jars", Usage: "compose new jars, even where those in use suit"},
		},
		Action: func(c *cli.Context) error {
			return planOptions{pets: c.Args().Slice(), dryRun: c.Bool("dry-run"), compare: c.Bool("compare"), newJars: c.Bool("new-jars"), full: c.Bool("full")}.run(p)
		},
	}
}

// planOptions are what `plan` takes.
type planOptions struct {
	pets            []string
	dryRun, compare bool
	newJars         bool
	// full lists all nutrients.
	full bool
}

func (o planOptions) run(p *program) error {
	h, today, err := p.load()
	if err != nil {
		return err
	}
	pets, err := petsNamed(h, o.pets)
	if err != nil {
		return err
	}
	pets, unweaned := weaned(pets)
	if len(pets) == 0 {
		return unweaned
	}
	done := func() {}
	if !p.quiet && !p.json {
		done = p.progress(fmt.Sprintf("planning %d pets", len(pets)), terminal.Delay)
	}
	shown := !p.json
	made, err := solveAll(h, pets, today, comparison{since: shown, full: shown && o.compare, newJars: o.newJars})
	done()
	if !p.quiet {
		p.showFindings(made.findings)
	}
	if err != nil {
		return err
	}
	plans := made.plans
	if !o.dryRun {
		if err := recordPlans(p, h, plans); err != nil {
			return err
		}
	}
	if !shown {
		if err := printPlans(p, made, today); err != nil {
			return err
		}
		return firstOf(made.failed, notMet(plans), unweaned)
	}
	for i, plan := range plans {
		if i > 0 {
			fmt.Fprintln(p.env.stdout)
		}
		sound, err := household.Examine(plan)
		if err != nil {
			return err
		}
		// A plan is shown with the jar that it was made for, whatever is in hand.
		paired, err := household.Pair(sound, h.Base, inHandFor(h, sound)...)
		if err != nil {
			return err
		}
		options := p.textOptions()
		options.Full, options.Day = o.full, today
		if err := text.Plan(p.env.stdout, paired, options); err != nil {
			return err
		}
		p.say("%s", made.changes[i].since)
		fmt.Fprint(p.env.stdout, made.changes[i].full)
	}
	p.say("%s", p.tellJars(h, made.mixed))
	if !p.quiet {
		ctx, cancel := limited(len(plans))
		defer cancel()
		p.say("%s", p.offerJar(ctx, h, plans))
	}
	if !o.dryRun {
		p.say("\nRecorded.")
		without := withoutAmounts(plans)
		if len(without) < len(plans) {
			p.say(" Print the cards with: %s\n", p.command("card"))
		}
		if len(without) > 0 {
			p.say("\nNo card can be printed for %s: there are no amounts that may be fed, and an\nearlier plan no longer holds.\n", strings.Join(without, ", "))
		}
	}
	return firstOf(made.failed, notMet(plans), unweaned)
}

// inHandFor are the mixes in hand that hold what the plan was made for.
func inHandFor(h *household.Household, plan household.Sound) []*household.Mixing {
	var all []*household.Mixing
	for _, m := range h.InHand {
		if _, err := household.Pair(plan, h.Base, m); err == nil {
			all = append(all, m)
		}
	}
	return all
}

// firstOf returns the first error that there is: a plan that was not found before one that
// does not meet its targets.
func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// weaned returns the pets for which a day can be planned, and the error of the first
// that still lives on milk, nil when there is none.
func weaned(all []*household.Pet) (pets []*household.Pet, unweaned error) {
	for _, pet := range all {
		var milk *nutrients.UnweanedError
		if _, err := nutrients.EnergyFor(pet.Animal); errors.As(err, &milk) {
			if unweaned == nil {
				unweaned = fmt.Errorf("%s: %w", pet.Name, milk)
			}
			continue
		}
		pets = append(pets, pet)
	}
	return pets, unweaned
}

func addonGrams(plan *household.Plan) float64 {
	total := 0.0
	for _, a := range plan.Pet.Addons {
		total += a.G
	}
	return total
}

func indent(lines []string) string {
	if len(lines) == 0 {
		return "  nothing changed\n"
	}
	return "  " + strings.Join(lines, "\n  ") + "\n"
}

// recordPlans saves the plans, also those without amounts: an earlier plan of such a pet
// must not go on being printed as if it still held.
func recordPlans(p *program, h *household.Household, plans []*household.Plan) error {
	_, err := p.records(h.Dir, "plan").SavePlans(plans)
	return err
}

// withoutAmounts names the pets whose plans hold no amounts that may be fed.
func withoutAmounts(plans []*household.Plan) []string {
	var names []string
	for _, plan := range plans {
		if !plan.Pet.Status.Printable() {
			names = append(names, plan.Pet.Pet)
		}
	}
	return names
}

// records opens the records of a folder; the lock names the command and the time.
func (p *program) records(dir, command string) *records.Folder {
	return records.Open(dir).For("bowlwright "+command, p.env.now()).Waiting(p.wait)
}

// namesShown is how many names a message lists.
const namesShown = 12

// someOf lists names, the first of them when there are many.
func someOf(names []string) string {
	if len(names) <= namesShown {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:namesShown], ", "), len(names)-namesShown)
}

// notMet is the error of plans that miss their targets, nil when all are met.
func notMet(plans []*household.Plan) error {
	var names []string
	needs := ""
	for _, plan := range plans {
		if plan.Pet.Status != household.Met {
			if needs == "" {
				needs = plan.Pet.Pet
			}
			names = append(names, fmt.Sprintf("%s (%s)", plan.Pet.Pet, plan.Pet.Status))
		}
	}
	if len(names) == 0 {
		return nil
	}
	return unmet("not every target is met: "+someOf(names), "why", "explain", needs).or("what would help", "suggest", needs)
}
