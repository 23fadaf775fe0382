package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/household/records"
	"bowlwright/report/paper"
	"bowlwright/report/text"

	"github.com/urfave/cli/v2"
)

func mixCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "mix", Usage: "the mixing sheet of a jar: what to weigh out, in which order; records what was mixed", ArgsUsage: "[JAR]",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "mixed", Usage: "record the `WEIGHT` of the finished mix, as the scale showed it, for example \"412 g\""},
			&cli.StringFlag{Name: "on", Usage: "`DATE` of mixing (default: today)"},
			&cli.StringFlag{Name: "format", Value: "text", Usage: "`LIST` of formats, separated by commas: text, pdf, labels"},
			&cli.StringFlag{Name: "paper", Value: "a4", Usage: "a4 or letter"},
			&cli.BoolFlag{Name: "comma", Usage: "write numbers with a decimal comma"},
			&cli.StringFlag{Name: "out", Usage: "folder `DIR` for the files (default: sheets in the household)"},
		},
		Action: func(c *cli.Context) error {
			return mixOptions{jar: c.Args().First(), mixed: given(c, "mixed", c.String), on: c.String("on"), formats: strings.Split(c.String("format"), ","),
				paper: c.String("paper"), comma: c.Bool("comma"), out: c.String("out")}.run(p)
		},
	}
}

// mixOptions are those of mix; mixed is nil where nothing is to be recorded.
type mixOptions struct {
	jar     string
	mixed   *string
	on      string
	formats []string
	paper   string
	comma   bool
	out     string
}

// mixJSON is the contract of `mix --json`.
type mixJSON struct {
	Format string       `json:"format"`
	Jars   []mixJarJSON `json:"jars"`
	Files  []string     `json:"files"`
}

type mixJarJSON struct {
	Code   string         `json:"code"`
	Name   string         `json:"name"`
	Days   int            `json:"days"`
	MakesG float64        `json:"makes_g"`
	Base   string         `json:"base"`
	Steps  []mixStepJSON  `json:"steps"`
	Doses  []mixDoseJSON  `json:"doses"`
	InHand *mixInHandJSON `json:"in_hand"`
}

type mixStepJSON struct {
	Food   string  `json:"food"`
	G      float64 `json:"g"`
	TotalG float64 `json:"total_g"`
}

type mixDoseJSON struct {
	Pet   string  `json:"pet"`
	DoseG float64 `json:"dose_g"`
}

type mixInHandJSON struct {
	MixedOn household.Date `json:"mixed_on"`
	MixedG  float64        `json:"mixed_g"`
	UseBy   household.Date `json:"use_by"`
}

func (o mixOptions) run(p *program) error {
	if err := p.noMore(1); err != nil {
		return err
	}
	for _, f := range o.formats {
		if !slices.Contains([]string{"text", "pdf", "labels"}, f) {
			return badInput(fmt.Sprintf("--format %q is not known", f), "type --format text, pdf or labels, or several: --format pdf,labels")
		}
	}
	if err := knownPaper(o.paper); err != nil {
		return err
	}
	if o.on != "" && o.mixed == nil {
		return badInput("--on is the day of a mixing that is recorded", "type --mixed WEIGHT too, for example --mixed \"412 g\"")
	}
	h, today, err := p.load()
	if err != nil {
		return err
	}
	sheets, err := mixSheets(p, h, o.jar)
	if err != nil {
		return err
	}
	if o.mixed != nil {
		if err := o.record(p, h, sheets, today); err != nil {
			return err
		}
	}
	files, err := o.files(p, h, sheets)
	if err != nil {
		return err
	}
	if p.json {
		return p.printJSON(mixObject(sheets, files))
	}
	if slices.Contains(o.formats, "text") && o.out == "" && o.mixed == nil {
		options := p.textOptions()
		options.DecimalComma = o.comma
		for i, s := range sheets {
			if i > 0 {
				fmt.Fprintln(p.env.stdout)
			}
			if err := text.Mix(p.env.stdout, s, options); err != nil {
				return err
			}
		}
		p.say("\nWhen it is mixed, record what the scale shows: %s\n", p.command("mix", sheets[0].Jar.Name, "--mixed", quantity.Text(sheets[0].Jar.MakesG)+" g"))
	}
	for _, f := range files {
		p.say("%s\n", f)
	}
	return nil
}

// mixSheets are those of the jars of the plans in use, or of the one that was named by its
// name or code.
func mixSheets(p *program, h *household.Household, named string) ([]*household.MixSheet, error) {
	inUse, findings, err := records.Open(h.Dir).InUse()
	if err != nil {
		return nil, err
	}
	p.showFindings(findings)
	var pairs []household.Paired
	var refused []error
	for _, pet := range h.Pets {
		record, ok := inUse[pet.Name]
		if !ok {
			continue
		}
		// A jar that is to be mixed is not the one in hand.
		pair, err := household.Pair(record.Sound(), h.Base, inHandFor(h, record.Sound())...)
		if err != nil {
			refused = append(refused, err)
			continue
		}
		pairs = append(pairs, pair)
	}
	if len(refused) > 0 {
		return nil, &refusedError{refused}
	}
	all := household.MixSheets(pairs)
	if len(all) == 0 {
		return nil, badInput("no plan in use takes from a jar or has a premix", "make the plans first", "plan")
	}
	if named == "" {
		return all, nil
	}
	var names []string
	for _, s := range all {
		if household.Slug(s.Jar.Name) == household.Slug(named) || sameJarCode(s.Jar.Code, named) {
			return []*household.MixSheet{s}, nil
		}
		names = append(names, s.Jar.Name)
	}
	return nil, &inputError{fmt.Sprintf("no plan in use takes from a jar named %q", named), []diag.Hint{{Text: diag.NearHint(named, names)}}}
}

