package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/cmd/bowlwright/internal/sheet"
)

// exported are the tables that can be written.
var exported = []string{"base", "plans", "nutrients"}

func exportCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "export", Usage: "a table for a spreadsheet, as CSV: " + strings.Join(exported, ", "), ArgsUsage: strings.Join(exported, "|") + " [PET…]",
		Description: "base is the ingredients of the base in use with yield and liquid, which bowlwright import\nreads again (days and prices are not in it); plans is what goes into each bowl; nutrients is\nevery nutrient of each plan with its limits.",
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "across", Usage: "foods across instead of down (base)"},
			&cli.BoolFlag{Name: "comma", Usage: "decimal comma, and semicolons between the fields"},
			&cli.StringFlag{Name: "out", Usage: "`FILE` to write, instead of the screen"},
		},
		Action: func(c *cli.Context) error {
			return exportOptions{table: c.Args().First(), pets: c.Args().Tail(), across: c.Bool("across"), comma: c.Bool("comma"), out: c.String("out")}.run(p)
		},
	}
}

// exportOptions are what `export` takes.
type exportOptions struct {
	table         string
	pets          []string
	across, comma bool
	// out is the file to write, empty for the screen.
	out string
}

func (o exportOptions) run(p *program) error {
	what := o.table
	if !slices.Contains(exported, what) {
		message := fmt.Sprintf("export does not know %q", what)
		if what == "" {
			message = "export takes what to write"
		}
		return badInput(message, "name base, plans or nutrients, for example", "export", "base")
	}
	if what == "base" {
		if err := p.noMore(1); err != nil {
			return err
		}
	}
	h, _, err := p.load()
	if err != nil {
		return err
	}
	var rows [][]string
	if what == "base" {
		rows = sheet.BaseRows(h.Base, o.across)
	} else {
		pets, err := petsNamed(h, o.pets)
		if err != nil {
			return err
		}
		pairs, _, err := pairsInUse(p, h, pets)
		if err != nil {
			return err
		}
		if rows = sheet.PlanRows(pairs); what == "nutrients" {
			rows = sheet.NutrientRows(pairs)
		}
	}
	text := sheet.CSV(rows, o.comma)
	if p.json {
		return p.printJSON(map[string]any{"format": "bowlwright/export/1", "table": what, "columns": rows[0], "rows": rows[1:]})
	}
	if out := o.out; out != "" {
		out = p.absolute(out)
		if err := writeFiles(filepath.Dir(out), []file{{filepath.Base(out), text}}); err != nil {
			return err
		}
		p.say("%s\n", p.shortPath(out))
		return nil
	}
	_, err = p.verbatim.Write(text)
	return err
}
