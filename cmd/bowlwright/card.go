package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/records"
	"bowlwright/report/paper"
	"bowlwright/report/text"

	"github.com/urfave/cli/v2"
)

func cardCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "card", Usage: "print the daily card of each pet", ArgsUsage: "[PET…]",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "format", Value: "pdf", Usage: "`LIST` of pdf, html, text and vet (every figure, for a veterinarian), with commas"},
			&cli.StringFlag{Name: "paper", Value: "a4", Usage: "a4 or letter"},
			&cli.BoolFlag{Name: "two-up", Usage: "half the size, two cards to a sheet"},
			&cli.BoolFlag{Name: "comma", Usage: "write numbers with a decimal comma"},
			&cli.StringFlag{Name: "out", Usage: "folder `DIR` for the files (default: cards in the household)"},
		},
		Action: func(c *cli.Context) error {
			return cardOptions{pets: c.Args().Slice(), formats: strings.Split(c.String("format"), ","), paper: c.String("paper"),
				twoUp: c.Bool("two-up"), comma: c.Bool("comma"), out: c.String("out")}.run(p)
		},
	}
}

func knownPaper(paper string) error {
	if paper != "a4" && paper != "letter" {
		return badInput(fmt.Sprintf("--paper %q is not known", paper), "type --paper a4 or --paper letter")
	}
	return nil
}

// cardOptions are what `card` takes.
type cardOptions struct {
	pets         []string
	formats      []string
	paper        string
	twoUp, comma bool
	// out is the folder for the files, empty for the usual one.
	out string
}

func (o cardOptions) run(p *program) error {
	for _, f := range o.formats {
		if !slices.Contains([]string{"pdf", "html", "text", "vet"}, f) {
			return badInput(fmt.Sprintf("--format %q is not known", f), "type --format pdf, html, text or vet, or several: --format pdf,html")
		}
	}
	if err := knownPaper(o.paper); err != nil {
		return err
	}
	h, today, err := p.load()
	if err != nil {
		return err
	}
	pets, err := petsNamed(h, o.pets)
	if err != nil {
		return err
	}
	pairs, inUse, err := pairsInUse(p, h, pets)
	if err != nil {
		return err
	}
	if !p.quiet {
		warnStale(p, h, inUse, pets, today)
	}
	if pairs, err = forLatestPot(p, h, pairs); err != nil {
		return err
	}
	out := o.out
	if slices.Equal(o.formats, []string{"text"}) && out == "" && !p.json {
		for i, pair := range pairs {
			if i > 0 {
				fmt.Fprintln(p.env.stdout)
			}
			options := p.textOptions()
			options.DecimalComma = o.comma
			if err := text.Card(p.env.stdout, pair, options); err != nil {
				return err
			}
		}
		return nil
	}
	if out == "" {
		out = filepath.Join(h.Dir, "cards")
	} else {
		out = p.absolute(out)
	}
	files, err := cardFiles(pairs, o.formats, paper.Options{Paper: o.paper, TwoUp: o.twoUp, DecimalComma: o.comma, Weights: h.Weights})
	if err != nil {
		return err
	}
	if err := writeFiles(out, files); err != nil {
		return err
	}
	noteLostCharacters(p, o.formats, h, pairs)
	if p.json {
		names := []string{}
		for _, f := range files {
			names = append(names, filepath.Join(out, f.name))
		}
		return p.printJSON(map[string]any{"format": "bowlwright/card/1", "files": names})
	}
	for _, f := range files {
		p.say("%s\n", p.shortPath(filepath.Join(out, f.name)))
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
func pairsInUse(p *program, h *household.Household, pets []*household.Pet) ([]household.Paired, map[string]records.PlanRecord, error) {
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
		pair, err := h.PairIn(record.Sound())
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

// warnStale says on the error output what `check` would say of these pets.
func warnStale(p *program, h *household.Household, inUse map[string]records.PlanRecord, pets []*household.Pet, today household.Date) {
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
