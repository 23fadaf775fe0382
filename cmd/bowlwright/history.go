package main

import (
	"fmt"

	"bowlwright/household"
	"bowlwright/household/records"
	"bowlwright/report/text"

	"github.com/urfave/cli/v2"
)

func historyCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "history", Usage: "earlier plans and the bases they were made for", ArgsUsage: "[PET]",
		Action: func(c *cli.Context) error {
			return historyOptions{pet: c.Args().First()}.run(p)
		},
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

// historyOptions are what `history` takes.
type historyOptions struct {
	// pet is the only one that is told of, empty for all.
	pet string
}

func (o historyOptions) run(p *program) error {
	if err := p.noMore(1); err != nil {
		return err
	}
	h, today, err := p.load()
	if err != nil {
		return err
	}
	only := ""
	var about *household.Pet
	if o.pet != "" {
		pet, away := h.AwayPet(o.pet)
		if !away {
			if pet, err = petNamed(h, o.pet); err != nil {
				return err
			}
		}
		only, about = pet.Name, pet
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
			if e.Kind == records.KindCooked {
				cooked = append(cooked, e)
			}
		}
	}
	var course household.WeightCourse
	if about != nil {
		if about.Past, err = store.Past(about.Name); err != nil {
			return err
		}
		course = h.WeightCourseOf(about, today)
	}
	if p.json {
		return p.printJSON(map[string]any{"format": "bowlwright/history/1", "plans": lines, "cooked": cooked, "weight": append([]string{}, course.Words()...)})
	}
	for _, l := range lines {
		fmt.Fprintf(p.env.stdout, "%s  %-12s %7.2f kg  %s  %-6s %s  %s\n", l.Date, l.Pet, l.Kg, l.Code, l.Status, l.Record, l.Base)
	}
	for _, e := range cooked {
		fmt.Fprintf(p.env.stdout, "%s  cooked %s\n", e.Date, e.Ref)
	}
	if len(lines)+len(cooked) == 0 {
		if only != "" {
			p.say("No plan of %s yet. Make one with: %s\n", only, p.command("plan", only))
		} else {
			p.say("No plans yet. Make them with: %s\n", p.command("plan"))
		}
	}
	if !p.quiet && len(course.Weighings) > 0 {
		fmt.Fprintln(p.env.stdout)
		return text.Weights(p.env.stdout, course, p.textOptions())
	}
	return nil
}
