package sheet

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strconv"
	"strings"

	"bowlwright/cmd/bowlwright/internal/ask"
	"bowlwright/household"
)

// CSV writes rows; with comma the numbers get a decimal comma, as spreadsheets
// of many countries expect.
func CSV(rows [][]string, comma bool) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if comma {
		w.Comma = ';'
	}
	for _, row := range rows {
		row = slices.Clone(row)
		for i, cell := range row {
			row[i] = guarded(cell)
		}
		if comma {
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

// Cell writes a number as it is.
func Cell(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// roundCell rounds what was computed to six digits; more is noise in a table.
func roundCell(x float64) string {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 6, 64), 64)
	if err != nil {
		return Cell(x)
	}
	return Cell(y)
}

func optionalCell(x *float64) string {
	if x == nil {
		return ""
	}
	return roundCell(*x)
}

// BaseRows are the ingredients with the amounts as declared, in grams, and what else
// makes the base's code: a declared yield, and liquid that is kept.
func BaseRows(b *household.Batch, across bool) [][]string {
	rows := [][]string{{"food", "name", "amount_g", "method"}}
	for _, in := range b.Ingredients {
		id, name := "", ""
		if in.Batch != nil {
			id, name = ask.BatchPrefix+in.Batch.File, in.Batch.Name
		} else {
			id, name = in.Food.ID, in.Food.Name
		}
		rows = append(rows, []string{id, name, Cell(in.Grams), in.Method})
	}
	if b.YieldG > 0 {
		rows = append(rows, []string{PotYield, "Weight of the cooked batch", Cell(b.YieldG), ""})
	}
	if b.KeepsLiquid {
		rows = append(rows, []string{PotLiquid, "Liquid after cooking", "", liquidKept})
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

// PlanRows are what goes into each bowl.
func PlanRows(pairs []household.Paired) [][]string {
	rows := [][]string{{"pet", "date", "base_code", "kind", "food", "name", "g_per_day", "served_as"}}
	for _, pair := range pairs {
		plan := pair.Plan()
		line := func(kind, food, name string, g float64, served household.Served) {
			rows = append(rows, []string{plan.Pet.Pet, plan.Date.String(), plan.Base.Code, kind, food, name, roundCell(g), string(served)})
		}
		line("base", plan.Base.File, plan.Base.Name, plan.Pet.BaseG, household.ServedWeighed)
		for _, a := range plan.Pet.Addons {
			line("add-on", a.Food, a.Name, a.G, a.ServedAs)
		}
		for _, e := range plan.Pet.Extras {
			line("extra", e.Food, e.Name, e.G, household.ServedWeighed)
		}
	}
	return rows
}

// NutrientRows are the nutrients of each plan; an empty cell is unknown or no limit.
func NutrientRows(pairs []household.Paired) [][]string {
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
