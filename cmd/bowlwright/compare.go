package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/supplies"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
	"bowlwright/optimize"

	"github.com/urfave/cli/v2"
)

func compareCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "compare", Usage: "bases side by side for the same pets; nothing is recorded", ArgsUsage: "BASE BASE…",
		Description: "Plans every pet on each of the bases named, files of bases/ without their ending,\n" +
			"and shows what each pet would get, how many things are weighed out in four weeks,\n" +
			"what the day costs, and which limits are missed or near.",
		Action: func(c *cli.Context) error { return compareOptions{bases: c.Args().Slice()}.run(p) },
	}
}

// compareOptions name the bases.
type compareOptions struct{ bases []string }

type compareJSON struct {
	Format string        `json:"format"`
	Bases  []compareBase `json:"bases"`
	// Best names for each pet the base that serves it best, "" where none does.
	Best map[string]string `json:"best"`
}

type compareBase struct {
	Name string       `json:"name"`
	File string       `json:"file"`
	Code string       `json:"code"`
	Pets []comparePet `json:"pets"`
	// Unpriced names what has no price and counts as nothing.
	Unpriced []string `json:"unpriced"`
}

type comparePet struct {
	Pet       string           `json:"pet"`
	Status    household.Status `json:"status"`
	BaseG     float64          `json:"base_g"`
	AddonG    float64          `json:"addon_g"`
	Items     int              `json:"items"`
	Weighings float64          `json:"weighings"`
	// Cost of a day as far as prices are known, null where none is.
	Cost *float64 `json:"cost"`
	// Below and Near name nutrients under their minimum, and within nearLimit of their
	// maximum or over it.
	Below []string `json:"below"`
	Near  []string `json:"near"`
	Why   []string `json:"why,omitempty"`
}

// nearLimit is the share of a maximum from which on it counts as near.
const nearLimit = 0.95

func (o compareOptions) run(p *program) error {
	if len(o.bases) < 2 {
		return badInput("compare takes two bases or more", "name files of bases/ without their ending, for example", "compare", "turkey-heart-oats", "another-base")
	}
	h, today, err := p.load()
	if err != nil {
		return err
	}
	out := compareJSON{Format: "bowlwright/compare/1", Best: map[string]string{}}
	for i, name := range o.bases {
		name = strings.TrimSuffix(strings.TrimPrefix(name, "bases/"), ".toml")
		if slices.Contains(o.bases[:i], name) {
			return badInput(fmt.Sprintf("the base %q is named twice", name), "name each base once")
		}
		batch, ok := h.Batches[name]
		if !ok {
			return badInput(fmt.Sprintf("there is no base %q", name), diag.NearHint(name, baseFiles(h)))
		}
		row, err := compareOn(h, batch, today)
		if err != nil {
			return err
		}
		out.Bases = append(out.Bases, row)
	}
	for i := range h.Pets {
		out.Best[h.Pets[i].Name] = bestBase(out.Bases, i)
	}
	if p.json {
		return p.printJSON(out)
	}
	printComparison(p, h, out)
	return nil
}

