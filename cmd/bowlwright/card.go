package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/records"
	"bowlwright/nutrients"
	"bowlwright/report"
	"bowlwright/report/paper"
	"bowlwright/report/text"

	"github.com/urfave/cli/v2"
)

func (p *program) cardCommand() *cli.Command {
	return &cli.Command{
		Name: "card", Usage: "print the daily card of each pet", ArgsUsage: "[PET…]",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "format", Value: "pdf", Usage: "`LIST` of pdf, html, text and vet (every figure, for a veterinarian), with commas"},
			&cli.StringFlag{Name: "paper", Value: "a4", Usage: "a4 or letter"},
			&cli.BoolFlag{Name: "two-up", Usage: "half the size, two cards to a sheet"},
			&cli.BoolFlag{Name: "large", Usage: "large print, on several pages"},
			&cli.BoolFlag{Name: "full", Usage: "list all nutrients in a text"},
			&cli.BoolFlag{Name: "comma", Usage: "write numbers with a decimal comma"},
			&cli.StringFlag{Name: "out", Usage: "folder `DIR` for the files (default: cards in the household)"},
		},
		Action: p.card,
	}
}

func knownPaper(paper string) error {
	if paper != "a4" && paper != "letter" {
		return badInput(fmt.Sprintf("--paper %q is not known", paper), "type --paper a4 or --paper letter")
	}
	return nil
}

func (p *program) card(c *cli.Context) error {
	formats, size := strings.Split(c.String("format"), ","), c.String("paper")
	for _, f := range formats {
		if !slices.Contains([]string{"pdf", "html", "text", "vet"}, f) {
			return badInput(fmt.Sprintf("--format %q is not known", f), "type --format pdf, html, text or vet, or several: --format pdf,html")
		}
	}
	if err := knownPaper(size); err != nil {
		return err
	}
	h, today, err := p.load(c)
	if err != nil {
		return err
	}
	pets, err := petsNamed(h, c.Args().Slice())
	if err != nil {
		return err
	}
	pairs, inUse, err := p.pairsInUse(h, pets)
	if err != nil {
		return err
	}
	setting := report.Setting{Day: today, Weights: h.Weights, Notices: p.notices(h, inUse, today)}
	if !c.Bool("quiet") {
		p.warnStale(h, inUse, pets, today)
	}
	if pairs, err = p.forLatestPot(h, pairs); err != nil {
		return err
	}
	out := c.String("out")
	if slices.Equal(formats, []string{"text"}) && out == "" && !c.Bool("json") {
		for i, pair := range pairs {
			if i > 0 {
				fmt.Fprintln(p.env.stdout)
			}
			options := p.textOptions(c)
			options.DecimalComma, options.Full, options.Setting = c.Bool("comma"), c.Bool("full"), setting
			if err := text.Card(p.env.stdout, pair, options); err != nil {
				return err
			}
		}
		return nil
	}
	if out == "" {
		out = filepath.Join(h.Dir, "cards")
	} else if !filepath.IsAbs(out) {
		out = filepath.Join(p.env.workDir, out)
	}
	files, err := cardFiles(pairs, formats, paper.Options{Paper: size, TwoUp: c.Bool("two-up"), Large: c.Bool("large"), DecimalComma: c.Bool("comma"), Setting: setting})
	if err != nil {
		return err
	}
	if err := writeFiles(out, files); err != nil {
		return err
	}
	p.noteLostCharacters(c, formats, h, pairs)
	if c.Bool("json") {
		names := []string{}
		for _, f := range files {
			names = append(names, filepath.Join(out, f.name))
		}
		return p.printJSON(map[string]any{"format": "bowlwright/card/1", "files": names})
	}
	for _, f := range files {
		p.say(c, "%s\n", p.shortPath(filepath.Join(out, f.name)))
	}
	return nil
}

// printable refuses plans without amounts before anything is written, and names the
// pets whose cards can be printed.
func printable(pairs []household.Paired) error {
	var others []string
	var first *household.NotPrintableError
	for _, pair := range pairs {
		pet := &pair.Plan().Pet
		switch {
		case pet.Status.Printable():
			others = append(others, pet.Pet)
		case first == nil:
			first = &household.NotPrintableError{Pet: pet.Pet, Status: pet.Status, Why: pet.Conflict}
		}
	}
	if first == nil {
		return nil
	}
	hints := []diag.Hint{first.Hint()}
	if len(others) > 0 {
		hints = append(hints, diag.Command("print the others with", append([]string{"card"}, others...)...))
	}
	return &noAmountsError{first, hints}
}

// pairsInUse puts the newest plan of each pet together with the base in use. All
// refusals are gathered, and nothing is printed when there is one. The plans in use
// are those of all pets, read once.
func (p *program) pairsInUse(h *household.Household, pets []*household.Pet) ([]household.Paired, map[string]records.PlanRecord, error) {
	inUse, findings, err := records.Open(h.Dir).InUse()
	if err != nil {
		return nil, nil, err
	}
	p.showFindings(findings)
	var pairs []household.Paired
	var refused []error
	for _, pet := range pets {
		record, ok := inUse[pet.Name]
		if !ok {
			return nil, nil, noPlan(pet.Name)
		}
		pair, err := h.PairIn(record.Plan)
		if err != nil {
			refused = append(refused, err)
			continue
		}
		pairs = append(pairs, pair)
	}
	if len(refused) > 0 {
		return nil, nil, &refusedError{refused}
	}
	return pairs, inUse, printable(pairs)
}

// notices gather for each pet why its plan is out of date, for the top of its card.
func (p *program) notices(h *household.Household, inUse map[string]records.PlanRecord, today household.Date) map[string][]report.Notice {
	all := map[string][]report.Notice{}
	for _, f := range household.Check(h, records.PlansOf(inUse), today) {
		if f.Severity != household.Stale || f.Pet == "" {
			continue
		}
		reason := nutrients.Capital(f.Message) + "."
		if list := all[f.Pet]; len(list) > 0 {
			list[0].Reasons = append(list[0].Reasons, reason)
			continue
		}
		all[f.Pet] = []report.Notice{{Title: report.OutOfDateTitle, Reasons: []string{reason}, Void: true,
			Advice: "To update the plan, run:", Command: p.command("plan", f.Pet)}}
	}
	return all
}

// warnStale says on the error output what `check` would say of these pets.
func (p *program) warnStale(h *household.Household, inUse map[string]records.PlanRecord, pets []*household.Pet, today household.Date) {
	for _, f := range household.Check(h, records.PlansOf(inUse), today) {
		if f.Severity == household.Stale && slices.ContainsFunc(pets, func(pet *household.Pet) bool { return pet.Name == f.Pet }) {
			fmt.Fprintf(p.env.stderr, "note: %s: %s\n", f.Pet, f.Message)
		}
	}
}

// shortPath shows a path relative to where the user stands when that is shorter.
func (p *program) shortPath(path string) string {
	if rel, err := filepath.Rel(p.env.workDir, path); err == nil && len(rel) < len(path) {
		return rel
	}
	return path
}
