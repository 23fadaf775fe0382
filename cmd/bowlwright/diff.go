package main

import (
	"errors"
	"fmt"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/records"

	"github.com/urfave/cli/v2"
)

func (p *program) diffCommand() *cli.Command {
	return &cli.Command{
		Name: "diff", Usage: "what differs between two plans or two bases", ArgsUsage: "A [B]",
		Description: "A and B are records (see bowlwright history), pets, files of bases/ without the\nending, or base codes. Without B, a pet is compared with its plan\nbefore, anything else with what is in use.",
		Action:      p.diff,
	}
}

// compared is one side of a diff: a plan, or a base alone.
type compared struct {
	name string
	plan *household.Plan
	base household.BaseSnapshot
}

type diffJSON struct {
	Format      string   `json:"format"`
	A           string   `json:"a"`
	B           string   `json:"b"`
	Kind        string   `json:"kind"`
	Differences []string `json:"differences"`
}

func (p *program) diff(c *cli.Context) error {
	if c.NArg() == 0 {
		return badInput("diff takes two plans or two bases", "list the records with", "history")
	}
	if err := noMore(c, 2); err != nil {
		return err
	}
	h, _, err := p.load(c)
	if err != nil {
		return err
	}
	a, err := p.side(h, c.Args().First())
	if err != nil {
		return err
	}
	var b compared
	if c.NArg() == 2 {
		b, err = p.side(h, c.Args().Get(1))
	} else if _, isPet := h.Pet(c.Args().First()); isPet {
		b = a
		a, err = p.planBefore(h, b)
	} else {
		b, err = p.inUseFor(h, a)
	}
	if err != nil {
		return err
	}
	out := diffJSON{Format: "bowlwright/diff/1", A: a.name, B: b.name, Kind: "bases", Differences: household.DiffBases(a.base, b.base)}
	if a.plan != nil && b.plan != nil {
		out.Kind, out.Differences = "plans", records.DiffPlans(a.plan, b.plan)
	}
	if out.Differences == nil {
		out.Differences = []string{}
	}
	if c.Bool("json") {
		return p.printJSON(out)
	}
	p.say(c, "%s against %s:\n", out.A, out.B)
	fmt.Fprint(p.env.stdout, inPrint(indent(out.Differences)))
	return nil
}

// side finds what a word of the command line names.
func (p *program) side(h *household.Household, word string) (compared, error) {
	store := records.Open(h.Dir)
	if pet, ok := h.Pet(word); ok {
		inUse, _, err := store.InUse()
		if err != nil {
			return compared{}, err
		}
		record, ok := inUse[pet.Name]
		if !ok {
			return compared{}, noPlan(pet.Name)
		}
		return ofPlan(record), nil
	}
	if batch, ok := h.Batches[word]; ok {
		s := batch.Snapshot()
		return compared{name: "bases/" + word + ".toml (" + s.Code + ")", base: s}, nil
	}
	if base, err := baseWithCode(h, store, word); err == nil {
		return compared{name: "base " + base.Code + " (" + base.Name + ")", base: base}, nil
	}
	record, err := store.Plan(word)
	if err != nil {
		return compared{}, err
	}
	return ofPlan(record), nil
}

func ofPlan(r records.PlanRecord) compared {
	return compared{name: fmt.Sprintf("%s of %s", r.Ref, r.Plan.Date), plan: r.Plan, base: r.Plan.Base}
}

// baseWithCode finds a base by its code, in bases/ first, then in the records.
func baseWithCode(h *household.Household, store *records.Folder, typed string) (household.BaseSnapshot, error) {
	code, err := household.ParseCode(typed)
	if err != nil {
		return household.BaseSnapshot{}, err
	}
	if file, ok := h.BaseWithCode(code); ok {
		return h.Batches[file].Snapshot(), nil
	}
	return store.BaseByCode(code)
}

