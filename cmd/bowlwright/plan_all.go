package main

import (
	"fmt"

	"bowlwright/household"
	"bowlwright/household/records"
	"bowlwright/optimize"
)

// comparison says what is to be said of a plan against the one in use.
type comparison struct {
	// since is a few lines when something changed, full every difference.
	since, full bool
	// newJars asks for new jars even where those in use suit.
	newJars bool
}

// changes is what there is to say, each nothing when it was not asked for.
type changes struct{ since, full string }

// planned is what came of planning several pets, in their order.
type planned struct {
	plans   []*household.Plan
	changes []changes
	// findings are about the records of all pets, also beside an error.
	findings []household.Finding
	// with is the household with the jars that the plans take from, mixed what there is to
	// say of them.
	with  *household.Household
	mixed []*optimize.Mixed
}

// solveAll plans the pets, side by side. The plan in use of a pet is read just before
// its new one is made, compared with it at once and let go: a thousand of them in
// memory take half as much room as all else.
func solveAll(h *household.Household, pets []*household.Pet, today household.Date, want comparison) (planned, error) {
	made := planned{plans: make([]*household.Plan, len(pets)), changes: make([]changes, len(pets))}
	names, errs := make([]string, len(pets)), make([]error, len(pets))
	for i, pet := range pets {
		names[i] = pet.Name
	}
	ctx, cancel := limited(len(pets))
	defer cancel()
	checks := household.NewChecks(h, today)
	h, mixed, findings, err := withJars(ctx, h, pets, today, want.newJars)
	if err != nil {
		return planned{findings: findings}, err
	}
	made.with, made.mixed = h, mixed
	shared := optimize.Share(h)
	made.findings, err = records.Open(h.Dir).EachInUse(names, func(i int, inUse *records.PlanRecord) {
		req := optimize.Request{Household: h, Pet: pets[i], Today: today, Version: version, Shared: shared}
		if inUse != nil {
			req.Previous = inUse.Plan
		}
		if made.plans[i], errs[i] = optimize.Solve(ctx, req); errs[i] == nil {
			made.changes[i] = want.of(h, checks, pets[i], req.Previous, made.plans[i])
		}
	})
	made.findings = append(findings, made.findings...)
	if err != nil {
		return planned{}, err
	}
	for i, err := range errs {
		if err != nil {
			return planned{findings: made.findings}, fmt.Errorf("%s: %w", pets[i].Name, err)
		}
	}
	return made, nil
}

// of compares a plan with the one in use, nil for none.
func (want comparison) of(h *household.Household, checks *household.Checks, pet *household.Pet, old, plan *household.Plan) changes {
	var said changes
	if want.since && old != nil {
		said.since = since(h, old, plan, checks.Pet(pet, old))
	}
	switch {
	case want.full && old != nil:
		said.full = fmt.Sprintf("\nAgainst the plan of %s:\n%s", old.Date, inPrint(indent(records.DiffPlans(old, plan))))
	case want.full:
		said.full = fmt.Sprintf("\n%s has no plan in use to compare with.\n", plan.Pet.Pet)
	}
	return said
}
