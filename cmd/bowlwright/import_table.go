package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"regexp"
	"strings"

	"bowlwright/household"
)

// batchPrefix marks a batch as an ingredient in a table.
const batchPrefix = "batch:"

// importedLine is one ingredient of a table.
type importedLine struct {
	ingredient newIngredient
	grams      float64
	readAs     string
}

// withoutOp takes the path off an error of the file system, which the message names
// already.
func withoutOp(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

// readIngredients reads a table of ingredients, foods down or across.
func readIngredients(text string, h *household.Household) ([]importedLine, error) {
	rows, err := tableRows(text)
	if err != nil {
		return nil, err
	}
	columns, ok := headings(rows[0])
	if !ok {
		// Across: the first column holds the headings.
		rows = turned(rows)
		if columns, ok = headings(rows[0]); !ok {
			return nil, &inputError{"the table has no headings food and amount", "begin it with a line such as: food,amount_g,method"}
		}
	}
	var lines []importedLine
	for i, row := range rows[1:] {
		if strings.TrimSpace(strings.Join(row, "")) == "" {
			continue
		}
		line, err := columns.line(row, h)
		if err != nil {
			var wrong *inputError
			if errors.As(err, &wrong) {
				err = &inputError{fmt.Sprintf("food %d of the table: %s", i+1, wrong.message), wrong.hint}
			}
			return nil, err
		}
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		return nil, &inputError{"the table has headings and no food", "write one food a line below them"}
	}
	return lines, nil
}

// tableRows splits the text at the separator that the first line holds most of.
func tableRows(text string) ([][]string, error) {
	text = strings.TrimPrefix(text, "\ufeff")
	first, _, _ := strings.Cut(strings.TrimLeft(text, "\r\n"), "\n")
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord, r.TrimLeadingSpace = -1, true
	for _, sep := range []rune{';', '\t'} {
		if strings.Count(first, string(sep)) > 0 {
			r.Comma = sep
			break
		}
	}
	rows, err := r.ReadAll()
	if err != nil {
		return nil, &inputError{fmt.Sprintf("the table cannot be read: %v", err), "save it as CSV, with one food a line"}
	}
	if len(rows) == 0 {
		return nil, &inputError{"the table is empty", "begin it with a line such as: food,amount_g,method"}
	}
	return rows, nil
}

// tableColumns says in which column what stands; -1 for nowhere.
type tableColumns struct {
	food, name, amount, unit, method int
	// headingUnit is the unit of an amount that has none, from the heading.
	headingUnit string
}

var amountHeading = regexp.MustCompile(`^(?:amount|weight)[ _]*\(?(kg|g|mg|lb|oz)?\)?$`)

// headings reads the first line; ok says that it is one.
func headings(row []string) (columns tableColumns, ok bool) {
	columns = tableColumns{-1, -1, -1, -1, -1, ""}
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

// line reads one food.
func (columns tableColumns) line(row []string, h *household.Household) (importedLine, error) {
	var l importedLine
	id := at(row, columns.food)
	if batch, ok := strings.CutPrefix(id, batchPrefix); ok {
		if _, there := h.Batches[batch]; !there {
			return l, &inputError{fmt.Sprintf("there is no batch %q in bases/", batch), "write it into bases/ first"}
		}
		l.ingredient.food = id
	} else {
		f, err := foodNamed(h.Catalogue, id)
		if err != nil {
			return l, err
		}
		l.ingredient.food = f.ID
		if !strings.EqualFold(id, f.ID) {
			l.readAs = fmt.Sprintf("%q read as %s", id, f.ID)
		}
	}
	l.ingredient.method = strings.ToLower(at(row, columns.method))
	if err := knownMethod(l.ingredient.method); err != nil {
		return l, err
	}
	unit := at(row, columns.unit)
	if unit == "" {
		unit = columns.headingUnit
	}
	amount, readAs, err := readAmount(at(row, columns.amount), unit)
	if err != nil {
		return l, err
	}
	kg, err := household.ParseWeight(amount)
	if err != nil {
		var wrong *household.InputError
		if errors.As(err, &wrong) {
			return l, &inputError{wrong.Summary, wrong.Hint}
		}
		return l, err
	}
	l.ingredient.amount, l.grams = amount, 1000*kg
	if readAs != "" {
		if l.readAs != "" {
			l.readAs += "; "
		}
		l.readAs += readAs
	}
	return l, nil
}

var (
	amountForm = regexp.MustCompile(`^([0-9]+(?:[.,][0-9]+)?)\s*([A-Za-z]*)$`)
	// thousands may be meant by a comma with three digits behind it.
	thousands = regexp.MustCompile(`^[1-9][0-9]{0,2},[0-9]{3}$`)
)

// readAmount turns a cell into "1.7 kg". A decimal comma is taken for a point and
// said so, except where it may separate thousands.
func readAmount(text, unit string) (amount, readAs string, err error) {
	m := amountForm.FindStringSubmatch(strings.ReplaceAll(text, "\u00a0", " "))
	if m == nil {
		return "", "", &inputError{fmt.Sprintf("the amount %q is not understood", text), "write a number and a unit, like 1.7 kg"}
	}
	number := m[1]
	if m[2] != "" {
		unit = m[2]
	}
	if unit == "" {
		return "", "", &inputError{fmt.Sprintf("the amount %s has no unit", text), "write the unit in the heading, like amount_g, or beside the number"}
	}
	if strings.Contains(number, ",") {
		if thousands.MatchString(number) {
			plain := strings.ReplaceAll(number, ",", "")
			return "", "", &inputError{fmt.Sprintf("the amount %s can be read in two ways", text), fmt.Sprintf("write %s or %s", plain, strings.Replace(number, ",", ".", 1))}
		}
		was := number
		number = strings.Replace(number, ",", ".", 1)
		readAs = fmt.Sprintf("%s read as %s", was, number)
	}
	return number + " " + unit, readAs, nil
}
