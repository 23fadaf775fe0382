package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"bowlwright/cmd/bowlwright/internal/ask"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize"
	"bowlwright/optimize/advice"
)

// leastShelf is how many add-ons a pet's shelf must hold before single foods are
// looked for: on a barer one half a kilogram of spinach is the smallest addition.
const leastShelf = 5

// mostlyBare says whether hardly anything on the shelf is for the pet.
func mostlyBare(req optimize.Request) bool {
	items := 0
	for _, a := range req.Household.Addons {
		if len(a.Pets) == 0 || slices.Contains(a.Pets, req.Pet.Name) {
			items++
		}
	}
	return items < leastShelf
}

// usualFineScale is the step, in grams, of the powder scales that are sold for homes
// (common practice).
const usualFineScale = 0.01

// usualProposal is the usual supplements that a shelf lacks, and how far they lead.
type usualProposal struct {
	Foods []string `json:"foods"`
	// FineScaleG is the step of a powder scale to get, nil where there is one.
	FineScaleG *float64         `json:"fine_scale_g"`
	Status     household.Status `json:"status"`
	// AddonG is the add-on a day then, nil without a plan that may be fed.
	AddonG *float64 `json:"addon_g"`
	// Lacking are the ids of nutrients and ratios still missed; words are their names.
	Lacking []string `json:"lacking"`
	words   []string
}

// usualShelfFor tries the usual supplements and a powder scale for a pet.
func usualShelfFor(ctx context.Context, req optimize.Request) (*usualProposal, error) {
	full, out := *req.Household, &usualProposal{Foods: []string{}, Lacking: []string{}}
	full.Addons = slices.Clone(full.Addons)
	for _, id := range ask.UsualShelf {
		f, ok := full.Catalogue.Food(id)
		there := slices.ContainsFunc(full.Addons, func(a household.Addon) bool { return a.Food.ID == id })
		if ok && !there && !household.Avoids(req.Pet, f) {
			out.Foods = append(out.Foods, id)
			full.Addons = append(full.Addons, household.Addon{Food: f})
		}
	}
	if full.Kitchen.FineScaleG == 0 {
		step := usualFineScale
		full.Kitchen.FineScaleG, out.FineScaleG = step, &step
	}
	req.Household = &full
	plan, err := optimize.Solve(ctx, req)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", req.Pet.Name, err)
	}
	if out.Status = plan.Pet.Status; out.Status.Printable() {
		g := addonGrams(plan)
		out.AddonG = &g
	}
	if out.Status != household.Met {
		out.lacks(&plan.Pet)
	}
	return out, nil
}

// lacks notes what a plan misses.
func (u *usualProposal) lacks(pet *household.PetPlan) {
	for _, n := range pet.Nutrients {
		if n.State == household.StateLow || n.State == household.StateUnknown && n.Lower != nil {
			u.Lacking, u.words = append(u.Lacking, n.ID.String()), append(u.words, nutrients.InSentence(n.Name))
		}
	}
	for _, r := range pet.Ratios {
		if r.State != household.StateMet {
			u.Lacking, u.words = append(u.Lacking, r.ID), append(u.words, "the right "+strings.ReplaceAll(r.ID, "-", " to "))
		}
	}
}

// proposeUsualShelf says to a pet with a bare shelf how far the usual supplements
// lead, and what to write.
func proposeUsualShelf(p *program, ctx context.Context, req optimize.Request) error {
	usual, err := usualShelfFor(ctx, req)
	if err != nil {
		return err
	}
	w, pet := p.env.stdout, req.Pet.Name
	if p.json {
		if err := p.printJSON(suggestJSON{"bowlwright/suggest/1", pet, []advice.Suggestion{}, usual}); err != nil {
			return err
		}
	} else {
		scale := ""
		if usual.FineScaleG != nil {
			scale = fmt.Sprintf(" and a powder scale of %g g", *usual.FineScaleG)
		}
		fmt.Fprintf(w, "The shelf of %s is nearly bare. With the common supplements%s\n%s.\n\n", pet, scale, usual.reached(pet))
		if scale != "" {
			fmt.Fprintf(w, "Below [kitchen] in household.toml:\n  fine_scale = \"%g g\"\n", *usual.FineScaleG)
		}
		fmt.Fprintf(w, "At its end; later delete what no plan uses:\n")
		for _, id := range usual.Foods {
			fmt.Fprintf(w, "  [[addon]]\n  food = %q\n", id)
		}
		fmt.Fprintf(w, "\nWhat single foods would do: %s\n", p.command("suggest", pet, "--all"))
	}
	if usual.Status != household.Met {
		return unmet(fmt.Sprintf("the common supplements alone do not meet every target of %s", pet),
			"put them on the shelf, then ask again", "suggest", pet)
	}
	return nil
}

func (u *usualProposal) reached(pet string) string {
	switch {
	case u.Status == household.Met:
		return fmt.Sprintf("every target of %s is met, add-on %s g a day in all", pet, shortFigure(*u.AddonG))
	case len(u.words) == 0:
		return fmt.Sprintf("the plan of %s would still be %s", pet, u.Status)
	}
	return fmt.Sprintf("%s would still lack: %s", pet, strings.Join(u.words, ", "))
}

// cautionsOf are what is known against the foods of a suggestion, for a species.
func cautionsOf(cat *nutrients.Catalogue, s advice.Suggestion, sp nutrients.Species) []string {
	var all []string
	for _, a := range s.Additions {
		f, ok := cat.Food(a.Food)
		if !ok {
			continue
		}
		for _, h := range nutrients.Hazards(f, sp) {
			all = append(all, a.Name+": "+h.Text)
		}
	}
	return all
}

// unlike leaves out a suggestion that names the same foods as one before it, as two
// records of one food do.
func unlike(found []advice.Suggestion) []advice.Suggestion {
	seen := map[string]bool{}
	return slices.DeleteFunc(slices.Clone(found), func(s advice.Suggestion) bool {
		var names []string
		for _, a := range s.Additions {
			names = append(names, a.Name)
		}
		key := strings.Join(names, "\n")
		was := seen[key]
		seen[key] = true
		return was
	})
}
