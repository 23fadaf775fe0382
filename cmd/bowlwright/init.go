package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"bowlwright/cmd/bowlwright/internal/ask"
	"bowlwright/cmd/bowlwright/internal/shell"
	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/reading"
	"bowlwright/household/safefile"

	"github.com/urfave/cli/v2"
)

func initCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "init", Usage: "start a household: asks questions, or takes everything as options", ArgsUsage: "[DIR]",
		Description: "Without --pet the questions are asked one after the other, from a terminal or from the\nstandard input. Nothing is written before the last answer, and never over a file.\n\n" +
			"PET is a list with commas, the name first:\n  \"Tansy, dog, 8.4 kg, born 2014-09-02, female, neutered, condition 7, low\"\n  \"Juno, dog, 12 kg, born 2026-07-15, growth, adult 22 kg\"\n" +
			"INGREDIENT is a food, its amount and how it is cooked:\n  \"turkey-thigh-skinless-raw, 1.7 kg, simmered\"",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "name", Usage: "`NAME` of the household"},
			&cli.StringSliceFlag{Name: "pet", Usage: "a `PET`, see above; can be repeated"},
			&cli.StringFlag{Name: "base", Usage: "`NAME` of what is cooked"},
			&cli.StringSliceFlag{Name: "ingredient", Usage: "an `INGREDIENT` of the base, see above; can be repeated"},
			&cli.StringSliceFlag{Name: "addon", Usage: "`FOOD` that is on the shelf; can be repeated"},
			&cli.BoolFlag{Name: "usual-shelf", Usage: "put the common supplements on the shelf; delete those you do not have"},
			&cli.StringFlag{Name: "standard", Usage: "`STANDARD`: nrc2006, fediaf2021 or aafco2016 (default: nrc2006)"},
			&cli.IntFlag{Name: "meals", Usage: "`N` meals a day", Value: 2},
			&cli.StringFlag{Name: "scale", Usage: "smallest `STEP` of the kitchen scale", Value: "1 g"},
			&cli.StringFlag{Name: "fine-scale", Usage: "smallest `STEP` of the powder scale, if there is one"},
		},
		Action: func(c *cli.Context) error {
			return initOptions{dir: c.Args().First(), answers: ask.Options{Name: c.String("name"), Standard: c.String("standard"), Scale: c.String("scale"), FineScale: c.String("fine-scale"),
				Meals: c.Int("meals"), Base: c.String("base"), Pets: c.StringSlice("pet"), Ingredients: c.StringSlice("ingredient"), Addons: c.StringSlice("addon"), UsualShelf: c.Bool("usual-shelf")}}.run(p)
		},
	}
}

// initOptions are what `init` takes.
type initOptions struct {
	// dir is the folder of the household, empty for one named after it.
	dir     string
	answers ask.Options
}

func (o initOptions) run(p *program) error {
	if err := p.noMore(1); err != nil {
		return err
	}
	today, err := p.today()
	if err != nil {
		return err
	}
	if o.dir != "" {
		if err := freeForInit(p, p.absolute(o.dir)); err != nil {
			return err
		}
	}
	var made ask.Household
	if len(o.answers.Pets) == 0 {
		if p.json {
			return badInput("--json and questions do not go together", "give at least --pet and --ingredient; how", "init", "--help")
		}
		interview := ask.Interview{In: p.env.stdin, Out: p.verbatim, Today: today, Try: func(files []ask.File) (*diag.Diagnostic, error) { return firstFault(asFiles(files), today) }}
		made, err = interview.Household(ask.Household{Standard: o.answers.Standard, Meals: o.answers.Meals, Scale: o.answers.Scale, FineScale: o.answers.FineScale})
	} else {
		made, err = ask.FromOptions(o.answers, today)
	}
	if err != nil {
		return err
	}
	dir := p.absolute(household.Slug(made.Name))
	if o.dir != "" {
		dir = p.absolute(o.dir)
	}
	if err := freeForInit(p, dir); err != nil {
		return err
	}
	texts, err := made.Files()
	if err != nil {
		return err
	}
	files := asFiles(texts)
	if err := tryHousehold(files, today); err != nil {
		return err
	}
	if err := writeFiles(dir, files); err != nil {
		return err
	}
	if p.json {
		names := []string{}
		for _, f := range files {
			names = append(names, filepath.Join(dir, f.name))
		}
		return p.printJSON(map[string]any{"format": "bowlwright/init/1", "household": made.Name, "files": names})
	}
	for _, f := range files {
		p.say("Wrote %s\n", p.shortPath(filepath.Join(dir, f.name)))
	}
	if short := p.shortPath(dir); short != "." {
		p.say("Next: cd %s\n", shell.Quote(short))
	}
	p.say("then: %s\n", p.command("plan"))
	return nil
}

func (p *program) absolute(dir string) string {
	if filepath.IsAbs(dir) {
		return dir
	}
	return filepath.Join(p.env.workDir, dir)
}

// freeForInit refuses a folder that holds a household already, after clearing away
// what a run that died left there.
func freeForInit(p *program, dir string) error {
	if err := safefile.Sweep(dir); err != nil {
		return err
	}
	for _, name := range []string{"household.toml", "bases"} {
		if _, err := os.Lstat(filepath.Join(dir, name)); err == nil {
			return badInput(fmt.Sprintf("%s is there already", p.shortPath(filepath.Join(dir, name))), "init never overwrites files: name another folder", "init", "DIR")
		} else if !errors.Is(err, fs.ErrNotExist) {
			return &safefile.CannotWriteError{Path: dir, Err: withoutOp(err)}
		}
	}
	return nil
}

// tryHousehold reads the files as they will stand, so that a household is written
// only when `plan` accepts it.
func tryHousehold(files []file, today household.Date) error {
	fault, err := firstFault(files, today)
	if err != nil || fault == nil {
		return err
	}
	hint := fault.Hint
	if strings.Contains(fault.At.Excerpt, "=") {
		hint.Text += " (the line would be: " + strings.TrimSpace(fault.At.Excerpt) + ")"
	}
	return withHint(fault.Summary, hint)
}

// firstFault reads files as a household of their own; nil when there is no fault.
func firstFault(files []file, today household.Date) (*diag.Diagnostic, error) {
	dir, err := os.MkdirTemp("", "bowlwright")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	if err := writeFiles(dir, files); err != nil {
		return nil, err
	}
	_, list, err := reading.Load(dir, today)
	if err != nil {
		return nil, err
	}
	for _, d := range list {
		if d.Severity == diag.Error {
			return &d, nil
		}
	}
	return nil, nil
}

func asFiles(texts []ask.File) []file {
	files := make([]file, len(texts))
	for i, t := range texts {
		files[i] = file{t.Path, []byte(t.Text)}
	}
	return files
}
