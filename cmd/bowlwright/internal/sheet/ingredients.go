// Package sheet reads and writes the tables that go to and come from a spreadsheet.
//
// # Decisions
//
// A table of a base holds what makes its code: beside the ingredients a declared yield
// (pot:yield) and kept liquid (pot:liquid).
//
// What separates digits is read only where it can mean one thing, and the reading is
// shown; 1,500 is refused, and so is 1.500 in a table with decimal commas; a row with
// more cells than the headings is refused, for a decimal comma may have cut it.
package sheet

import (
	"encoding/csv"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"bowlwright/cmd/bowlwright/internal/ask"
	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/household/visible"
	"bowlwright/nutrients"
)

// badTable is the code of a table that cannot be read.
const badTable = "bad-table"

// Lines of a table that are about the pot and no ingredient.
const (
	PotYield   = "pot:yield"
	PotLiquid  = "pot:liquid"
	liquidKept = "kept"
)

// Line is one ingredient of a table, or a line about the pot.
type Line struct {
	Ingredient ask.Ingredient
	Grams      float64
	// ReadAs says what was read other than it stands, empty for nothing.
	ReadAs string
}

// ReadIngredients reads a table of ingredients, foods down or across.
func ReadIngredients(text string, h *household.Household) (lines []Line, unused []string, err error) {
	rows, separator, err := tableRows(text)
	if err != nil {
		return nil, nil, err
	}
	columns, ok := headings(rows[0])
	if !ok {
		// Across: the first column holds the headings.
		across := turned(rows)
		if columns, ok = headings(across[0]); !ok {
			return nil, nil, noHeadings(rows[0])
		}
		rows = across
	}
	columns.commas = separator == ';' || hasDecimalComma(rows[1:], columns.amount)
	for i, row := range rows[1:] {
		if strings.TrimSpace(strings.Join(row, "")) == "" {
			continue
		}
		line, err := columns.line(row, h)
		if err != nil {
			var wrong *diag.InputError
			if errors.As(err, &wrong) {
				err = &diag.InputError{Code: wrong.Code, Summary: fmt.Sprintf("food %d of the table: %s", i+1, wrong.Summary), Advice: wrong.Advice}
			}
			return nil, nil, err
		}
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		return nil, nil, diag.BadInput(badTable, "the table has headings but no food", "write one food a line below them")
	}
	return lines, columns.unused, nil
}

// noHeadings says which heading is missing, or that its unit is not known.
func noHeadings(row []string) error {
	const example = "begin it with a line such as: food,amount_g,method"
	for _, cell := range row {
		word := strings.ToLower(strings.TrimSpace(cell))
		if m := headingWithUnit.FindStringSubmatch(word); m != nil {
			return diag.BadInput(badTable, fmt.Sprintf("the heading %q has an unknown unit %q", cell, m[1]), "write amount_g, amount_kg, amount_mg, amount_lb or amount_oz")
		}
	}
	return diag.BadInput(badTable, "the table has no headings food and amount", example)
}

// separatorLine is how some spreadsheets name the separator in a line of its own.
var separatorLine = regexp.MustCompile(`^(?i:sep)=(.)\r?\n`)

// tableRows splits the text at the separator that the first line holds.
func tableRows(text string) (rows [][]string, separator rune, err error) {
	if !utf8.ValidString(text) {
		return nil, 0, diag.BadInput(badTable, "the table is not UTF-8 text", "save it again as CSV in UTF-8")
	}
	text = strings.TrimPrefix(text, "\ufeff")
	text = separatorLine.ReplaceAllString(text, "")
	first, _, _ := strings.Cut(strings.TrimLeft(text, "\r\n"), "\n")
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = -1
	for _, sep := range []rune{';', '\t'} {
		if strings.Count(first, string(sep)) > 0 {
			r.Comma = sep
			break
		}
	}
	// Where tabs separate, an empty cell is white space too and must stay.
	r.TrimLeadingSpace = r.Comma != '\t'
	if rows, err = r.ReadAll(); err != nil {
		return nil, 0, diag.BadInput(badTable, fmt.Sprintf("the table cannot be read: %v", err), "save it as CSV, with one food a line")
	}
	for _, row := range rows {
		for i, cell := range row {
			row[i] = visible.Strip(unguarded(cell))
		}
	}
	if len(rows) == 0 {
		return nil, 0, diag.BadInput(badTable, "the table is empty", "begin it with a line such as: food,amount_g,method")
	}
	for i, row := range rows[1:] {
		// "1,5" between commas is two cells: the second must not be lost.
		if extra := row[min(len(row), len(rows[0])):]; strings.TrimSpace(strings.Join(extra, "")) != "" {
			return nil, 0, diag.BadInput(badTable, fmt.Sprintf("row %d of the table has more cells than the first: %s", i+2, strings.Join(row, string(r.Comma))),
				`a decimal comma between commas needs quotes, like "1,5"; or write 1.5`)
		}
	}
	return rows, r.Comma, nil
}

