package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/cmd/bowlwright/internal/terminal"
	"bowlwright/household"
	"bowlwright/optimize/advice"
	"bowlwright/report/text"
)

func improveCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "improve", Usage: "how to change the base so that all pets together need the least add-on", ArgsUsage: " ",
		Description: "Tries every food of the catalogue that no pet must avoid, the powders on the\nshelf, and less of what is in the pot. No change leaves a pet further below a\nminimum than before. Nothing is changed or recorded: the base is yours\nto write.",
		Action: func(c *cli.Context) error {
			return improveOptions{}.run(p)
		},
	}
}

type improveJSON struct {
	Format    string `json:"format"`
	Household string `json:"household"`
	Base      struct {
		Name string `json:"name"`
		household.Identity
		RawG float64 `json:"raw_g"`
	} `json:"base"`
	Improvements []advice.Improvement `json:"improvements"`
	// NotHelped says of the pets that are not counted, because no base helps them, why.
	NotHelped map[string]string `json:"not_helped,omitempty"`
}

// improveOptions is empty: improve looks at the household as it is.
type improveOptions struct{}

func (o improveOptions) run(p *program) error {
	if err := p.noMore(0); err != nil {
		return err
	}
	h, _, err := p.load()
	if err != nil {
		return err
	}
	ctx, cancel := limited(len(h.Pets))
	defer cancel()
	done := func() {}
	if !p.quiet && !p.json {
		done = p.progress("trying other bases", terminal.Delay)
	}
	found, err := advice.Improve(ctx, h)
	done()
	if err != nil {
		return err
	}
	notHelped, err := advice.NotHelped(h)
	if err != nil {
		return err
	}
	if p.json {
		out := improveJSON{Format: "bowlwright/improve/1", Household: h.Name, Improvements: []advice.Improvement{}, NotHelped: notHelped}
		out.Base.Name, out.Base.Identity, out.Base.RawG = h.Base.Name, h.Base.Identity(), h.Base.RawGrams()
		out.Improvements = append(out.Improvements, found...)
		return p.printJSON(out)
	}
	code := h.Base.Identity().Code
	p.say("%s: base %s, %s\n", h.Name, code, h.Base.Name)
	for i := range h.Pets {
		if why, ok := notHelped[h.Pets[i].Name]; ok {
			p.say("%s", p.paragraph(fmt.Sprintf("No base can help %s, who is left out here: %s.", inPrint(h.Pets[i].Name), inPrint(why))))
		}
	}
	if len(notHelped) == len(h.Pets) {
		return nil
	}
	if len(found) == 0 {
		p.say("No change to this base is worth making: nothing in the catalogue, more of it or\nless, saves 2 %% of all add-ons or of what is below minimum.\n")
		return nil
	}
	who := "All pets together need"
	if len(found[0].Pets) == 1 {
		who = inPrint(found[0].Pets[0].Pet) + " needs"
	}
	p.say("%s", p.paragraph(fmt.Sprintf("%s %s g of add-on a day. What would reduce it, for the pot of %s g raw in bases/%s.toml, best first:",
		who, shortFigure(found[0].BeforeG), shortFigure(h.Base.RawGrams()), h.Base.File)))
	for _, e := range found[0].Pets {
		if e.BeforeMissing > 0 || e.BeforeImpossible {
			p.say("%s", p.paragraph(fmt.Sprintf("Not every target of %s is met now. A fuller shelf often helps more than another base; see first: %s",
				inPrint(e.Pet), p.command("suggest", e.Pet))))
			break
		}
	}
	for i, one := range found {
		printImprovement(p, i+1, &one)
	}
	nextSteps(p, h.Base, &found[0])
	return nil
}

// paragraph breaks a text into lines.
func (p *program) paragraph(s string) string {
	return strings.Join(text.Wrap(s, min(p.columns(), 100)), "\n") + "\n"
}
