package main

import (
	"github.com/urfave/cli/v2"

	"bowlwright/household"
	"bowlwright/household/records"
	"bowlwright/optimize"
	"bowlwright/report/text"
)

func assessCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "assess", Usage: "hold what a pet eats now against its limits; nothing is proposed or recorded", ArgsUsage: "PET",
		Description: "Write what a pet eats now below it in household.toml: a [[pet.eats]] for each food\n" +
			"of the day, with food = \"…\" or base = \"…\", and amount = \"180 g\". The figures of a food that is\n" +
			"sold with a label go into foods/NAME.toml, as they are printed: \"min 24 %\", \"max 4 %\".\n" +
			"Where nothing is declared, the plan in use is what it eats.",
		Action: func(c *cli.Context) error { return assessOptions{pet: c.Args().First()}.run(p) },
	}
}

type assessJSON struct {
	Format   string                  `json:"format"`
	Date     household.Date          `json:"date"`
	Pet      household.PetPlan       `json:"pet"`
	Declared bool                    `json:"declared"`
	Eats     []household.ExtraAmount `json:"eats"`
}

// assessOptions name the pet.
type assessOptions struct{ pet string }

func (o assessOptions) run(p *program) error {
	h, pet, today, err := petAsked(p, o.pet, "assess Tansy", 1)
	if err != nil {
		return err
	}
	var inUse *household.Paired
	if len(pet.Eats) == 0 {
		if inUse, err = pairInUse(p, h, pet); err != nil {
			return err
		}
	}
	a, err := optimize.Assess(h, pet, inUse)
	if err != nil {
		return err
	}
	if p.json {
		return p.printJSON(assessJSON{"bowlwright/assess/1", today, a.Pet, a.Declared, a.Eats})
	}
	return text.Assessment(p.env.stdout, a, p.textOptions())
}

// pairInUse is the plan in use of a pet with the base in use; nil where there is no
// plan that holds amounts.
func pairInUse(p *program, h *household.Household, pet *household.Pet) (*household.Paired, error) {
	inUse, findings, err := records.Open(h.Dir).InUse()
	if err != nil {
		return nil, err
	}
	p.showFindings(findings)
	record, ok := inUse[pet.Name]
	if !ok || !record.Plan.Pet.Status.Printable() {
		return nil, nil
	}
	pair, err := h.PairIn(record.Sound())
	if err != nil {
		return nil, &refusedError{[]error{err}}
	}
	return &pair, nil
}
