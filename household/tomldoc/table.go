package tomldoc

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"bowlwright/household/diag"
	"bowlwright/household/visible"
)

// Table is one table of a document, read key by key. What is wrong with a value
// is reported where it is read.
type Table struct {
	Doc *Document
	// Path names the table among all of the document.
	Path string
	m    map[string]any
}

// Table returns the document's outermost table.
func (d *Document) Table() Table { return Table{Doc: d, m: d.Root} }

// Empty returns a table in the place of this one that holds nothing.
func (t Table) Empty() Table { return Table{Doc: t.Doc, Path: t.Path} }

// Keys returns the keys in order.
func (t Table) Keys() []string { return slices.Sorted(maps.Keys(t.m)) }

// Value returns the value of a key as the TOML library gives it, nil for none.
func (t Table) Value(key string) any { return t.m[key] }

// Has says whether a key is there, whatever its value.
func (t Table) Has(key string) bool { _, ok := t.m[key]; return ok }

// At returns where the value of a key stands; for a key that is not there, where
// the table begins.
func (t Table) At(key string) Stretch {
	if n, ok := t.Doc.index.byPath[sub(t.Path, key)]; ok {
		return t.Doc.index.entries[n].value
	}
	return t.Head()
}

// KeySpan returns where a key itself stands.
func (t Table) KeySpan(key string) Stretch {
	if n, ok := t.Doc.index.byPath[sub(t.Path, key)]; ok {
		return t.Doc.index.entries[n].key
	}
	if n, ok := t.Doc.index.byPath[element(sub(t.Path, key), 0)]; ok {
		return t.Doc.index.entries[n].key
	}
	return t.Head()
}

// Head returns the header of the table, or the first line of the file.
func (t Table) Head() Stretch {
	if n, ok := t.Doc.index.byPath[t.Path]; ok {
		return t.Doc.index.entries[n].key
	}
	return t.Doc.Line(0)
}

// Fault reports an error at the value of a key.
func (t Table) Fault(key, code, summary, hint string, command ...string) {
	t.Doc.Add(code, t.At(key), summary, hint, command...)
}

// Warn reports something that does not stop the work.
func (t Table) Warn(key, code, summary, hint string, command ...string) {
	t.Doc.Report(diag.Diagnostic{Severity: diag.Warning, Code: code, Summary: summary, Hint: diag.Command(hint, command...), At: t.Doc.Span(t.At(key))})
}

// Missing reports that a key is not there. In a file of which lines had to be
// skipped it may stand in them, and a misspelt key is reported as such: then nothing
// is said.
func (t Table) Missing(key, summary, hint string, command ...string) {
	if !t.Doc.Broken && !t.Doc.meant[sub(t.Path, key)] {
		t.Doc.Add("missing-key", t.Head(), summary, hint, command...)
	}
}

// Only reports each key that is none of the known ones.
func (t Table) Only(known ...string) {
	for _, key := range t.Keys() {
		if slices.Contains(known, key) || len(t.Doc.Diags) >= MaxFaults && t.Doc.full() {
			continue
		}
		hint := "known here: " + strings.Join(known, ", ")
		if near, ok := diag.Nearest(key, known); ok {
			hint = "did you mean " + near + "?"
			t.Doc.means(sub(t.Path, near))
			if strings.EqualFold(near, key) {
				hint = "write it in lower case: " + near
			}
		}
		t.Doc.Add("unknown-key", t.KeySpan(key), fmt.Sprintf("unknown key %q", diag.Clip(key)), hint)
	}
}

// kind names the type of a TOML value for people.
func kind(v any) string {
	switch v.(type) {
	case string:
		return "text"
	case int64, float64:
		return "a number"
	case bool:
		return "true or false"
	case time.Time:
		return "a date"
	case []any:
		return "a list"
	}
	return "a table"
}

func (t Table) wrong(key, want, hint string) {
	t.Fault(key, "wrong-type", fmt.Sprintf("%s is %s, not %s", key, kind(t.m[key]), want), hint)
}

// Text reads a text. A text of white space only counts as a fault.
func (t Table) Text(key string) (string, bool) {
	v, ok := t.m[key]
	if !ok {
		return "", false
	}
	s, ok := v.(string)
	if !ok {
		t.wrong(key, "text", fmt.Sprintf("put it in quotes: %s = %q", key, strings.TrimSpace(fmt.Sprint(v))))
		return "", false
	}
	if strings.TrimSpace(s) == "" {
		t.Fault(key, "empty-text", key+" is empty", "write something between the quotes, or leave the line out")
		return "", false
	}
	if hidden, found := visible.Hidden(s); found {
		t.Fault(key, "hidden-character", fmt.Sprintf("%s holds the character %s, which cannot be seen", key, hidden), "type the text anew, without copying it")
		return "", false
	}
	return s, true
}

// Choice reads a text that must be one of a few.
func (t Table) Choice(key string, known ...string) (string, bool) {
	s, ok := t.Text(key)
	if !ok || slices.Contains(known, s) {
		return s, ok
	}
	t.Fault(key, "unknown-choice", fmt.Sprintf("%s cannot be %q", key, diag.Clip(s)), diag.NearHint(s, known))
	return "", false
}

