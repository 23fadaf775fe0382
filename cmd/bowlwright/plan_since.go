package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
)

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
