package main

import (
	"errors"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/records"
	"bowlwright/household/upkeep"

	"github.com/urfave/cli/v2"
)

func restoreCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "restore", Usage: "use an earlier plan again, or write an earlier base into bases/", ArgsUsage: "RECORD|CODE",
		Description: "A plan is restored only with the base that it was made for. A base is written as a\nnew file, never over one of yours.",
		Action: func(c *cli.Context) error {
			return restoreOptions{word: c.Args().First()}.run(p)
		},
	}
}

// restoreOptions names a record of a plan or the code of a base.
type restoreOptions struct {
	word string
}

func (o restoreOptions) run(p *program) error {
	if o.word == "" {
		return badInput("restore takes the record of a plan or the code of a base", "list them with", "history")
	}
	if err := p.noMore(1); err != nil {
		return err
	}
	h, today, err := p.load()
	if err != nil {
		return err
	}
	store := p.records(h.Dir, "restore")
	if _, err := household.ParseCode(o.word); err == nil {
		return restoreBase(p, h, store, o.word)
	}
	record, err := store.Plan(o.word)
	if err != nil {
		return err
	}
	saved, err := store.Restore(h, record, today)
	var mixUp *household.MixUpError
	if errors.As(err, &mixUp) {
		mixUp.Ways = append(mixUp.Ways, diag.Command("with that base in use again", "restore", o.word))
	}
	if err != nil {
		return err
	}
	why := []string{}
	if pet, ok := h.Pet(saved.Plan.Pet.Pet); ok {
		for _, f := range household.OutOfDate(upkeep.NewChecks(h, today).Pet(pet, saved.Plan)) {
			why = append(why, f.Message)
		}
	}
	if p.json {
		return p.printJSON(map[string]any{"format": "bowlwright/restore/1", "record": saved.Ref, "pet": saved.Plan.Pet.Pet, "date": saved.Plan.Date, "out_of_date": why})
	}
	p.say("The plan of %s from %s is in use again, as %s. Print the card with: %s\n",
		saved.Plan.Pet.Pet, record.Plan.Date, saved.Ref, p.command("card", saved.Plan.Pet.Pet))
	for _, reason := range why {
		p.say("It is out of date: %s.\n", reason)
	}
	return nil
}

// restoreBase writes a base as it was.
func restoreBase(p *program, h *household.Household, store *records.Folder, code string) error {
	base, err := baseWithCode(h, store, code)
	if err != nil {
		return err
	}
	name, written, err := store.RestoreBase(h, base)
	if err != nil {
		return err
	}
	if p.json {
		if written == nil {
			written = []string{}
		}
		return p.printJSON(map[string]any{"format": "bowlwright/restore/1", "base": name, "code": base.Code, "written": written})
	}
	if len(written) == 0 {
		p.say("The base %s is there already: bases/%s.toml.\n", base.Code, name)
	}
	for _, f := range written {
		p.say("Wrote %s.\n", f)
	}
	if h.Base.Identity().Code != base.Code {
		p.say("Use it with base = %q in household.toml.\n", name)
	}
	return nil
}
