package report

import (
	"fmt"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// DecidingTitle heads the limits that decide a plan.
const DecidingTitle = "What sets the size of the add-on"

// Deciding says in plain words which limits set the size of the add-on.
func Deciding(pet *household.PetPlan) []string {
	var lines []string
	for _, b := range pet.Binding {
		lines = append(lines, decides(pet, b.Limit))
	}
	return lines
}

// decides says in plain words how a limit sets the size of the add-on.
func decides(pet *household.PetPlan, limit nutrients.LimitID) string {
	for _, n := range pet.Nutrients {
		switch {
		case limit == nutrients.MinimumOf(n.ID) && n.Lower != nil && *n.Lower > 0:
			return fmt.Sprintf("%s: the base alone brings %.0f %% of what %s needs.", n.Name, 100*(n.From.Base+n.From.Extras) / *n.Lower, pet.Pet)
		case limit.Kind == nutrients.OfNutrient && limit.Side == nutrients.Maximum && limit.Nutrient == n.ID:
			return fmt.Sprintf("%s: it may not go above its maximum.", n.Name)
		}
	}
	return nutrients.Capital(limitWords(pet, limit)) + "."
}

// Slopes say what each deciding limit costs: how the add-on grows with it.
func Slopes(pet *household.PetPlan) []string {
	var lines []string
	for _, b := range pet.Binding {
		cost, per, ok := strings.Cut(b.Costs, " of add-on per ")
		costs := b.Costs
		if ok {
			costs = fmt.Sprintf("each further %s costs %s of add-on", strings.ReplaceAll(strings.TrimSuffix(UnitText(per), " of the ratio's limit"), " %", NoBreak+"%"), cost)
		}
		lines = append(lines, limitWords(pet, b.Limit)+": "+costs)
	}
	return lines
}

// limitWords says a limit of the program with its figure: "calcium (at least 191 mg)".
func limitWords(pet *household.PetPlan, limit nutrients.LimitID) string {
	figure := func(lower, upper *float64) (string, bool) {
		switch {
		case limit.Side == nutrients.Minimum && lower != nil:
			return "at least " + number.Short(*lower), true
		case limit.Side == nutrients.Maximum && upper != nil:
			return "at most " + number.Short(*upper), true
		}
		return "", false
	}
	for _, n := range pet.Nutrients {
		if words, ok := figure(n.Lower, n.Upper); ok && limit.Kind == nutrients.OfNutrient && n.ID == limit.Nutrient {
			return nutrients.InSentence(n.Name) + " (" + words + " " + UnitText(n.Unit) + ")"
		}
	}
	for _, r := range pet.Ratios {
		if words, ok := figure(r.Lower, r.Upper); ok && limit.Kind == nutrients.OfRatio && r.ID == limit.Name {
			return nutrients.RatioName(r.ID) + " (" + words + ")"
		}
	}
	name := nutrients.InSentence(limit.Nutrient.Info().Name)
	switch limit.Kind {
	case nutrients.OfConcentrates:
		return name + " (the most that concentrates may bring)"
	case nutrients.OfUnharmed:
		return name + " (the most that is known to do no harm)"
	case nutrients.OfRisen:
		return name + " (its minimum rises with another nutrient of the day)"
	}
	if limit == nutrients.EnergyOfAddons {
		return "the share of the energy that add-ons may bring"
	}
	return limit.String()
}