// WholeNumber reads a whole number between two limits.
func (t Table) WholeNumber(key string, least, most int, why string) (int, bool) {
	v, ok := t.m[key]
	if !ok {
		return 0, false
	}
	n, ok := v.(int64)
	if f, isFloat := v.(float64); isFloat && f == math.Trunc(f) && math.Abs(f) < 1e6 {
		n, ok = int64(f), true
	}
	if !ok {
		t.wrong(key, "a whole number", fmt.Sprintf("write a whole number from %d to %d without quotes", least, most))
		return 0, false
	}
	if n < int64(least) || n > int64(most) {
		t.Fault(key, "out-of-range", fmt.Sprintf("%s is %d, outside %d to %d", key, n, least, most), why)
		return 0, false
	}
	return int(n), true
}

// Yes reads true or false.
func (t Table) Yes(key string) bool {
	v, ok := t.m[key]
	if !ok {
		return false
	}
	b, ok := v.(bool)
	if !ok {
		t.wrong(key, "true or false", "write true or false without quotes")
	}
	return b
}

// Date reads a calendar day, as TOML writes it or as a text; its time of day and
// zone mean nothing.
func (t Table) Date(key string) (time.Time, bool) {
	v, ok := t.m[key]
	if !ok {
		return time.Time{}, false
	}
	when, ok := v.(time.Time)
	if !ok {
		if s, isText := v.(string); isText {
			if day, err := time.Parse(time.DateOnly, s); err == nil {
				return day, true
			}
		}
		t.wrong(key, "a date", "write it without quotes: "+key+" = 2020-03-14")
		return time.Time{}, false
	}
	return when, true
}

// Dated says whether the value of a key is a day, for keys that take something else too.
func (t Table) Dated(key string) bool {
	_, is := t.m[key].(time.Time)
	return is
}

// List reads a list of texts, or one text alone. The second result holds where
// each stands.
func (t Table) List(key string) (words []string, at []Stretch) {
	v, ok := t.m[key]
	if !ok {
		return nil, nil
	}
	if _, one := v.(string); one {
		s, ok := t.Text(key)
		if !ok {
			return nil, nil
		}
		return []string{s}, []Stretch{t.At(key)}
	}
	items, ok := v.([]any)
	if !ok {
		t.wrong(key, "a list of texts", fmt.Sprintf("write %s = [\"one\", \"two\"]", key))
		return nil, nil
	}
	path := sub(t.Path, key)
	for i, item := range items {
		where := t.At(key)
		if n, ok := t.Doc.index.byPath[element(path, i)]; ok {
			where = t.Doc.index.entries[n].value
		}
		s, ok := item.(string)
		if !ok || strings.TrimSpace(s) == "" {
			t.Doc.Add("wrong-type", where, fmt.Sprintf("this is %s, not a name", kind(item)), "put each name in quotes")
			continue
		}
		if hidden, found := visible.Hidden(s); found {
			t.Doc.Add("hidden-character", where, fmt.Sprintf("this holds the character %s, which cannot be seen", hidden), "type the text anew, without copying it")
			continue
		}
		words, at = append(words, s), append(at, where)
	}
	return words, at
}

// One reads a table inside this one.
func (t Table) One(key string) (Table, bool) {
	v, ok := t.m[key]
	if !ok {
		return Table{}, false
	}
	m, ok := v.(map[string]any)
	if !ok {
		t.wrong(key, "a table", "write it under a line of its own: ["+key+"]")
		return Table{}, false
	}
	return Table{t.Doc, sub(t.Path, key), m}, true
}

// Many reads an array of tables, or a list of inline tables.
func (t Table) Many(key string) []Table {
	v, ok := t.m[key]
	if !ok {
		return nil
	}
	path := sub(t.Path, key)
	var all []Table
	switch v := v.(type) {
	case []map[string]any:
		for i, m := range v {
			all = append(all, Table{t.Doc, element(path, i), m})
		}
		return all
	case []any:
		for i, item := range v {
			m, ok := item.(map[string]any)
			if !ok {
				t.wrong(key, "a list of tables", "begin each with a line of its own: [["+key+"]]")
				return nil
			}
			all = append(all, Table{t.Doc, element(path, i), m})
		}
		return all
	}
	t.wrong(key, "a list of tables", "begin each with a line of its own: [["+key+"]]")
	return nil
}

// InputFault reports what a parser of quantities found at a key.
func (t Table) InputFault(key string, err error) {
	var in *diag.InputError
	if !errors.As(err, &in) {
		in = diag.BadInput("bad-value", err.Error(), "")
	}
	t.Fault(key, in.Code, in.Summary, in.Advice.Text, in.Advice.Command...)
}

// Quantity reads a text with parse, and helps with a number that has no quotes
// and so no unit.
func (t Table) Quantity(key, example string, parse func(string) (float64, error)) (float64, bool) {
	switch v := t.m[key].(type) {
	case nil:
		return 0, false
	case int64, float64:
		t.Fault(key, "no-unit", fmt.Sprintf("%s is %v without a unit", key, v), fmt.Sprintf("put number and unit in quotes, like %s = %q", key, example))
		return 0, false
	}
	s, ok := t.Text(key)
	if !ok {
		return 0, false
	}
	x, err := parse(s)
	if err != nil {
		t.InputFault(key, err)
		return 0, false
	}
	return x, true
}

// Positive reads a quantity that must be above zero.
func (t Table) Positive(key, example string, parse func(string) (float64, error)) (float64, bool) {
	x, ok := t.Quantity(key, example, parse)
	if ok && x <= 0 {
		t.Fault(key, "not-positive", fmt.Sprintf("%s must be more than nothing", key), fmt.Sprintf("write it like %s = %q", key, example))
		return 0, false
	}
	return x, ok
}
