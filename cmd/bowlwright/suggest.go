package main

import (
	"fmt"

	"github.com/urfave/cli/v2"

	"bowlwright/household"
	"bowlwright/optimize"
)

func (p *program) suggestCommand() *cli.Command {
	return &cli.Command{
		Name: "suggest", Usage: "what to put on the shelf so that a pet's targets can be met", ArgsUsage: "PET",
		Action: p.suggest,
	}
}

type suggestJSON struct {
	Format      string                `json:"format"`
	Pet         string                `json:"pet"`
	Suggestions []optimize.Suggestion `json:"suggestions"`
}

func (p *program) suggest(c *cli.Context) error {
	req, err := p.petRequest(c, "suggest Pip", 1)
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
	found, err := optimize.Suggest(ctx, req)
	if err != nil {
		return fmt.Errorf("%s: %w", pet.Name, err)
	}
	if c.Bool("json") {
		if found == nil {
			found = []optimize.Suggestion{}
		}
		return p.printJSON(suggestJSON{"bowlwright/suggest/1", pet.Name, found})
	}
	if plan.Pet.Status == household.Met {
		p.say(c, "The shelf meets every target of %s; nothing is needed.\n", pet.Name)
		return nil
	}
	if len(found) == 0 {
		return &notMetError{fmt.Sprintf("nothing in the catalogue that may go on the shelf makes the targets of %s reachable", pet.Name),
			fmt.Sprintf("see what stands in the way: bowlwright explain %s", quotedName(pet.Name))}
	}
	p.printSuggestions(c, pet.Name, found)
	if !found[0].Reaches {
		return &notMetError{fmt.Sprintf("no small addition meets every target of %s", pet.Name),
			fmt.Sprintf("see what stands in the way: bowlwright explain %s", quotedName(pet.Name))}
	}
	return nil
}

func (p *program) printSuggestions(c *cli.Context, pet string, found []optimize.Suggestion) {
	w := p.env.stdout
	p.say(c, "What would help %s, best first:\n", pet)
	for i, s := range found {
		reach := "meets every target"
		if !s.Reaches {
			reach = "helps, but not everything is met"
		}
		fmt.Fprintf(w, "\n%d. %s; add-on %s g a day in all\n", i+1, reach, shortFigure(s.AddonG))
		for _, a := range s.Additions {
			fmt.Fprintf(w, "   %-10s %s (%s)\n", shortFigure(a.G)+" g", a.Name, a.Food)
		}
		for _, r := range s.Replaces {
			fmt.Fprintf(w, "   no longer needed for %s: %s\n", pet, r)
		}
	}
	p.say(c, "\nPut it on the shelf in household.toml, then: bowlwright plan %s\n", quotedName(pet))
	for _, a := range found[0].Additions {
		p.say(c, "  [[addon]]\n  food = %q\n", a.Food)
	}
}
