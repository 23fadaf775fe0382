package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/household"
	"bowlwright/optimize"
	"bowlwright/optimize/advice"
)

func suggestCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "suggest", Usage: "what to put on the shelf so that a pet's targets can be met", ArgsUsage: "PET",
		Flags: []cli.Flag{&cli.BoolFlag{Name: "all", Usage: "show every suggestion, not only the first three"}},
		Action: func(c *cli.Context) error {
			return suggestOptions{pet: c.Args().First(), all: c.Bool("all")}.run(p)
		},
	}
}

type suggestJSON struct {
	Format      string              `json:"format"`
	Pet         string              `json:"pet"`
	Suggestions []advice.Suggestion `json:"suggestions"`
	// Usual is proposed instead of single foods where the shelf is nearly bare.
	Usual *usualProposal `json:"usual_shelf,omitempty"`
}

// suggestOptions are what `suggest` takes.
type suggestOptions struct {
	pet string
	all bool
}

func (o suggestOptions) run(p *program) error {
	req, err := petRequest(p, o.pet, "suggest Pip", 1)
	if err != nil {
		return err
	}
	pet := req.Pet
	ctx, cancel := limited(1)
	defer cancel()
	plan, err := optimize.Solve(ctx, req)
	if err != nil {
		return fmt.Errorf("%s: %w", pet.Name, err)
	}
	if plan.Pet.Status == household.Met && !p.json {
		p.say("The shelf meets every target of %s; nothing is needed.\n", pet.Name)
		return nil
	}
	if plan.Pet.Status != household.Met && mostlyBare(req) && !o.all {
		return proposeUsualShelf(p, ctx, req)
	}
	found, err := advice.Suggest(ctx, req)
	if err != nil {
		return fmt.Errorf("%s: %w", pet.Name, err)
	}
	reaches := len(found) > 0 && found[0].Reaches
	if p.json {
		if found == nil {
			found = []advice.Suggestion{}
		}
		if err := p.printJSON(suggestJSON{"bowlwright/suggest/1", pet.Name, found, nil}); err != nil || plan.Pet.Status == household.Met {
			return err
		}
	} else if len(found) > 0 {
		printSuggestions(p, o.all, req, unlike(found))
	}
	if len(found) == 0 {
		return unmet(fmt.Sprintf("no allowed food of the catalogue makes the targets of %s reachable", pet.Name),
			"see why", "explain", pet.Name)
	}
	if !reaches {
		return unmet(fmt.Sprintf("no small addition meets every target of %s", pet.Name),
			"see why", "explain", pet.Name)
	}
	return nil
}

// suggestionsShown is how many suggestions are printed unless all are asked for: the
// later ones are mostly the first ones with one food changed.
const suggestionsShown = 3

func printSuggestions(p *program, all bool, req optimize.Request, found []advice.Suggestion) {
	w, pet := p.env.stdout, req.Pet.Name
	p.say("What would help %s, best first:\n", pet)
	for i, s := range found {
		if i == suggestionsShown && !all {
			p.say("\n%d more, much like these: %s\n", len(found)-i, p.command("suggest", pet, "--all"))
			break
		}
		reach := "meets every target"
		if !s.Reaches {
			reach = "helps, but not everything is met"
		}
		fmt.Fprintf(w, "\n%d. %s; add-on %s g a day in all\n", i+1, reach, shortFigure(s.AddonG))
		for _, a := range s.Additions {
			fmt.Fprintf(w, "   %-10s %s (%s)\n", shortFigure(a.G)+" g", a.Name, a.Food)
		}
		if len(s.Replaces) > 0 {
			fmt.Fprintf(w, "   no longer needed for %s: %s\n", pet, strings.Join(s.Replaces, ", "))
		}
		for _, caution := range cautionsOf(req.Household.Catalogue, s, req.Pet.Animal.Species) {
			fmt.Fprintf(w, "   note: %s\n", caution)
		}
	}
	p.say("\nPut the first on the shelf with these lines in household.toml, then: %s\n", p.command("plan", pet))
	for _, a := range found[0].Additions {
		p.say("  [[addon]]\n  food = %q\n", a.Food)
	}
}
