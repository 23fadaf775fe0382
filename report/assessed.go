package report

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// Assessed is what an assessment shows, worked out once for every renderer.
type Assessed struct {
	Pet, About string
	// From says where the day comes from; Energy holds it against the need.
	From, Energy string
	Eats         []Item
	// Verdict is one sentence. Below, Above and Unknown name each nutrient with how far
	// it is off; Partly those that are known for too little of the food to judge.
	Verdict                       string
	Below, Above, Unknown, Partly []string
	Bars                          []Bar
	Ratios                        []string
	Cautions                      []string
}

// wellKnown is the share of the food from which on a nutrient counts as known
// (common practice).
const wellKnown = 0.8

// NewAssessed gathers what is shown of an assessment.
func NewAssessed(a *household.Assessment) *Assessed {
	pet := &a.Pet
	out := &Assessed{Pet: pet.Pet, About: About(pet, a.Made), Cautions: pet.Cautions}
	out.From = "What the household declares as eaten in a day, treats included."
	if !a.Declared {
		out.From = fmt.Sprintf("Nothing is declared as eaten, so this is the plan in use, made on %s.", a.Made)
	}
	out.Energy = energyText(a)
	for _, e := range a.Eats {
		out.Eats = append(out.Eats, Item{number.Short(e.G) + " g", e.Name, number.Short(e.Kcal) + " kcal"})
	}
	for _, n := range pet.Nutrients {
		out.Bars = append(out.Bars, NewBar(n))
		out.judge(n)
	}
	for _, r := range pet.Ratios {
		text := ratioText(r)
		out.Ratios = append(out.Ratios, text)
		switch r.State {
		case household.StateLow:
			out.Below = append(out.Below, text)
		case household.StateHigh:
			out.Above = append(out.Above, text)
		case household.StateUnknown:
			out.Unknown = append(out.Unknown, nutrients.RatioName(r.ID))
		}
	}
	out.Verdict = out.verdict(pet)
	return out
}

// judge puts a nutrient into the list where it belongs.
func (a *Assessed) judge(n household.NutrientLine) {
	amount, lower, upper := against(n.Amount, n.Lower, n.Upper, n.State)
	unit := UnitText(n.Unit)
	switch {
	case n.State == household.StateLow && n.Amount != nil && n.Coverage < wellKnown:
		a.Partly = append(a.Partly, fmt.Sprintf("%s: %s of %s %s, with figures for only %s of the food", n.Name, amount, lower, unit, number.Short(math.Floor(100*n.Coverage))+" %"))
	case n.State == household.StateLow && n.Amount != nil:
		a.Below = append(a.Below, fmt.Sprintf("%s: %s of %s %s, %s below minimum", n.Name, amount, lower, unit, missingShare(1 - *n.Amount / *n.Lower)))
	case n.State == household.StateHigh:
		high := n.Amount
		if n.High != nil {
			high = n.High
		}
		a.Above = append(a.Above, fmt.Sprintf("%s: up to %s %s where %s is the maximum", n.Name, number.Short(*high), unit, upper))
	case n.State == household.StateUnknown && n.Lower != nil:
		a.Unknown = append(a.Unknown, nutrients.InSentence(n.Name))
	}
}

func (a *Assessed) verdict(pet *household.PetPlan) string {
	var parts []string
	count := func(n int, what string) {
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, what))
		}
	}
	count(len(a.Below), "below minimum")
	count(len(a.Above), "above maximum")
	count(len(a.Partly), "below minimum as far as known")
	count(len(a.Unknown), "not known at all")
	all := len(pet.Nutrients) + len(pet.Ratios)
	if len(parts) == 0 {
		return fmt.Sprintf("All %d nutrients and ratios are inside their limits, as far as the figures are known.", all)
	}
	return fmt.Sprintf("Of %d nutrients and ratios: %s.", all, strings.Join(parts, ", "))
}

func energyText(a *household.Assessment) string {
	share := a.EnergyShare()
	if math.IsNaN(share) {
		return fmt.Sprintf("The energy of this food is not known; %s kcal a day are needed.", number.Short(a.Pet.EnergyKcal))
	}
	return fmt.Sprintf("%s kcal eaten, %s kcal needed: %.0f %%.", number.Short(a.Pet.PlannedKcal), number.Short(a.Pet.EnergyKcal), 100*share)
}
