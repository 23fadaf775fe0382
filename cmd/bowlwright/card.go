package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/records"
	"bowlwright/report"
	"bowlwright/report/paper"
	"bowlwright/report/text"

	"github.com/urfave/cli/v2"
)

func cardCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "card", Usage: "print the daily card of each pet", ArgsUsage: "[PET…]",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "format", Value: "pdf", Usage: "`LIST` of formats, separated by commas: pdf, html, text, vet (every figure, for a veterinarian)"},
			&cli.StringFlag{Name: "paper", Value: "a4", Usage: "a4 or letter"},
			&cli.BoolFlag{Name: "two-up", Usage: "half the size, two cards to a sheet"},
			&cli.BoolFlag{Name: "large", Usage: "large print, on several pages"},
			&cli.BoolFlag{Name: "full", Usage: "list all nutrients in a text"},
			&cli.BoolFlag{Name: "comma", Usage: "write numbers with a decimal comma"},
			&cli.StringFlag{Name: "out", Usage: "folder `DIR` for the files (default: cards in the household)"},
			&cli.BoolFlag{Name: "even-out-of-date", Usage: "print a card even if its plan expired long ago or was made for another weight or stage"},
		},
		Description: "The card of a plan that is out of date says so across the top. If the weight is off by more\nthan 10 %, the species or stage differs, or the plan expired more than 14 days ago, no card is\nprinted without --even-out-of-date. Cards of animals that left are removed from the folder.",
		Action: func(c *cli.Context) error {
			return cardOptions{pets: c.Args().Slice(), formats: strings.Split(c.String("format"), ","), paper: c.String("paper"),
				twoUp: c.Bool("two-up"), large: c.Bool("large"), full: c.Bool("full"), comma: c.Bool("comma"), out: c.String("out"), evenOutOfDate: c.Bool("even-out-of-date")}.run(p)
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
	// large is for large print, full for all nutrients in a text.
	large, full bool
	// out is the folder for the files, empty for the usual one.
	out string
	// evenOutOfDate prints what is past the bound too.
	evenOutOfDate bool
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
	out := o.out
	if out == "" {
		out = filepath.Join(h.Dir, "cards")
	} else {
		out = p.absolute(out)
	}
	deck, err := o.deal(p, h, pets, today)
	if err != nil {
		if deck == nil {
			return err
		}
		if marking := markCards(p, out, deck, nil); marking != nil {
			return errors.Join(err, marking)
		}
		return err
	}
	if deck.pairs, err = forLatestPot(p, h, deck.pairs); err != nil {
		return err
	}
	pairs := deck.pairs
	courses, err := weightCourses(h, pets, today)
	if err != nil {
		return err
	}
	setting := report.Setting{Day: today, Weights: h.Weights, Notices: deck.notices(p), Courses: courses}
	if slices.Equal(o.formats, []string{"text"}) && o.out == "" && !p.json {
		for i, pair := range pairs {
			if i > 0 {
				fmt.Fprintln(p.env.stdout)
			}
			options := p.textOptions()
			options.DecimalComma, options.Full, options.Setting = o.comma, o.full, setting
			if err := text.Card(p.env.stdout, pair, options); err != nil {
				return err
			}
		}
		return deck.missingError()
	}
	photos, err := photosOf(h, pets)
	if err != nil {
		return err
	}
	files, err := cardFiles(pairs, o.formats, paper.Options{Photos: photos, Paper: o.paper, TwoUp: o.twoUp, Large: o.large, DecimalComma: o.comma, Setting: setting})
	if err != nil {
		return err
	}
	if err := writeFiles(out, files); err != nil {
		return err
	}
	if err := markCards(p, out, deck, files); err != nil {
		return err
	}
	removed, err := removeCards(out, h, files, today)
	if err != nil {
		return err
	}
	noteLostCharacters(p, o.formats, h, pairs)
	if p.json {
		names := []string{}
		for _, f := range files {
			names = append(names, filepath.Join(out, f.name))
		}
		err := p.printJSON(cardJSON{"bowlwright/card/1", names, append([]missingCard{}, deck.missing...), append([]string{}, removed...)})
		return errors.Join(err, deck.missingError())
	}
	for _, f := range files {
		p.say("%s\n", p.shortPath(filepath.Join(out, f.name)))
	}
	for _, path := range removed {
		p.say("Removed %s: the animal is no longer here.\n", p.shortPath(path))
	}
	return deck.missingError()
}

// cardJSON is the contract of `card --json`.
type cardJSON struct {
	Format  string        `json:"format"`
	Files   []string      `json:"files"`
	Missing []missingCard `json:"missing"`
	Removed []string      `json:"removed"`
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

// shortPath shows a path relative to where the user stands when that is shorter.
func (p *program) shortPath(path string) string {
	if rel, err := filepath.Rel(p.env.workDir, path); err == nil && len(rel) < len(path) {
		return rel
	}
	return path
}