func baseFiles(h *household.Household) []string {
	var names []string
	for name := range h.Batches {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// compareOn plans all pets as if another base were in use.
func compareOn(h *household.Household, base *household.Batch, today household.Date) (compareBase, error) {
	on := *h
	on.Base = base
	out := compareBase{Name: base.Name, File: base.File, Code: base.Identity().Code, Unpriced: []string{}}
	ctx, cancel := limited(len(h.Pets))
	defer cancel()
	shared := optimize.Share(&on)
	for i := range on.Pets {
		pet := &on.Pets[i]
		row := comparePet{Pet: pet.Name, Below: []string{}, Near: []string{}}
		if why := on.NotFor(pet); why != "" {
			row.Status, row.Why = household.Impossible, []string{why}
			out.Pets = append(out.Pets, row)
			continue
		}
		plan, err := optimize.Solve(ctx, optimize.Request{Household: &on, Pet: pet, Today: today, Version: version, Shared: shared})
		if err != nil {
			return out, fmt.Errorf("%s on %s: %w", pet.Name, base.File, err)
		}
		if err := row.fill(&on, plan, &out); err != nil {
			return out, err
		}
		out.Pets = append(out.Pets, row)
	}
	return out, nil
}

// fill takes over what is compared of a plan.
func (row *comparePet) fill(on *household.Household, plan *household.Plan, base *compareBase) error {
	row.Status, row.Why = plan.Pet.Status, plan.Pet.Conflict
	for _, n := range plan.Pet.Nutrients {
		most := n.Amount
		if n.High != nil {
			most = n.High
		}
		switch {
		case n.State == household.StateLow, n.State == household.StateUnknown && n.Lower != nil:
			row.Below = append(row.Below, nutrients.InSentence(n.Name))
		case n.Upper != nil && most != nil && *most >= nearLimit**n.Upper:
			row.Near = append(row.Near, nutrients.InSentence(n.Name))
		}
	}
	if !plan.Pet.Status.Printable() {
		return nil
	}
	row.BaseG, row.AddonG, row.Items, row.Weighings = plan.Pet.BaseG, addonGrams(plan), len(plan.Pet.Addons), supplies.Weighings(&plan.Pet)
	sound, err := household.Examine(plan)
	if err != nil {
		return err
	}
	pair, err := on.PairIn(sound)
	if err != nil {
		return err
	}
	cost := supplies.CostOf(pair)
	if total := cost.Total(); total > 0 {
		row.Cost = &total
	}
	for _, name := range cost.Unpriced {
		if !slices.Contains(base.Unpriced, name) {
			base.Unpriced = append(base.Unpriced, name)
		}
	}
	return nil
}

// statusRank orders plans from best to worst.
var statusRank = map[household.Status]int{household.Met: 0, household.Short: 1, household.Over: 2, household.Impossible: 2}

// bestBase is the base on which the pet of a place is met with the least add-on; a pet
// that no base meets has the one on which least is missed.
func bestBase(bases []compareBase, pet int) string {
	best := -1
	for i := range bases {
		if row := &bases[i].Pets[pet]; row.Status.Printable() && (best < 0 || row.better(&bases[best].Pets[pet])) {
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	return bases[best].File
}

func (row *comparePet) better(than *comparePet) bool {
	if a, b := statusRank[row.Status], statusRank[than.Status]; a != b {
		return a < b
	}
	if len(row.Below) != len(than.Below) {
		return len(row.Below) < len(than.Below)
	}
	return row.AddonG < than.AddonG
}

func printComparison(p *program, h *household.Household, out compareJSON) {
	w := p.env.stdout
	for _, b := range out.Bases {
		fmt.Fprintf(w, "%s  %s (%s)\n", b.Code, b.Name, b.File)
	}
	width := 0
	for _, b := range out.Bases {
		width = max(width, len(b.File))
	}
	for i := range h.Pets {
		fmt.Fprintf(w, "\n%s\n", h.Pets[i].Name)
		for _, b := range out.Bases {
			row := &b.Pets[i]
			fmt.Fprintf(w, "  %-*s  %s\n", width, b.File, row.words())
			for _, line := range row.remarks() {
				fmt.Fprintf(w, "  %-*s  %s\n", width, "", line)
			}
		}
		if best := out.Best[h.Pets[i].Name]; best != "" {
			fmt.Fprintf(w, "  best served by %s\n", best)
		} else {
			fmt.Fprintln(w, "  no safe plan on any of these")
		}
	}
	for _, b := range out.Bases {
		if known := slices.ContainsFunc(b.Pets, func(row comparePet) bool { return row.Cost != nil }); known && len(b.Unpriced) > 0 {
			fmt.Fprintf(w, "\n%s: no price for %s; the cost leaves them out.\n", b.File, diag.JoinSome(b.Unpriced))
		}
	}
	fmt.Fprintln(w, "\nNothing was recorded.")
}

// words are a base's line for one pet.
func (row *comparePet) words() string {
	if !row.Status.Printable() {
		return "no safe plan"
	}
	s := fmt.Sprintf("%s: base %s g, add-on %s g in %d items, %.0f weighings in 4 weeks", row.statusWords(), number.Short(row.BaseG), number.Short(row.AddonG), row.Items, math.Ceil(row.Weighings))
	if row.Cost != nil {
		s += fmt.Sprintf(", %.2f a day", *row.Cost)
	}
	return s
}

func (row *comparePet) statusWords() string {
	if row.Status == household.Met {
		return "met"
	}
	return "below minimum"
}

func (row *comparePet) remarks() []string {
	var lines []string
	if row.Status.Printable() && len(row.Below) > 0 {
		lines = append(lines, "below minimum: "+strings.Join(row.Below, ", "))
	}
	if row.Status.Printable() && len(row.Near) > 0 {
		lines = append(lines, "near or above maximum: "+strings.Join(row.Near, ", "))
	}
	return append(lines, row.Why...)
}
