package household

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/nutrients"
)

// wellKnown is the share of the food whose figure must be known for a nutrient to count
// as well known (common practice).
const wellKnown = 0.8

// Unsure counts what decides a plan and was not checked.
type Unsure struct {
	// Binding counts the limits that set the size of the add-on. Recalled are those of
	// them that are quoted from memory, ThinlyKnown those of nutrients that are known for
	// less than 80 % of the food.
	Binding     int `json:"binding"`
	Recalled    int `json:"recalled"`
	ThinlyKnown int `json:"thinly_known"`
}

// UnsureOf counts the binding limits of a plan by the targets that it was made for.
func UnsureOf(pet *PetPlan, t nutrients.Targets) Unsure {
	var u Unsure
	for _, b := range pet.Binding {
		u.Binding++
		if recalled(b.Limit, t) {
			u.Recalled++
		}
		if knownFor(b.Limit, pet, t) < wellKnown {
			u.ThinlyKnown++
		}
	}
	return u
}

// recalled says whether a limit rests on a figure quoted from memory.
func recalled(id nutrients.LimitID, t nutrients.Targets) bool {
	if id.Kind == nutrients.OfRatio {
		return slices.ContainsFunc(t.Ratios, func(r nutrients.Ratio) bool { return r.Key == id.Name && r.Source.Recalled })
	}
	if id.Kind == nutrients.OfRisen && slices.ContainsFunc(t.Rises, func(r nutrients.Risen) bool { return r.Nutrient == id.Nutrient && r.Source.Recalled }) {
		return true
	}
	for _, l := range t.Limits {
		switch {
		case l.Nutrient != id.Nutrient || id.Kind == nutrients.OfDay:
		case id.Kind == nutrients.OfUnharmed:
			return l.NoHarmSource.Recalled
		case id.Kind == nutrients.OfNutrient && id.Side == nutrients.Maximum:
			return l.UpperSource.Recalled
		default: // what concentrates may bring goes by the minimum
			return l.LowerSource.Recalled
		}
	}
	return false
}

// knownFor is the share of the food for which the nutrients of a limit are known, the
// least of several; one for a limit that is no nutrient's.
func knownFor(id nutrients.LimitID, pet *PetPlan, t nutrients.Targets) float64 {
	if id.Kind == nutrients.OfDay {
		return 1
	}
	about := []nutrients.ID{id.Nutrient}
	if id.Kind == nutrients.OfRatio {
		about = nil
		for _, r := range t.Ratios {
			if r.Key == id.Name {
				about = slices.Concat(r.Numerator, r.Denominator)
			}
		}
	}
	known := 1.0
	for _, n := range pet.Nutrients {
		if slices.Contains(about, n.ID) {
			known = min(known, n.Coverage)
		}
	}
	return known
}

// Text says it in a sentence, nothing for a plan that no limit decides.
func (u Unsure) Text() string {
	if u.Binding == 0 {
		return ""
	}
	var parts []string
	if u.Recalled > 0 {
		parts = append(parts, fmt.Sprintf("%d quoted from memory", u.Recalled))
	}
	if u.ThinlyKnown > 0 {
		parts = append(parts, fmt.Sprintf("%d known for less than %.0f %% of the food", u.ThinlyKnown, 100*wellKnown))
	}
	if len(parts) == 0 {
		parts = []string{"none quoted from memory, and all are well known"}
	}
	limits := "limits that set"
	if u.Binding == 1 {
		limits = "limit that sets"
	}
	return fmt.Sprintf("How sure: %d %s the size of the add-on; %s.", u.Binding, limits, strings.Join(parts, ", "))
}
