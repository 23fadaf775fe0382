package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/household/records"
	"bowlwright/household/upkeep"
	"bowlwright/nutrients"
	"bowlwright/optimize"
)

const (
	// mostOffered is for how many pets `plan` works out what one jar would save.
	mostOffered = 12
	// mostProved is for how many pets the bound of a jar is searched for, boundBoxes how
	// long, in boxes of the search.
	mostProved, boundBoxes = 8, 8
)

// currentJars are the jars in use: the mixed one in hand as long as some is left, else the
// one that was planned last, as long as it is still what household.toml asks for.
func currentJars(h *household.Household, inUse map[string]records.PlanRecord, today household.Date) []household.Jar {
	var plans []*household.Plan
	for _, r := range inUse {
		plans = append(plans, r.Plan)
	}
	var all []household.Jar
	for _, spec := range h.Jars {
		names := map[string]bool{}
		for _, m := range h.InHand {
			perDay := upkeep.TakenPerDay(plans, m.Jar.Digest)
			if m.Jar.Of == spec.Name && !m.LastsUntil(perDay).Before(today) {
				names[m.Jar.Name] = true
				all = append(all, m.Jar)
			}
		}
		for _, j := range plannedJars(h, spec, inUse) {
			if !names[j.Name] {
				all = append(all, j)
			}
		}
	}
	return all
}

// plannedJars are the jars of the newest plans of a spec, one of each name, that could
// still be mixed: from powders on the shelf, by the scale and for the days asked for.
func plannedJars(h *household.Household, spec household.JarSpec, inUse map[string]records.PlanRecord) []household.Jar {
	newest := map[string]records.PlanRecord{}
	for _, name := range spec.Pets {
		if r, ok := inUse[name]; ok && r.Plan.Pet.Jar != nil && r.Plan.Pet.Jar.Mix.Of == spec.Name {
			j := r.Plan.Pet.Jar.Mix.Name
			if old, there := newest[j]; !there || r.Seq > old.Seq {
				newest[j] = r
			}
		}
	}
	var all []household.Jar
	for _, r := range newest {
		j := r.Plan.Pet.Jar.Mix
		fits := j.StepG == optimize.StepOf(h, spec) && j.Days%spec.Days == 0 && (j.ScoopG == 0 || j.ScoopG == spec.ScoopG) && (j.RateG > 0) == spec.PerBase
		for _, p := range j.Parts {
			fits = fits && slices.ContainsFunc(h.Addons, func(a household.Addon) bool { return a.Food.ID == p.Food })
		}
		if fits {
			all = append(all, j)
		}
	}
	slices.SortFunc(all, func(a, b household.Jar) int { return strings.Compare(a.Name, b.Name) })
	return all
}

// withJars works out the jars of the pets to be planned and returns the household with
// them on its shelf.
func withJars(ctx context.Context, h *household.Household, pets []*household.Pet, today household.Date, anew bool) (*household.Household, []*optimize.Mixed, []household.Finding, error) {
	if len(h.Jars) == 0 {
		return h, nil, nil, nil
	}
	inUse, findings, err := records.Open(h.Dir).InUse()
	if err != nil {
		return nil, nil, findings, err
	}
	current := currentJars(h, inUse, today)
	var jars []household.Jar
	var all []*optimize.Mixed
	for _, spec := range h.Jars {
		asked := 0
		for _, pet := range pets {
			if spec.Serves(pet.Name) {
				asked++
			}
		}
		if asked == 0 {
			continue
		}
		one := *h
		one.Jars = []household.JarSpec{spec}
		req := optimize.MixRequest{Household: &one, Today: today, Version: version, Current: current, Keep: asked < len(spec.Pets)}
		if anew {
			req.Current = nil
		}
		mixed, err := optimize.Mixes(ctx, req)
		if err != nil {
			return nil, nil, findings, err
		}
		all = append(all, mixed...)
		for _, m := range mixed {
			jars = append(jars, m.Jars...)
		}
	}
	with, unusable := h.WithJars(jars)
	for _, why := range unusable {
		findings = append(findings, household.Finding{Code: "jar-unknown", Severity: household.Problem, Message: why, Hint: diag.Command("", "plan")})
	}
	return with, all, findings, nil
}

