package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/household"
)

// exported are the tables that can be written.
var exported = []string{"base", "plans", "nutrients"}

func (p *program) exportCommand() *cli.Command {
	return &cli.Command{
		Name: "export", Usage: "a table for a spreadsheet, as CSV: " + strings.Join(exported, ", "), ArgsUsage: strings.Join(exported, "|") + " [PET…]",
		Description: "base is the ingredients of the base in use with yield and liquid, which bowlwright import\nreads again (days and prices are not in it); plans is what goes into each bowl; nutrients is\nevery nutrient of each plan with its limits.",
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "across", Usage: "foods across instead of down (base)"},
			&cli.BoolFlag{Name: "comma", Usage: "decimal comma, and semicolons between the fields"},
			&cli.StringFlag{Name: "out", Usage: "`FILE` to write, instead of the screen"},
		},
		Action: p.export,
	}
}

func (p *program) export(c *cli.Context) error {
	what := c.Args().First()
	if !slices.Contains(exported, what) {
		message := fmt.Sprintf("export does not know %q", what)
		if what == "" {
			message = "export takes what to write"
		}
		return badInput(message, "name base, plans or nutrients, for example", "export", "base")
	}
	if what == "base" {
		if err := noMore(c, 1); err != nil {
			return err
		}
	}
	h, _, err := p.load(c)
	if err != nil {
		return err
	}
	var rows [][]string
	if what == "base" {
		rows = baseRows(h.Base, c.Bool("across"))
	} else {
		pets, err := petsNamed(h, c.Args().Tail())
		if err != nil {
			return err
		}
		pairs, _, err := p.pairsInUse(h, pets)
		if err != nil {
			return err
		}
		if rows = planRows(pairs); what == "nutrients" {
			rows = nutrientRows(pairs)
		}
	}
	text := csvText(rows, c.Bool("comma"))
	if c.Bool("json") {
		return p.printJSON(map[string]any{"format": "bowlwright/export/1", "table": what, "columns": rows[0], "rows": rows[1:]})
	}
	if out := c.String("out"); out != "" {
		out = p.absolute(out)
		if err := writeFiles(filepath.Dir(out), []file{{filepath.Base(out), text}}); err != nil {
			return err
		}
		p.say(c, "%s\n", p.shortPath(out))
		return nil
	}
	_, err = p.verbatim.Write(text)
	return err
}

// csvText writes rows; with comma the numbers get a decimal comma, as spreadsheets
// of many countries expect.
func csvText(rows [][]string, comma bool) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if comma {
		w.Comma = ';'
	}
	for _, row := range rows {
		if comma {
			row = slices.Clone(row)
			for i, cell := range row {
				if _, err := strconv.ParseFloat(cell, 64); err == nil {
					row[i] = withComma(cell)
				}
			}
		}
		// Write fails only when the buffer does, which it never does.
		_ = w.Write(row)
	}
	w.Flush()
	return b.Bytes()
}

// withComma writes a number with a decimal comma. A fraction of three digits would
// look like thousands; it gets a fourth.
func withComma(number string) string {
	if oneOfThree.MatchString(number) {
		number += "0"
	}
	return strings.Replace(number, ".", ",", 1)
}

func cell(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// roundCell rounds what was computed to six digits; more is noise in a table.
func roundCell(x float64) string {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 6, 64), 64)
	if err != nil {
		return cell(x)
	}
	return cell(y)
}

func optionalCell(x *float64) string {
	if x == nil {
		return ""
	}
	return roundCell(*x)
}

// baseRows are the ingredients with the amounts as declared, in grams, and what else
// makes the base's code: a declared yield, and liquid that is kept.
func baseRows(b *household.Batch, across bool) [][]string {
	rows := [][]string{{"food", "name", "amount_g", "method"}}
	for _, in := range b.Ingredients {
		id, name := "", ""
		if in.Batch != nil {
			id, name = batchPrefix+in.Batch.File, in.Batch.Name
		} else {
			id, name = in.Food.ID, in.Food.Name
		}
		rows = append(rows, []string{id, name, cell(in.Grams), in.Method})
	}
	if b.YieldG > 0 {
		rows = append(rows, []string{potYield, "Weight of the cooked batch", cell(b.YieldG), ""})
	}
	if b.KeepsLiquid {
		rows = append(rows, []string{potLiquid, "Liquid after cooking", "", liquidKept})
	}
	if across {
		return turned(rows)
	}
	return rows
}

// turned makes rows of columns. Rows may differ in length.
func turned(rows [][]string) [][]string {
	var out [][]string
	for i, row := range rows {
		for j, c := range row {
			for len(out) <= j {
				out = append(out, make([]string, len(rows)))
			}
			out[j][i] = c
		}
	}
	return out
}

// planRows are what goes into each bowl.
func planRows(pairs []household.Paired) [][]string {
	rows := [][]string{{"pet", "date", "base_code", "kind", "food", "name", "g_per_day", "served_as"}}
	for _, pair := range pairs {
		plan := pair.Plan()
		line := func(kind, food, name string, g float64, served string) {
			rows = append(rows, []string{plan.Pet.Pet, plan.Date.String(), plan.Base.Code, kind, food, name, roundCell(g), served})
		}
		line("base", plan.Base.File, plan.Base.Name, plan.Pet.BaseG, "weighed")
		for _, a := range plan.Pet.Addons {
			line("add-on", a.Food, a.Name, a.G, a.ServedAs)
		}
		for _, e := range plan.Pet.Extras {
			line("extra", e.Food, e.Name, e.G, "weighed")
		}
	}
	return rows
}

// nutrientRows are the nutrients of each plan; an empty cell is unknown or no limit.
func nutrientRows(pairs []household.Paired) [][]string {
	rows := [][]string{{"pet", "date", "base_code", "nutrient", "unit", "amount", "lower", "upper", "aim", "coverage", "state", "from_base", "from_addons", "from_extras"}}
	for _, pair := range pairs {
		plan := pair.Plan()
		for _, n := range plan.Pet.Nutrients {
			rows = append(rows, []string{plan.Pet.Pet, plan.Date.String(), plan.Base.Code, n.ID.String(), n.Unit, optionalCell(n.Amount),
				optionalCell(n.Lower), optionalCell(n.Upper), optionalCell(n.Aim), roundCell(n.Coverage), string(n.State),
				roundCell(n.From.Base), roundCell(n.From.Addons), roundCell(n.From.Extras)})
		}
	}
	return rows
}
