package main

import (
	"fmt"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/records"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
	"bowlwright/optimize"

	"github.com/urfave/cli/v2"
)

func explainCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "explain", Usage: "where each nutrient comes from, which limits decide, what prevents more", ArgsUsage: "PET [NUTRIENT]",
		Action: func(c *cli.Context) error {
			return explainOptions{pet: c.Args().First(), nutrient: c.Args().Get(1)}.run(p)
		},
	}
}

type explainJSON struct {
	Format string `json:"format"`
	Pet    string `json:"pet"`
	*optimize.Explanation
}

// petAsked loads the household and finds the pet that a command is about. The
// command takes no more than most arguments.
func petAsked(p *program, name, example string, most int) (*household.Household, *household.Pet, household.Date, error) {
	var none household.Date
	if name == "" {
		return nil, nil, none, badInput(p.commandName+" takes the name of a pet", "for example", strings.Fields(example)...)
	}
	if err := p.noMore(most); err != nil {
		return nil, nil, none, err
	}
	h, today, err := p.load()
	if err != nil {
		return nil, nil, none, err
	}
	pet, err := petNamed(h, name)
	return h, pet, today, err
}

// petRequest is what the computation of the pet asked for needs, with the plan in
// use.
func petRequest(p *program, name, example string, most int) (optimize.Request, error) {
	h, pet, today, err := petAsked(p, name, example, most)
	if err != nil {
		return optimize.Request{}, err
	}
	req := optimize.Request{Household: h, Pet: pet, Today: today, Version: version}
	inUse, _, err := records.Open(h.Dir).InUse()
	if old, ok := inUse[pet.Name]; ok {
		req.Previous = old.Plan
	}
	return req, err
}

// explainOptions are what `explain` takes.
type explainOptions struct {
	pet string
	// nutrient is the one that is told of in full, empty for all of them in short.
	nutrient string
}

func (o explainOptions) run(p *program) error {
	req, err := petRequest(p, o.pet, "explain Pip calcium", 2)
	if err != nil {
		return err
	}
	pet := req.Pet
	ctx, cancel := limited(1)
	defer cancel()
	with, mixed, findings, err := withJars(ctx, req.Household, []*household.Pet{pet}, req.Today, false)
	p.showFindings(findings)
	if err != nil {
		return err
	}
	req.Household = with
	e, err := optimize.Explain(ctx, req)
	if err != nil {
		return fmt.Errorf("%s: %w", pet.Name, err)
	}
	if o.nutrient != "" {
		if err := only(e, o.nutrient); err != nil {
			return err
		}
	}
	if p.json {
		return p.printJSON(explainJSON{"bowlwright/explain/1", pet.Name, e})
	}
	printExplanation(p, e, o.nutrient != "")
	if o.nutrient == "" {
		fmt.Fprint(p.env.stdout, p.tellJars(req.Household, mixed))
	}
	return nil
}

// only keeps what is about one nutrient.
func only(e *optimize.Explanation, word string) error {
	var known []string
	for _, s := range e.Sources {
		known = append(known, s.ID.String())
		if strings.EqualFold(word, s.ID.String()) || strings.EqualFold(word, s.Name) {
			about := func(limit nutrients.LimitID) bool {
				mineral := s.ID == nutrients.Calcium || s.ID == nutrients.Phosphorus
				return limit.IsOf(s.ID) || mineral && limit.Name == "calcium-phosphorus"
			}
			e.Sources = []optimize.NutrientSources{s}
			e.Limits = keep(e.Limits, func(l optimize.LimitPrice) bool { return about(l.Limit) })
			e.Relaxation = keep(e.Relaxation, func(r optimize.Relaxation) bool { return about(r.Limit) })
			return nil
		}
	}
	hint := "its standard knows: " + strings.Join(known, ", ")
	if near, ok := diag.Nearest(word, known); ok {
		hint = "did you mean " + near + "?"
	}
	if _, ok := nutrients.ParseID(word); ok {
		return badInput(fmt.Sprintf("the standard of %s sets no limit for %s", e.Plan.Pet.Pet, word), hint)
	}
	return badInput(fmt.Sprintf("no nutrient is named %q", word), hint)
}

