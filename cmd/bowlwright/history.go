package main

import (
	"fmt"
	"strings"

	"bowlwright/household"
	"bowlwright/household/records"

	"github.com/urfave/cli/v2"
)

func (p *program) historyCommand() *cli.Command {
	return &cli.Command{
		Name: "history", Usage: "earlier plans and the bases they were made for", ArgsUsage: "[PET]",
		Action: p.history,
	}
}

type historyLineJSON struct {
	Record string           `json:"record"`
	Date   household.Date   `json:"date"`
	Pet    string           `json:"pet"`
	Base   string           `json:"base"`
	Code   string           `json:"code"`
	Status household.Status `json:"status"`
	Kg     float64          `json:"weight_kg"`
}

func (p *program) history(c *cli.Context) error {
	if err := noMore(c, 1); err != nil {
		return err
	}
	h, _, err := p.load(c)
	if err != nil {
		return err
	}
	only := ""
	if c.NArg() == 1 {
		pet, err := petNamed(h, c.Args().First())
		if err != nil {
			return err
		}
		only = pet.Name
	}
	store := records.Open(h.Dir)
	plans, findings, err := store.Plans()
	if err != nil {
		return err
	}
	p.showFindings(findings)
	lines := []historyLineJSON{}
	for _, r := range plans {
		if only == "" || r.Plan.Pet.Pet == only {
			lines = append(lines, historyLineJSON{r.Ref, r.Plan.Date, r.Plan.Pet.Pet, r.Plan.Base.Name, r.Plan.Base.Code, r.Plan.Pet.Status, r.Plan.Pet.WeightKg})
		}
	}
	cooked := []records.Entry{}
	if only == "" {
		entries, _, err := store.History("")
		if err != nil {
			return err
		}
		for _, e := range entries {
			if e.Kind == "cooked" {
				cooked = append(cooked, e)
			}
		}
	}
	if c.Bool("json") {
		return p.printJSON(map[string]any{"format": "bowlwright/history/1", "plans": lines, "cooked": cooked})
	}
	for _, l := range lines {
		fmt.Fprintf(p.env.stdout, "%s  %-12s %7.2f kg  %s  %-6s %s  %s\n", l.Date, l.Pet, l.Kg, l.Code, l.Status, l.Record, l.Base)
	}
	for _, e := range cooked {
		fmt.Fprintf(p.env.stdout, "%s  cooked %s\n", e.Date, e.Ref)
	}
	if len(lines)+len(cooked) == 0 {
		if only != "" {
			p.say(c, "No plan of %s yet. Make one with: %s\n", only, p.command("plan", only))
		} else {
			p.say(c, "No plans yet. Make them with: %s\n", p.command("plan"))
		}
	}
	return nil
}

func (p *program) checkCodeCommand() *cli.Command {
	return &cli.Command{
		Name: "check-code", Usage: "the code on a container against the base and the plans in use", ArgsUsage: "CODE",
		Action: p.checkCode,
	}
}

func (p *program) checkCode(c *cli.Context) error {
	if c.NArg() == 0 {
		return badInput("check-code takes the code on a container", "for example", "check-code", "K7Q-2MX-K")
	}
	// A person reads the groups of a label with pauses between them.
	code, err := household.ParseCode(strings.Join(c.Args().Slice(), "-"))
	if err != nil {
		return badInput(err.Error(), "type the seven symbols as they stand on the container, for example", "check-code", "K7Q-2MX-K")
	}
	h, _, err := p.load(c)
	if err != nil {
		return err
	}
	check, err := h.CheckCode(code)
	if err != nil {
		return err
	}
	if c.Bool("json") {
		if err := p.printJSON(map[string]any{"format": "bowlwright/check-code/1", "code": check.Code, "base_in_use": check.InUse, "same": check.Match}); err != nil {
			return err
		}
	}
	if check.Match {
		p.say(c, "%s is the base in use: %s.\n", check.Code, h.Base.Name)
		return nil
	}
	refused := badInput(fmt.Sprintf("refused: the container holds base %s, the base in use is %s (%s)", check.Code, check.InUse, h.Base.Name),
		"do not use this container with the cards in use; look it up with", "history")
	if check.File != "" {
		refused = badInput(refused.message, fmt.Sprintf("it is bases/%s.toml: put base = %q into household.toml, then make a new plan", check.File, check.File), "plan")
	}
	return &refusedError{[]error{refused}}
}