// sameJarCode says whether a text is the code of a jar as a person types it.
func sameJarCode(code, typed string) bool {
	parsed, err := household.ParseJarCode(typed)
	return err == nil && parsed == code
}

// record records a mix of the one jar asked for.
func (o mixOptions) record(p *program, h *household.Household, sheets []*household.MixSheet, today household.Date) error {
	if o.jar == "" {
		// The one shared jar needs no name, whatever premixes stand beside it.
		if shared := sharedSheets(sheets); len(shared) == 1 {
			sheets = shared
		}
	}
	if len(sheets) > 1 {
		var names []string
		for _, s := range sheets {
			names = append(names, s.Jar.Name)
		}
		return badInput("there is more than one jar: "+someOf(names), "say which was mixed, for example", "mix", names[0], "--mixed", *o.mixed)
	}
	s := sheets[0]
	g, err := grams("mixed", o.mixed)
	if err != nil {
		return err
	}
	if !(g > 0) {
		return badInput("--mixed must be greater than zero", "type what the scale shows, for example --mixed \"412 g\"")
	}
	on := today
	if o.on != "" {
		if on, err = household.ParseDate(o.on); err != nil {
			return badInput("--on: "+err.Error(), "type it as --on 2026-11-25")
		}
		if today.Before(on) {
			return badInput(fmt.Sprintf("--on %s lies in the future", on), "record the mix when it is mixed")
		}
	}
	mixing, err := household.NewMixing(h.Name, s.Jar, g, on)
	if err != nil {
		return &refusedError{[]error{err}}
	}
	if err := p.records(h.Dir, "mix").RecordMixing(mixing); err != nil {
		return err
	}
	s.InHand = mixing
	if p.json {
		return nil
	}
	perDay := s.TakenG / float64(s.Jar.Days)
	p.say("Recorded: %s %s, %s g mixed on %s, good until %s.\n", s.Jar.Name, s.Jar.Code, quantity.Text(g), on, mixing.UseBy)
	if last := mixing.LastsUntil(perDay); last.Before(mixing.UseBy) {
		p.say("With the doses of today it is enough until %s.\n", last)
	}
	if from, _ := s.Jar.Good(); g < from {
		p.say("The recipe makes %s g. If a powder was left out, throw the mix away; if less of everything\nwas mixed, it is the same jar and lasts shorter.\n", quantity.Text(s.Jar.MakesG))
	}
	return nil
}

func sharedSheets(sheets []*household.MixSheet) []*household.MixSheet {
	var all []*household.MixSheet
	for _, s := range sheets {
		if s.Jar.Of != "" {
			all = append(all, s)
		}
	}
	return all
}

// files writes the sheets and labels that were asked for.
func (o mixOptions) files(p *program, h *household.Household, sheets []*household.MixSheet) ([]string, error) {
	options := paper.Options{Paper: o.paper, DecimalComma: o.comma}
	var files []file
	add := func(name string, write func(io.Writer) error) error {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			return err
		}
		files = append(files, file{name, b.Bytes()})
		return nil
	}
	for _, f := range o.formats {
		var err error
		switch {
		case f == "pdf":
			err = add("mixing.pdf", func(w io.Writer) error { return paper.Mix(w, sheets, options) })
		case f == "labels":
			err = add("jar-labels.pdf", func(w io.Writer) error { return labelFault(paper.JarLabels(w, sheets, paper.DefaultLabels, options)) })
		case o.out != "":
			err = add("mixing.txt", func(w io.Writer) error {
				for _, s := range sheets {
					if err := text.Mix(w, s, text.Options{DecimalComma: options.DecimalComma}); err != nil {
						return err
					}
				}
				return nil
			})
		}
		if err != nil {
			return nil, err
		}
	}
	if len(files) == 0 {
		return nil, nil
	}
	out := o.out
	if out == "" {
		out = filepath.Join(h.Dir, "sheets")
	} else if !filepath.IsAbs(out) {
		out = filepath.Join(p.env.workDir, out)
	}
	if err := writeFiles(out, files); err != nil {
		return nil, err
	}
	var names []string
	for _, f := range files {
		names = append(names, p.shortPath(filepath.Join(out, f.name)))
	}
	return names, nil
}

// mixObject is the JSON of sheets.
func mixObject(sheets []*household.MixSheet, files []string) mixJSON {
	out := mixJSON{Format: "bowlwright/mix/1", Jars: []mixJarJSON{}, Files: append([]string{}, files...)}
	for _, s := range sheets {
		j := mixJarJSON{Code: s.Jar.Code, Name: s.Jar.Name, Days: s.Jar.Days, MakesG: s.Jar.MakesG, Base: s.Base, Steps: []mixStepJSON{}, Doses: []mixDoseJSON{}}
		for _, step := range s.Steps {
			j.Steps = append(j.Steps, mixStepJSON{step.Food, step.G, step.TotalG})
		}
		for _, d := range s.Doses {
			j.Doses = append(j.Doses, mixDoseJSON{d.Pet, d.DoseG})
		}
		if m := s.InHand; m != nil {
			j.InHand = &mixInHandJSON{m.Date, m.MixedG, m.UseBy}
		}
		out.Jars = append(out.Jars, j)
	}
	return out
}
