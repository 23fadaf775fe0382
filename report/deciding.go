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
		id, side, _ := strings.Cut(b.Limit, " ")
		said := false
		for _, n := range pet.Nutrients {
			if n.ID.String() != id {
				continue
			}
			switch {
			case side == "lower" && n.Lower != nil && *n.Lower > 0:
				lines = append(lines, fmt.Sprintf("%s: the base alone brings %.0f %% of what %s needs.", n.Name, 100*(n.From.Base+n.From.Extras) / *n.Lower, pet.Pet))
				said = true
			case side == "upper" && n.Upper != nil:
				lines = append(lines, fmt.Sprintf("%s: it may not go above its maximum.", n.Name))
				said = true
			}
		}
		if !said {
			lines = append(lines, nutrients.Capital(limitWords(pet, b.Limit))+".")
		}
	}
	return lines
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

// limitWords says a limit of the program, "calcium lower", with its figure: "calcium (at
// least 191 mg)".
func limitWords(pet *household.PetPlan, limit string) string {
	id, side, _ := strings.Cut(limit, " ")
	figure := func(lower, upper *float64) (string, bool) {
		switch {
		case side == "lower" && lower != nil:
			return "at least " + number.Short(*lower), true
		case side == "upper" && upper != nil:
			return "at most " + number.Short(*upper), true
		}
		return "", false
	}
	for _, n := range pet.Nutrients {
		if words, ok := figure(n.Lower, n.Upper); ok && n.ID.String() == id {
			return nutrients.InSentence(n.Name) + " (" + words + " " + UnitText(n.Unit) + ")"
		}
	}
	for _, r := range pet.Ratios {
		if words, ok := figure(r.Lower, r.Upper); ok && r.ID == id {
			return nutrients.RatioName(r.ID) + " (" + words + ")"
		}
	}
	return limit
}
