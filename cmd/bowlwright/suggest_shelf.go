package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize"
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

// proposeUsualShelf tries the usual supplements and a powder scale for a pet with a
// bare shelf, says how far they lead, and what to write.
func (p *program) proposeUsualShelf(ctx context.Context, req optimize.Request) error {
	w, pet := p.env.stdout, req.Pet
	full := *req.Household
	full.Addons = slices.Clone(full.Addons)
	var missing []string
	for _, id := range usualShelf {
		f, ok := full.Catalogue.Food(id)
		there := slices.ContainsFunc(full.Addons, func(a household.Addon) bool { return a.Food.ID == id })
		if ok && !there && !household.Avoids(pet, f) {
			missing = append(missing, id)
			full.Addons = append(full.Addons, household.Addon{Food: f})
		}
	}
	scale := ""
	if full.Kitchen.FineScaleG == 0 {
		full.Kitchen.FineScaleG = usualFineScale
		scale = fmt.Sprintf(" and a powder scale of %g g", usualFineScale)
	}
	req.Household = &full
	plan, err := optimize.Solve(ctx, req)
	if err != nil {
		return fmt.Errorf("%s: %w", pet.Name, err)
	}
	fmt.Fprintf(w, "The shelf of %s is nearly bare. With the usual supplements%s\n%s.\n\n", pet.Name, scale, reachedWith(plan))
	if scale != "" {
		fmt.Fprintf(w, "Below [kitchen] in household.toml:\n  fine_scale = \"%g g\"\n", usualFineScale)
	}
	fmt.Fprintf(w, "At its end; take out later what no plan uses:\n")
	for _, id := range missing {
		fmt.Fprintf(w, "  [[addon]]\n  food = %q\n", id)
	}
	io.WriteString(w, p.withFolder(fmt.Sprintf("\nWhat single foods would do: bowlwright suggest %s --all\n", quotedName(pet.Name))))
	if plan.Pet.Status != household.Met {
		return &notMetError{fmt.Sprintf("the usual supplements alone do not meet every target of %s", pet.Name),
			fmt.Sprintf("put them on the shelf, then ask again: bowlwright suggest %s", quotedName(pet.Name))}
	}
	return nil
}

func reachedWith(plan *household.Plan) string {
	pet := &plan.Pet
	if pet.Status == household.Met {
		return fmt.Sprintf("every target of %s is met, add-on %s g a day in all", pet.Pet, shortFigure(addonGrams(plan)))
	}
	var low []string
	for _, n := range pet.Nutrients {
		if n.State == household.StateLow || n.State == household.StateUnknown && n.Lower != nil {
			low = append(low, nutrients.InSentence(n.Name))
		}
	}
	for _, r := range pet.Ratios {
		if r.State != household.StateMet {
			low = append(low, "the right "+strings.ReplaceAll(r.ID, "-", " to "))
		}
	}
	if len(low) == 0 {
		return fmt.Sprintf("the plan of %s would still be %s", pet.Pet, pet.Status)
	}
	return fmt.Sprintf("%s would still lack: %s", pet.Pet, strings.Join(low, ", "))
}

// cautionsOf are what is known against the foods of a suggestion, for a species.
func cautionsOf(cat *nutrients.Catalogue, s optimize.Suggestion, sp nutrients.Species) []string {
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
func unlike(found []optimize.Suggestion) []optimize.Suggestion {
	seen := map[string]bool{}
	return slices.DeleteFunc(slices.Clone(found), func(s optimize.Suggestion) bool {
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