// planBefore is the plan that a pet had before the one in use.
func (p *program) planBefore(h *household.Household, now compared) (compared, error) {
	plans, _, err := records.Open(h.Dir).Plans()
	if err != nil {
		return compared{}, err
	}
	pet := now.plan.Pet.Pet
	for i := len(plans) - 1; i >= 0; i-- {
		if plans[i].Plan.Pet.Pet != pet {
			continue
		}
		if before := ofPlan(plans[i]); before.name != now.name {
			return before, nil
		}
	}
	return compared{}, badInput(fmt.Sprintf("%s has only one plan", pet), "name two records", "diff", "A", "B").or("list them with", "history")
}

// inUseFor is what takes the place of a side that was left out.
func (p *program) inUseFor(h *household.Household, a compared) (compared, error) {
	base := h.Base.Snapshot()
	if a.plan == nil {
		return compared{name: "the base in use (" + base.Code + ")", base: base}, nil
	}
	inUse, _, err := records.Open(h.Dir).InUse()
	if err != nil {
		return compared{}, err
	}
	record, ok := inUse[a.plan.Pet.Pet]
	if !ok {
		return compared{}, noPlan(a.plan.Pet.Pet)
	}
	return ofPlan(record), nil
}

func noPlan(pet string) error {
	return badInput(fmt.Sprintf("there is no plan for %s", pet), "make one with", "plan", pet)
}

func (p *program) restoreCommand() *cli.Command {
	return &cli.Command{
		Name: "restore", Usage: "use an earlier plan again, or write an earlier base into bases/", ArgsUsage: "RECORD|CODE",
		Description: "A plan is restored only with the base that it was made for. A base is written as a\nnew file, never over one of yours.",
		Action:      p.restore,
	}
}

func (p *program) restore(c *cli.Context) error {
	if c.NArg() == 0 {
		return badInput("restore takes the record of a plan or the code of a base", "list them with", "history")
	}
	if err := noMore(c, 1); err != nil {
		return err
	}
	h, _, err := p.load(c)
	if err != nil {
		return err
	}
	word := c.Args().First()
	store := p.records(h.Dir, "restore")
	if _, err := household.ParseCode(word); err == nil {
		return p.restoreBase(c, h, store, word)
	}
	record, err := store.Plan(word)
	if err != nil {
		return err
	}
	saved, err := store.Restore(h, record)
	var mixUp *household.MixUpError
	if errors.As(err, &mixUp) {
		mixUp.Ways = append(mixUp.Ways, diag.Command("with that base in use again", "restore", word))
	}
	if err != nil {
		return err
	}
	if c.Bool("json") {
		return p.printJSON(map[string]any{"format": "bowlwright/restore/1", "record": saved.Ref, "pet": saved.Plan.Pet.Pet, "date": saved.Plan.Date})
	}
	p.say(c, "The plan of %s from %s is in use again, as %s. Print the card with: %s\n",
		saved.Plan.Pet.Pet, record.Plan.Date, saved.Ref, p.command("card", saved.Plan.Pet.Pet))
	return nil
}

// restoreBase writes a base as it was.
func (p *program) restoreBase(c *cli.Context, h *household.Household, store *records.Folder, code string) error {
	base, err := baseWithCode(h, store, code)
	if err != nil {
		return err
	}
	name, written, err := store.RestoreBase(h, base)
	if err != nil {
		return err
	}
	if c.Bool("json") {
		if written == nil {
			written = []string{}
		}
		return p.printJSON(map[string]any{"format": "bowlwright/restore/1", "base": name, "code": base.Code, "written": written})
	}
	if len(written) == 0 {
		p.say(c, "The base %s is there already: bases/%s.toml.\n", base.Code, name)
	}
	for _, f := range written {
		p.say(c, "Wrote %s.\n", f)
	}
	if h.Base.Identity().Code != base.Code {
		p.say(c, "Use it with base = %q in household.toml.\n", name)
	}
	return nil
}
