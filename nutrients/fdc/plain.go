package fdc

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"bowlwright/nutrients"
)

// ReadPlain reads a table with one food a line, figures per 100 g. The header
// names the columns: name is needed; id, group, state, source and refuse_percent
// are known; every other column is a nutrient and its unit, "protein_g",
// "vitamin-d (IU)" or "zinc mg". An empty cell is unknown, never zero. A column
// that is no nutrient and a cell that is no number are noted; "<0.5" is the range
// from nothing to 0.5.
func ReadPlain(r io.Reader) (Result, error) {
	in := csv.NewReader(r)
	in.FieldsPerRecord = -1
	in.TrimLeadingSpace = true
	head, err := in.Read()
	if err != nil {
		return Result{}, fmt.Errorf("no header line: %w", err)
	}
	c := newCollector()
	columns := make([]column, len(head))
	for i, h := range head {
		columns[i] = parseColumn(strings.TrimPrefix(h, "\ufeff"))
		if columns[i].reason != "" {
			c.note("column "+h, columns[i].reason)
		}
	}
	if !slices.ContainsFunc(columns, func(k column) bool { return k.text == "name" }) {
		return Result{}, fmt.Errorf(`no column "name" in the header %q`, strings.Join(head, ","))
	}
	for {
		record, err := in.Read()
		if err == io.EOF {
			return c.finish(), nil
		}
		if err != nil {
			return Result{}, err
		}
		c.addPlain(columns, record)
	}
}

// column is what one column of a plain table holds: a text, or a nutrient.
type column struct {
	text   string
	id     nutrients.ID
	unit   string
	reason string
}

// textColumns are the columns that are not nutrients.
var textColumns = []string{"id", "name", "group", "state", "source", "refuse_percent"}

func parseColumn(head string) column {
	h := strings.TrimSpace(head)
	if slices.Contains(textColumns, strings.ToLower(h)) {
		return column{text: strings.ToLower(h)}
	}
	h = strings.NewReplacer("(", " ", ")", " ", "_", " ").Replace(h)
	words := strings.Fields(h)
	if len(words) < 2 {
		return column{reason: "not a nutrient with a unit, such as protein_g"}
	}
	unit := words[len(words)-1]
	key := strings.ToLower(strings.Join(words[:len(words)-1], "-"))
	id, ok := nutrients.ParseID(key)
	if !ok || id.Derived() || id == nutrients.DigestibleCarbohydrate {
		return column{reason: fmt.Sprintf("no nutrient %q in the table", key)}
	}
	if _, err := nutrients.Convert(1, unit, id); err != nil {
		return column{reason: err.Error()}
	}
	return column{id: id, unit: unit}
}

func (c *collector) addPlain(columns []column, record []string) {
	f := &nutrients.Food{Group: "imported", Source: nutrients.Source{Text: "own table"}}
	id := ""
	for i, cell := range record {
		cell = strings.TrimSpace(cell)
		if cell == "" {
			continue
		}
		if i >= len(columns) {
			c.note("cell beyond the header", "no column for it")
			continue
		}
		k := columns[i]
		switch k.text {
		case "id":
			id = slug(cell)
		case "name":
			f.Name = cell
		case "group":
			f.Group = slug(cell)
		case "state":
			f.State = cell
		case "source":
			f.Source.Text = cell
		case "refuse_percent":
			if x, err := strconv.ParseFloat(cell, 64); err == nil && x >= 0 && x < 100 {
				f.Refuse = x / 100
			} else {
				c.note("refuse_percent", "not a share from 0 to below 100")
			}
		default:
			if k.unit != "" {
				c.plainFigure(f, k, cell)
			}
		}
	}
	if f.Name == "" {
		c.note("line", "no name given")
		return
	}
	c.add(f, id)
	if id != "" && !c.ids[id] {
		delete(c.ids, f.ID)
		f.ID, c.ids[id] = id, true
	}
}

// plainFigure reads "12.5" or "<0.5".
func (c *collector) plainFigure(f *nutrients.Food, k column, cell string) {
	number, below := strings.CutPrefix(cell, "<")
	x, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if err != nil {
		c.note(k.id.String(), fmt.Sprintf("%q is not an amount (write 12.5, with a decimal point)", cell))
		return
	}
	v, err := nutrients.Convert(x, k.unit, k.id)
	if err != nil {
		c.note(k.id.String(), err.Error())
		return
	}
	if !possible(v, k.id) {
		c.note(k.id.String(), fmt.Sprintf("%q is negative or more than the food weighs", cell))
		return
	}
	if below {
		f.Per100g[k.id] = nutrients.Between(0, v)
		return
	}
	f.Per100g[k.id] = nutrients.Known(v)
}
