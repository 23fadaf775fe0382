package main

import (
	"fmt"

	"github.com/urfave/cli/v2"

	"bowlwright/household"
	"bowlwright/household/records"
)

func diffCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "diff", Usage: "what differs between two plans or two bases", ArgsUsage: "A [B]",
		Description: "A and B are records (see bowlwright history), pets, files of bases/ without the\nending, or base codes. Without B, a pet is compared with its plan\nbefore, anything else with what is in use.",
		Action: func(c *cli.Context) error {
			return diffOptions{a: c.Args().First(), b: c.Args().Get(1)}.run(p)
		},
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

// diffOptions are the two sides; the second may be left out.
type diffOptions struct {
	a, b string
}

func (o diffOptions) run(p *program) error {
	if o.a == "" {
		return badInput("diff takes two plans or two bases", "list the records with", "history")
	}
	if err := p.noMore(2); err != nil {
		return err
	}
	h, _, err := p.load()
	if err != nil {
		return err
	}
	a, err := sideOf(p, h, o.a)
	if err != nil {
		return err
	}
	var b compared
	if o.b != "" {
		b, err = sideOf(p, h, o.b)
	} else if _, isPet := h.Pet(o.a); isPet {
		b = a
		a, err = planBefore(p, h, b)
	} else {
		b, err = inUseFor(p, h, a)
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
	if p.json {
		return p.printJSON(out)
	}
	p.say("%s against %s:\n", out.A, out.B)
	fmt.Fprint(p.env.stdout, inPrint(indent(out.Differences)))
	return nil
}

// sideOf finds what a word of the command line names.
func sideOf(p *program, h *household.Household, word string) (compared, error) {
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
func planBefore(p *program, h *household.Household, now compared) (compared, error) {
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
func inUseFor(p *program, h *household.Household, a compared) (compared, error) {
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
