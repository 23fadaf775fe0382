package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/records"
	"bowlwright/household/upkeep"
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
	// failed is the error of the first pet for which no plan was found, nil for none; the
	// others have theirs.
	failed error
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
	checks := upkeep.NewChecks(h, today)
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
	return made.without(pets, errs)
}

// without leaves out the pets for which no plan was found; it fails where that is all of
// them, or the time is up for everybody.
func (made planned) without(pets []*household.Pet, errs []error) (planned, error) {
	plans, said := made.plans[:0:0], made.changes[:0:0]
	for i, err := range errs {
		switch {
		case err == nil:
			plans, said = append(plans, made.plans[i]), append(said, made.changes[i])
		case made.failed == nil:
			made.failed = fmt.Errorf("%s: %w", pets[i].Name, err)
		}
	}
	made.plans, made.changes = plans, said
	if len(plans) == 0 && made.failed != nil {
		return planned{findings: made.findings}, made.failed
	}
	return made, nil
}

// of compares a plan with the one in use, nil for none.
func (want comparison) of(h *household.Household, checks *upkeep.Checks, pet *household.Pet, old, plan *household.Plan) changes {
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

// since says in a few lines what changed against the plan in use and why, nothing
// when nothing changed.
func since(h *household.Household, old, plan *household.Plan, found []household.Finding) string {
	why, moved := reasons(h, old, plan, found), amountsMoved(old, plan)
	if len(why) == 0 {
		if !moved {
			return ""
		}
		why = []string{"nothing that matters: weight, base, figures and shelf are the same"}
		if old.Version != plan.Version {
			why = []string{fmt.Sprintf("that plan was made by version %s of bowlwright, this one by %s", old.Version, plan.Version)}
		}
	}
	return fmt.Sprintf("\nSince the plan of %s\n%s  base %g g a day, now %g g; add-on %s g, now %s g\n", old.Date, indent(why),
		old.Pet.BaseG, plan.Pet.BaseG, shortFigure(addonGrams(old)), shortFigure(addonGrams(plan)))
}

// reasons are why a plan is not that in use any more: the weight, the base, the
// figures, the shelf, and what else was declared, by what the check of the plans in
// use found.
func reasons(h *household.Household, old, plan *household.Plan, found []household.Finding) []string {
	was, now := old.Pet, plan.Pet
	var why []string
	told := map[string]bool{}
	for _, f := range found {
		told[f.Code] = true
		switch {
		case f.Code == "other-base":
			for _, d := range household.DiffBases(old.Base, plan.Base) {
				why = append(why, "the base: "+d)
			}
		case f.Code == "shelf-changed":
			why = append(why, shelfReasons(h, was, now)...)
		case f.Severity == household.Stale && f.Code != "weigh-in-overdue" && f.Code != "plan-old":
			why = append(why, f.Message)
		}
	}
	// What is too little to make a plan stale is still what moved the amounts.
	switch {
	case told["weight-moved"] || told["energy-changed"]:
	case was.WeightKg != now.WeightKg:
		why = append(why, fmt.Sprintf("the weight was %.4g kg in the plan, now it is %.4g kg", was.WeightKg, now.WeightKg))
	case math.Round(was.EnergyKcal) != math.Round(now.EnergyKcal):
		why = append(why, fmt.Sprintf("the energy was %.0f kcal in the plan, now it is %.0f kcal", was.EnergyKcal, now.EnergyKcal))
	}
	return why
}

// shelfReasons names what is no longer on the shelf, what is used for the first
// time, and other scales.
func shelfReasons(h *household.Household, was, now household.PetPlan) []string {
	var gone, fresh, why []string
	for _, a := range was.Addons {
		if !slices.ContainsFunc(h.Addons, func(s household.Addon) bool { return s.Food.ID == a.Food }) {
			gone = append(gone, a.Name)
		}
	}
	for _, a := range now.Addons {
		if !slices.ContainsFunc(was.Addons, func(b household.AddonAmount) bool { return b.Food == a.Food }) {
			fresh = append(fresh, a.Name)
		}
	}
	if len(gone) > 0 {
		why = append(why, "no longer on the shelf: "+strings.Join(gone, "; "))
	}
	if was.Scales != now.Scales {
		why = append(why, fmt.Sprintf("other scales: steps of %g g and %g g, now %g g and %g g", was.Scales.ScaleG, was.Scales.FineScaleG, now.Scales.ScaleG, now.Scales.FineScaleG))
	}
	if len(why) == 0 {
		why = []string{"the shelf changed: which add-ons, their figures, limits or prices, or the preference"}
	}
	if len(fresh) > 0 {
		why = append(why, "used now and not before: "+strings.Join(fresh, "; "))
	}
	return why
}

// amountsMoved says whether anything is to be weighed differently.
func amountsMoved(was, now *household.Plan) bool {
	if was.Pet.BaseG != now.Pet.BaseG || was.Pet.Status != now.Pet.Status || len(was.Pet.Addons) != len(now.Pet.Addons) {
		return true
	}
	for i, a := range now.Pet.Addons {
		if b := was.Pet.Addons[i]; a.Food != b.Food || a.G != b.G {
			return true
		}
	}
	return false
}