func keep[T any](list []T, want func(T) bool) []T {
	var kept []T
	for _, x := range list {
		if want(x) {
			kept = append(kept, x)
		}
	}
	return kept
}

// partsShown is how many foods are named for each nutrient in the overview, and
// leastShare what a food must bring to be named.
const (
	partsShown = 3
	leastShare = 0.05
)

func printExplanation(p *program, e *optimize.Explanation, full bool) {
	w, pet := p.env.stdout, &e.Plan.Pet
	fmt.Fprintf(w, "%s: %s\n", pet.Pet, pet.Status)
	if len(e.Words) > 0 {
		fmt.Fprintf(w, "\nWhat prevents meeting every target\n%s", inPrint(indent(e.Words)))
	}
	if len(e.Relaxation) > 0 {
		fmt.Fprintf(w, "\nThe smallest unavoidable shortfall\n")
		for _, r := range e.Relaxation {
			fmt.Fprintf(w, "  %s\n", inPrint(r.Words))
		}
	}
	if len(e.Limits) > 0 {
		fmt.Fprintf(w, "\nWhat decides\n")
		for _, l := range e.Limits {
			fmt.Fprintf(w, "  %s\n", inPrint(l.Words))
		}
	}
	if !pet.Status.Printable() {
		return
	}
	if full {
		printParts(p, e)
		return
	}
	fmt.Fprintf(w, "\nWhere it comes from\n")
	for _, s := range e.Sources {
		var parts []string
		for i, part := range s.Parts {
			if i < partsShown && part.Known && part.Share >= leastShare {
				parts = append(parts, fmt.Sprintf("%s %.0f %%", partName(part.Name, part.As), 100*part.Share))
			}
		}
		if len(parts) == 0 {
			parts = []string{"nothing that is known"}
		}
		fmt.Fprintf(w, "  %-26s %s\n", s.Name, strings.Join(parts, ", "))
	}
	if notes := e.Plan.Base.CookingNotes; len(notes) > 0 {
		fmt.Fprintf(w, "\nWhat remains in the base after cooking, in per cent, with the range\n%s", indent(notes))
	}
	fmt.Fprintf(w, "\nOne nutrient in full: %s\n", p.command("explain", pet.Pet, "calcium"))
}

// printParts shows every food that brings a nutrient, and the limits.
func printParts(p *program, e *optimize.Explanation) {
	w, s := p.env.stdout, e.Sources[0]
	fmt.Fprintf(w, "\n%s comes from\n", s.Name)
	var none, unknown []string
	for _, part := range s.Parts {
		name := partName(part.Name, part.As)
		switch {
		case !part.Known:
			unknown = append(unknown, name)
		case part.Amount == 0:
			none = append(none, name)
		default:
			fmt.Fprintf(w, "  %-14s %4.0f %%   %s, %s g\n", shortFigure(part.Amount)+" "+shownUnit(s.Unit), 100*part.Share, name, shortFigure(part.G))
		}
	}
	if len(none) > 0 {
		fmt.Fprintf(w, "None in: %s\n", strings.Join(none, "; "))
	}
	if len(unknown) > 0 {
		fmt.Fprintf(w, "Unknown in: %s\n", strings.Join(unknown, "; "))
	}
	for _, l := range e.Plan.Pet.Nutrients {
		if l.ID == s.ID {
			fmt.Fprintf(w, "Limits: %s\n", span(l.Lower, l.Upper, l.Unit))
		}
	}
	for _, o := range e.Plan.Pet.OwnLimits {
		if o.Nutrient == s.ID {
			fmt.Fprintln(w, inPrint(o.Text))
		}
	}
	fmt.Fprintf(w, "The arithmetic of the limits: %s\n", p.command("targets", e.Plan.Pet.Pet))
}

// partName says what a part is: the base by that word.
func partName(name, as string) string {
	if as == "base" {
		return "the base"
	}
	return name
}

// shortFigure writes an amount with three digits and no exponent.
func shortFigure(x float64) string { return number.Short(x) }
