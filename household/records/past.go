package records

import (
	"bytes"
	"encoding/json"
	"iter"
	"slices"

	"bowlwright/household"
	"bowlwright/household/parallel"
	"bowlwright/nutrients"
)

// pastJSON is the part of a plan record that Past takes.
type pastJSON struct {
	Date     household.Date `json:"date"`
	Restored household.Date `json:"restored"`
	Pet      struct {
		Pet         string            `json:"pet"`
		Species     nutrients.Species `json:"species"`
		Stage       nutrients.Stage   `json:"stage"`
		Week        int               `json:"week"`
		Condition   int               `json:"condition"`
		WeightKg    float64           `json:"weight_kg"`
		WeightDate  household.Date    `json:"weight_date"`
		ScoredKg    float64           `json:"scored_kg"`
		ScoredOn    household.Date    `json:"scored_on"`
		StageSince  household.Date    `json:"stage_since"`
		SteadySince household.Date    `json:"steady_since"`
		PlannedKcal float64           `json:"planned_energy_kcal"`
		EnergyGiven bool              `json:"energy_given"`
		Status      household.Status  `json:"status"`
	} `json:"pet"`
}

// ofTheAnimal cuts a record, as this program lays it out, down to its head and to what
// stands of the animal before the amounts: base, amounts and proof are nine tenths of it,
// and a thousand records are read for one run. A record laid out otherwise stays whole.
func ofTheAnimal(text []byte) []byte {
	base := bytes.Index(text, []byte("\n  \"base\": {"))
	pet := bytes.Index(text, []byte("\n  \"pet\": {"))
	if base < 0 || pet < base {
		return text
	}
	amounts := bytes.Index(text[pet:], []byte("\n    \"addons\": "))
	if amounts < 0 {
		return text
	}
	own := bytes.TrimSuffix(bytes.TrimSpace(text[pet:pet+amounts]), []byte(","))
	return slices.Concat(text[:base], own, []byte("}}"))
}

// past reads what a record says of the animal, and nothing else of it.
func (r *Folder) past(n recordName) (household.PastPlan, bool) {
	text, fault := r.read(n)
	if fault == nil {
		fault = r.checkFormat(n, text, household.PlanFormat)
	}
	var p pastJSON
	if fault != nil || json.Unmarshal(ofTheAnimal(text), &p) != nil && json.Unmarshal(text, &p) != nil {
		return household.PastPlan{}, false
	}
	was := household.PastPlan{Date: p.Date, Species: p.Pet.Species, Stage: p.Pet.Stage, Week: p.Pet.Week, Condition: p.Pet.Condition,
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

// Past returns what the plans of one pet say.
func (r *Folder) Past(pet string) ([]household.PastPlan, error) {
	names, _, err := r.list()
	if err != nil {
		return nil, err
	}
	return r.inOrder(names, household.Slug(pet)), nil
}

// inOrder returns what the plans of a slug say, in the order in which they were made.
// Records that cannot be used are left out: `check` names them.
func (r *Folder) inOrder(names []recordName, slug string) []household.PastPlan {
	past := slices.Collect(r.backwards(names, slug))
	slices.Reverse(past)
	// A later plan is not followed before an earlier one, whatever the clock said.
	for i := 1; i < len(past); i++ {
		if past[i].Date.Before(past[i-1].Date) {
			past[i].Date = past[i-1].Date
		}
	}
	return past
}

// backwards goes through the plans of a slug, newest first, and reads each when it is
// asked for.
func (r *Folder) backwards(names []recordName, slug string) iter.Seq[household.PastPlan] {
	return func(yield func(household.PastPlan) bool) {
		for _, n := range slices.Backward(names) {
			if n.kind != KindPlan || n.slug != slug {
				continue
			}
			if was, ok := r.past(n); ok && !yield(was) {
				return
			}
		}
	}
}

// Recall lets each pet of a household recall its earlier plans.
func (r *Folder) Recall(h *household.Household) error {
	return r.eachPet(h, func(p *household.Pet, names []recordName, slug string) { p.Recall(r.backwards(names, slug)) })
}

// Remember fills in what all plans of each pet say.
func (r *Folder) Remember(h *household.Household) error {
	return r.eachPet(h, func(p *household.Pet, names []recordName, slug string) { p.Past = r.inOrder(names, slug) })
}

// eachPet hands each pet the names of its plans, in order; several at once.
func (r *Folder) eachPet(h *household.Household, use func(p *household.Pet, names []recordName, slug string)) error {
	names, _, err := r.list()
	if err != nil {
		return err
	}
	bySlug := map[string][]recordName{}
	for _, n := range names {
		if n.kind == KindPlan {
			bySlug[n.slug] = append(bySlug[n.slug], n)
		}
	}
	parallel.OnAllProcessors(len(h.Pets), func(i int) {
		slug := household.Slug(h.Pets[i].Name)
		use(&h.Pets[i], bySlug[slug], slug)
	})
	return nil
}
