package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/cmd/bowlwright/internal/ask"
	"bowlwright/cmd/bowlwright/internal/sheet"
	"bowlwright/household"
	"bowlwright/household/safefile"
	"bowlwright/household/tomldoc"
	"bowlwright/household/visible"
)

func importCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "import", Usage: "make a base from a table of ingredients and amounts", ArgsUsage: "FILE",
		Description: "FILE is CSV with commas, semicolons or tabs, foods down or across. The columns are food\n(an id or a name), amount, and if wanted unit and method; the unit may also stand in the\nheading (amount_g) or after the number. A decimal comma and thousands that can mean one\nthing only are understood, and how they were read is shown. A new file is written into\nbases/; none is changed.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "name", Usage: "`NAME` of the base (default: that of the file)"},
			&cli.BoolFlag{Name: "dry-run", Usage: "write nothing, show how the table is read"},
		},
		Action: func(c *cli.Context) error {
			return importOptions{path: c.Args().First(), name: c.String("name"), dryRun: c.Bool("dry-run")}.run(p)
		},
	}
}

// largestTable bounds what is read: a recipe is far smaller.
const largestTable = 1 << 20

type importBaseJSON struct {
	Format      string         `json:"format"`
	Base        string         `json:"base"`
	File        string         `json:"file"`
	Written     bool           `json:"written"`
	Ingredients []readingsJSON `json:"ingredients"`
	// Yield and Liquid are those of the pot, nil where the table has none.
	Yield  *string `json:"yield"`
	Liquid *string `json:"liquid"`
	// Unused are the headings of columns that were not taken over.
	Unused []string `json:"unused"`
}

type readingsJSON struct {
	Food    string  `json:"food"`
	AmountG float64 `json:"amount_g"`
	Method  string  `json:"method"`
	// ReadAs is set where the text was understood otherwise than it stands.
	ReadAs string `json:"read_as,omitempty"`
}

// importOptions are what `import` takes.
type importOptions struct {
	path, name string
	dryRun     bool
}

func (o importOptions) run(p *program) error {
	if o.path == "" {
		return badInput("import takes a table", "for example", "import", "recipe.csv")
	}
	if err := p.noMore(1); err != nil {
		return err
	}
	h, today, err := p.load()
	if err != nil {
		return err
	}
	text, err := readTable(p.absolute(o.path))
	if err != nil {
		return err
	}
	lines, unused, err := sheet.ReadIngredients(text, h)
	if err != nil {
		return err
	}
	name := o.name
	if name == "" {
		base := filepath.Base(o.path)
		name = strings.TrimSuffix(base, filepath.Ext(base))
	}
	name = visible.Strip(name)
	made := ask.Household{Base: name}
	for _, l := range lines {
		switch l.Ingredient.Food {
		case sheet.PotYield:
			made.Yield = l.Ingredient.Amount
		case sheet.PotLiquid:
			made.Liquid = l.Ingredient.Method
		default:
			made.Ingredients = append(made.Ingredients, l.Ingredient)
		}
	}
	file := household.Slug(name)
	if _, err := os.Lstat(filepath.Join(h.Dir, "bases", file+".toml")); err == nil {
		return badInput(fmt.Sprintf("bases/%s.toml is there already", file), `give the base another name: --name "Turkey and oats, second"`)
	}
	if err := tryBase(h, file, made.BaseTOML(), today); err != nil {
		return err
	}
	if !o.dryRun {
		if err := writeBase(p, h, file, made.BaseTOML()); err != nil {
			return err
		}
	}
	out := importBaseJSON{Format: "bowlwright/import/1", Base: file, File: "bases/" + file + ".toml", Written: !o.dryRun, Unused: append([]string{}, unused...)}
	if made.Yield != "" {
		out.Yield = &made.Yield
	}
	if made.Liquid != "" {
		out.Liquid = &made.Liquid
	}
	for _, l := range lines {
		if l.Ingredient.Food == sheet.PotYield || l.Ingredient.Food == sheet.PotLiquid {
			continue
		}
		out.Ingredients = append(out.Ingredients, readingsJSON{l.Ingredient.Food, l.Grams, l.Ingredient.Method, l.ReadAs})
	}
	if p.json {
		return p.printJSON(out)
	}
	for _, l := range lines {
		p.say("%-10s %s", l.Ingredient.Amount, l.Ingredient.Food)
		if l.Ingredient.Method != "" {
			p.say(", %s", l.Ingredient.Method)
		}
		if l.ReadAs != "" {
			p.say("   (%s)", l.ReadAs)
		}
		p.say("\n")
	}
	if made.Yield != "" {
		p.say("The yield was imported too: weigh the cooked pot again if you change an amount.\n")
	}
	if len(unused) > 0 {
		p.say("Not imported: %s\n", strings.Join(unused, ", "))
	}
	if out.Written {
		p.say("Wrote %s. Use it with base = %q in household.toml.\n", out.File, file)
	}
	return nil
}

func readTable(path string) (string, error) {
	text, err := safefile.Read(path, largestTable)
	var large *safefile.TooLargeError
	if errors.As(err, &large) {
		return "", badInput(fmt.Sprintf("%s is larger than a table of ingredients can be", path), "name a CSV file with one recipe")
	}
	if err != nil {
		return "", badInput(fmt.Sprintf("cannot read %s: %v", path, withoutOp(err)), "name a CSV file")
	}
	return string(text), nil
}

// writeBase writes a new batch. The lock keeps another run from writing the same.
func writeBase(p *program, h *household.Household, name, text string) error {
	return writeFiles(filepath.Join(h.Dir, "bases"), []file{{name + ".toml", []byte(text)}})
}

// tryBase reads the batch together with the others of the household.
func tryBase(h *household.Household, name, text string, today household.Date) error {
	files := []file{{"bases/" + name + ".toml", []byte(text)}, {"household.toml", []byte(fmt.Sprintf("name = \"x\"\nbase = %s\n\n[[pet]]\nname = \"x\"\nspecies = \"dog\"\nweight = \"10 kg\"\n", tomldoc.Quote(name)))}}
	for _, folder := range []string{"bases", "foods"} {
		entries, err := os.ReadDir(filepath.Join(h.Dir, folder))
		if err != nil {
			continue
		}
		for _, e := range entries {
			if text, err := safefile.Read(filepath.Join(h.Dir, folder, e.Name()), largestTable); err == nil && strings.HasSuffix(e.Name(), ".toml") {
				files = append(files, file{filepath.Join(folder, e.Name()), text})
			}
		}
	}
	return tryHousehold(files, today)
}