// tellJars says of each jar what it is, whether it is mixed, and what it saves and costs.
func (p *program) tellJars(h *household.Household, mixed []*optimize.Mixed) string {
	var b strings.Builder
	for _, m := range mixed {
		for _, note := range m.Notes {
			fmt.Fprintf(&b, "\n%s\n", note)
		}
		if m.Why != "" {
			fmt.Fprintf(&b, "\nThe %s in use is not kept: %s.\n", m.Spec.Name, m.Why)
		}
		for i := range m.Jars {
			fmt.Fprintf(&b, "\n%s\n", p.jarLine(h, &m.Jars[i]))
		}
		for _, j := range m.Jars {
			if j.RateG > 0 {
				fmt.Fprintf(&b, "Into every bowl: %s g to 100 g of base.\n", quantity.Text(j.RateG))
			}
		}
		if len(m.Jars) > 0 {
			fmt.Fprintf(&b, "%s\n", costLine(m))
		}
	}
	return b.String()
}

// jarLine says what a jar is and what to do with it.
func (p *program) jarLine(h *household.Household, j *household.Jar) string {
	line := fmt.Sprintf("%s %s for %s: ", nutrients.Capital(j.Name), j.Code, listed(j.Pets))
	for _, m := range h.InHand {
		if m.Jar.Name == j.Name && m.Jar.Digest == j.Digest {
			return line + fmt.Sprintf("in hand, mixed on %s, good until %s.", m.Date, m.UseBy)
		}
	}
	return line + fmt.Sprintf("%s g for %d days, not mixed yet.\nPrint the mixing sheet with: %s", quantity.Text(j.MakesG), j.Days, p.command("mix", j.Name))
}

// listed writes names as a sentence has them.
func listed(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// costLine says what the jars of a spec save in weighing and cost in grams.
func costLine(m *optimize.Mixed) string {
	line := fmt.Sprintf("%d powders to weigh out in place of %d; add-ons %s g a day in all, with premixes of their own %s g (%+.0f %%)",
		m.WeighingsTogether, m.WeighingsAlone, quantity.Text(round2(m.Together)), quantity.Text(round2(m.Alone)), 100*(m.Together/m.Alone-1))
	boxes := 0
	if len(m.Spec.Pets) <= mostProved {
		boxes = boundBoxes
	}
	if over := m.Together/m.Bound(boxes) - 1; m.New && over > 0 {
		line += fmt.Sprintf(";\nat most %.0f %% over the least that any shared jar could need", math.Ceil(100*over))
	}
	return line + "."
}

func round2(g float64) float64 { return math.Round(100*g) / 100 }

// offerJar says in two lines what one jar for everybody would save and cost, where there
// is none yet; nothing where it cannot be had.
func (p *program) offerJar(ctx context.Context, h *household.Household, plans []*household.Plan) string {
	if len(h.Jars) > 0 || len(h.Pets) < 2 || len(plans) < len(h.Pets) || h.Kitchen.FineScaleG <= 0 {
		return ""
	}
	if len(h.Pets) > mostOffered {
		return fmt.Sprintf("\nPets can share one premix, a jar, with a dose for each: add [[jar]] to household.toml, plan, and see %s.\n", p.command("mix"))
	}
	offer, err := optimize.OfferJar(ctx, h, plans)
	if err != nil || offer == nil {
		return ""
	}
	return fmt.Sprintf("\nOne jar for everybody would be about %d powders to weigh out in place of %d, for about %s g (%.0f %%) more add-on a day.\nTo have one, write at the end of household.toml: [[jar]] and below it name = \"house jar\"\n",
		offer.Weighings, offer.WeighingsAlone, quantity.Text(round2(offer.MoreG)), 100*offer.More)
}

// explainJarRefusals tells of each pair of jars once, with all the pets it concerns, and
// returns the causes that are about something else.
func (p *program) explainJarRefusals(w io.Writer, causes []error) []error {
	type pair struct{ plan, inHand string }
	var order []pair
	var others []error
	pets, sample := map[pair][]string{}, map[pair]*household.JarMixUpError{}
	for _, cause := range causes {
		var m *household.JarMixUpError
		if !errors.As(cause, &m) {
			others = append(others, cause)
			continue
		}
		key := pair{m.Plan, m.InHand}
		if sample[key] == nil {
			order = append(order, key)
			sample[key] = m
		}
		if m.Pet != "" {
			pets[key] = append(pets[key], m.Pet)
		}
	}
	for _, key := range order {
		m := sample[key]
		if m.InHand == "" {
			fmt.Fprintf(w, "error: refused: %s\n", m.Reason)
		} else {
			fmt.Fprintf(w, "error: refused: dose and jar do not belong together\n  doses of %s: made for the jar %s (%s)\n  in hand: %s\n  - %s\n",
				someOf(pets[key]), m.Plan, m.Name, m.InHand, m.Reason)
		}
		for _, way := range m.Ways {
			fmt.Fprintf(w, "hint: %s\n", p.hint(way))
		}
	}
	return others
}