// tableColumns says in which column what stands; -1 for nowhere.
type tableColumns struct {
	food, name, amount, unit, method int
	// headingUnit is the unit of an amount that has none, from the heading.
	headingUnit string
	// unused are the headings that mean nothing here.
	unused []string
	// commas says that the table writes numbers with a decimal comma.
	commas bool
}

// headingWithUnit is an amount with a unit that is none of the known.
var headingWithUnit = regexp.MustCompile(`^(?:amount|weight)[ _]*\(?([a-z]+)\)?$`)

var amountHeading = regexp.MustCompile(`^(?:amount|weight)[ _]*\(?(kg|g|mg|lb|oz)?\)?$`)

// headings reads the first line; ok says that it is one.
func headings(row []string) (columns tableColumns, ok bool) {
	columns = tableColumns{food: -1, name: -1, amount: -1, unit: -1, method: -1}
	for i, cell := range row {
		word := strings.ToLower(strings.TrimSpace(cell))
		unit := amountHeading.FindStringSubmatch(word)
		switch {
		case word == "food", word == "id", word == "ingredient":
			columns.food = i
		case word == "name":
			columns.name = i
		case word == "unit":
			columns.unit = i
		case word == "method":
			columns.method = i
		case word == "grams", word == "g":
			columns.amount, columns.headingUnit = i, "g"
		case word == "kg":
			columns.amount, columns.headingUnit = i, "kg"
		case unit != nil:
			columns.amount, columns.headingUnit = i, unit[1]
		case word != "":
			columns.unused = append(columns.unused, cell)
		}
	}
	if columns.food < 0 {
		columns.food = columns.name
	}
	return columns, columns.food >= 0 && columns.amount >= 0
}

func at(row []string, i int) string {
	if i < 0 || i >= len(row) {
		return ""
	}
	return strings.TrimSpace(row[i])
}

// line reads one food, or one line about the pot.
func (columns tableColumns) line(row []string, h *household.Household) (Line, error) {
	var l Line
	id, method := at(row, columns.food), strings.ToLower(at(row, columns.method))
	switch batch, isBatch := strings.CutPrefix(id, ask.BatchPrefix); {
	case id == PotLiquid:
		if l.Ingredient.Food, l.Ingredient.Method = id, method; method != liquidKept {
			return l, diag.BadInput(badTable, fmt.Sprintf("the liquid is %q, not %q", method, liquidKept), "write kept below method, or take the line out where it is poured off")
		}
		return l, nil
	case id == PotYield:
		l.Ingredient.Food = id
		return l, columns.weight(row, &l)
	case isBatch:
		if _, there := h.Batches[batch]; !there {
			return l, diag.BadInput(badTable, fmt.Sprintf("there is no batch %q in bases/", batch), "write it into bases/ first")
		}
		l.Ingredient.Food = id
	default:
		f, err := foodNamed(h.Catalogue, id)
		if err != nil {
			return l, err
		}
		l.Ingredient.Food = f.ID
		if !strings.EqualFold(id, f.ID) {
			l.ReadAs = fmt.Sprintf("%q read as %s", id, f.ID)
		}
	}
	if l.Ingredient.Method = method; ask.KnownMethod(method) != nil {
		return l, ask.KnownMethod(method)
	}
	return l, columns.weight(row, &l)
}

// weight reads the amount of a line.
func (columns tableColumns) weight(row []string, l *Line) error {
	unit := at(row, columns.unit)
	if unit == "" {
		unit = columns.headingUnit
	}
	amount, readAs, err := readAmount(at(row, columns.amount), unit, columns.commas)
	if err != nil {
		return err
	}
	kg, err := quantity.Weight(amount)
	if err != nil {
		return err
	}
	l.Ingredient.Amount, l.Grams = amount, 1000*kg
	if readAs != "" {
		if l.ReadAs != "" {
			l.ReadAs += "; "
		}
		l.ReadAs += readAs
	}
	return nil
}

// foodNamed finds a food by id, by name, or by words that fit only one.
func foodNamed(cat *nutrients.Catalogue, text string) (*nutrients.Food, error) {
	text = strings.Join(strings.Fields(text), " ")
	if f, ok := cat.Food(strings.ToLower(text)); ok {
		return f, nil
	}
	for _, f := range cat.All() {
		if strings.EqualFold(f.Name, text) {
			return f, nil
		}
	}
	found := cat.Find(strings.Fields(strings.ReplaceAll(text, ",", " "))...)
	if len(found) == 1 {
		return found[0], nil
	}
	problem := fmt.Sprintf("no food is named %q", text)
	if near, ok := cat.Nearest(strings.ToLower(strings.ReplaceAll(text, " ", "-"))); ok {
		return nil, diag.BadInput(badTable, problem, "did you mean "+near+"?")
	} else if len(found) > 1 {
		return nil, diag.BadInput(badTable, problem, fmt.Sprintf("did you mean %s or %s?", found[0].ID, found[1].ID))
	}
	return nil, diag.BadInput(badTable, problem, "find its id with", "foods", "find", "WORDS")
}
