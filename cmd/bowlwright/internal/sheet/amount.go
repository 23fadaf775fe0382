package sheet

import (
	"fmt"
	"regexp"
	"strings"

	"bowlwright/household/diag"
)

var (
	// amountForm is a number, with or without separators, and a unit or none.
	amountForm = regexp.MustCompile(`^([0-9](?:[0-9 .,'’]*[0-9])?)\s*([A-Za-z]*)$`)
	// plainNumber has a point or nothing; commaNumber a decimal comma.
	plainNumber = regexp.MustCompile(`^[0-9]+(?:\.[0-9]+)?$`)
	commaNumber = regexp.MustCompile(`^[0-9]+,[0-9]+$`)
	// oneOfThree may be thousands or a fraction of three digits: 1,500 and 1.500.
	oneOfThree = regexp.MustCompile(`^[1-9][0-9]{0,2}([.,])[0-9]{3}$`)
	// grouped are thousands that can be nothing else, by the sign between them: a
	// space or an apostrophe, or one of point and comma with the other one as the
	// sign of decimals, or more than one of a kind.
	grouped = []*regexp.Regexp{
		regexp.MustCompile(`^[1-9][0-9]{0,2}(?: [0-9]{3})+(?:[.,][0-9]+)?$`),
		regexp.MustCompile(`^[1-9][0-9]{0,2}(?:['’][0-9]{3})+(?:[.,][0-9]+)?$`),
		regexp.MustCompile(`^[1-9][0-9]{0,2}(?:,[0-9]{3})+\.[0-9]+$`),
		regexp.MustCompile(`^[1-9][0-9]{0,2}(?:\.[0-9]{3})+,[0-9]+$`),
		regexp.MustCompile(`^[1-9][0-9]{0,2}(?:,[0-9]{3}){2,}$`),
		regexp.MustCompile(`^[1-9][0-9]{0,2}(?:\.[0-9]{3}){2,}$`),
	}
)

// noBreakSpaces are what spreadsheets put between thousands.
var noBreakSpaces = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ")

// hasDecimalComma says whether the amounts of a table are written with a decimal
// comma: then a point may stand between thousands.
func hasDecimalComma(rows [][]string, amount int) bool {
	for _, row := range rows {
		m := amountForm.FindStringSubmatch(noBreakSpaces.Replace(at(row, amount)))
		if m != nil && (commaNumber.MatchString(m[1]) && !oneOfThree.MatchString(m[1]) || grouped[3].MatchString(m[1])) {
			return true
		}
	}
	return false
}

// readAmount turns a cell into "1.7 kg". What stands otherwise than a point between
// digits is read only where it can mean one thing, and readAs says how. Commas says
// that the table has decimal commas, so that 1.500 can mean two things, too.
func readAmount(text, unit string, commas bool) (amount, readAs string, err error) {
	m := amountForm.FindStringSubmatch(noBreakSpaces.Replace(text))
	if m == nil {
		return "", "", amountFault(text)
	}
	number := m[1]
	if m[2] != "" {
		unit = m[2]
	}
	if unit == "" {
		return "", "", diag.BadInput(badTable, fmt.Sprintf("the amount %s has no unit", text), "write the unit in the heading, like amount_g, or after the number")
	}
	if two := oneOfThree.FindStringSubmatch(number); two != nil && (two[1] == "," || commas) {
		whole, rest, _ := strings.Cut(number, two[1])
		fraction := strings.TrimRight(whole+"."+strings.TrimRight(rest, "0"), ".")
		return "", "", diag.BadInput(badTable, fmt.Sprintf("the amount %s can be read in two ways", text), fmt.Sprintf("write %s or %s", whole+rest, fraction))
	}
	plain, ok := plainly(number)
	if !ok {
		return "", "", amountFault(text)
	}
	if plain != number {
		readAs = fmt.Sprintf("%s read as %s", number, plain)
	}
	return plain + " " + unit, readAs, nil
}

func amountFault(text string) error {
	return diag.BadInput(badTable, fmt.Sprintf("the amount %q is not understood", text), "write a number and a unit, like 1.7 kg")
}

// plainly writes a number with nothing but a decimal point.
func plainly(number string) (string, bool) {
	switch {
	case plainNumber.MatchString(number):
		return number, true
	case commaNumber.MatchString(number):
		return strings.Replace(number, ",", ".", 1), true
	}
	for i, form := range grouped {
		if !form.MatchString(number) {
			continue
		}
		point := strings.LastIndexAny(number, ".,")
		if point < 0 || i >= 4 {
			point = len(number)
		}
		digits := func(s string) string {
			return strings.NewReplacer(" ", "", "'", "", "’", "", ".", "", ",", "").Replace(s)
		}
		plain := digits(number[:point])
		if point < len(number) {
			plain += "." + digits(number[point:])
		}
		return plain, true
	}
	return "", false
}
