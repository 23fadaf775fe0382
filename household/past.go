package household

import (
	"encoding/json"
	"iter"
	"slices"

	"bowlwright/household/parallel"
	"bowlwright/nutrients"
)

// pastJSON is the part of a plan record that Past takes.
type pastJSON struct {
	Date     Date `json:"date"`
	Restored Date `json:"restored"`
	Pet      struct {
		Pet         string            `json:"pet"`
		Species     nutrients.Species `json:"species"`
		Stage       nutrients.Stage   `json:"stage"`
		Week        int               `json:"week"`
		Condition   int               `json:"condition"`
		WeightKg    float64           `json:"weight_kg"`
		WeightDate  Date              `json:"weight_date"`
		ScoredKg    float64           `json:"scored_kg"`
		ScoredOn    Date              `json:"scored_on"`
		StageSince  Date              `json:"stage_since"`
		SteadySince Date              `json:"steady_since"`
		PlannedKcal float64           `json:"planned_energy_kcal"`
		EnergyGiven bool              `json:"energy_given"`
		Status      Status            `json:"status"`
	} `json:"pet"`
}

// past reads what a record says of the animal, and nothing else of it.
func (r *Records) past(n recordName) (PastPlan, bool) {
	text, fault := r.read(n)
	if fault == nil {
		fault = r.checkFormat(n, text, PlanFormat)
	}
	var p pastJSON
	if fault != nil || json.Unmarshal(text, &p) != nil {
		return PastPlan{}, false
	}
	was := PastPlan{Date: p.Date, Species: p.Pet.Species, Stage: p.Pet.Stage, Week: p.Pet.Week, Condition: p.Pet.Condition,
		WeightKg: p.Pet.WeightKg, WeightDate: p.Pet.WeightDate, ScoredKg: p.Pet.ScoredKg, ScoredOn: p.Pet.ScoredOn,
		StageSince: p.Pet.StageSince, SteadySince: p.Pet.SteadySince, Given: p.Pet.EnergyGiven}
	if was.Date.Before(p.Restored) {
		was.Date = p.Restored
	}
	if p.Pet.Status.Printable() {
		was.Kcal = p.Pet.PlannedKcal
	}
	return was, true
}

// Past returns what the plans of a pet say of it, in the order in which they were made.
// Records that cannot be used are left out: `check` names them.
func (r *Records) Past(pet string) ([]PastPlan, error) {
	names, _, err := r.list()
	if err != nil {
		return nil, err
	}
	var past []PastPlan
	for was := range r.backwards(names, Slug(pet)) {
		past = append(past, was)
	}
	slices.Reverse(past)
	// A later plan is not followed before an earlier one, whatever the clock said.
	for i := 1; i < len(past); i++ {
		if past[i].Date.Before(past[i-1].Date) {
			past[i].Date = past[i-1].Date
		}
	}
	return past, nil
}

// backwards goes through the plans of a slug, newest first, and reads each when it is
// asked for.
func (r *Records) backwards(names []recordName, slug string) iter.Seq[PastPlan] {
	return func(yield func(PastPlan) bool) {
		for _, n := range slices.Backward(names) {
			if n.kind != kindPlan || n.slug != slug {
				continue
			}
			if was, ok := r.past(n); ok && !yield(was) {
				return
			}
		}
	}
}

// Recall lets each pet of a household recall its earlier plans.
func (r *Records) Recall(h *Household) error {
	names, _, err := r.list()
	if err != nil {
		return err
	}
	bySlug := map[string][]recordName{}
	for _, n := range names {
		if n.kind == kindPlan {
			bySlug[n.slug] = append(bySlug[n.slug], n)
		}
	}
	parallel.OnAllProcessors(len(h.Pets), func(i int) {
		slug := Slug(h.Pets[i].Name)
		h.Pets[i].Recall(r.backwards(bySlug[slug], slug))
	})
	return nil
}
