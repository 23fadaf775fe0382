package household

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"bowlwright/household/diag"
)

// table is one table of a document, read key by key. What is wrong with a value
// is reported where it is read.
type table struct {
	d    *document
	path string
	m    map[string]any
}

func (d *document) table() table { return table{d: d, m: d.root} }

// has says whether a key is there, whatever its value.
func (t table) has(key string) bool { _, ok := t.m[key]; return ok }

// at returns where the value of a key stands; for a key that is not there, where
// the table begins.
func (t table) at(key string) stretch {
	if n, ok := t.d.index.byPath[sub(t.path, key)]; ok {
		return t.d.index.entries[n].value
	}
	return t.head()
}

// keySpan returns where a key itself stands.
func (t table) keySpan(key string) stretch {
	if n, ok := t.d.index.byPath[sub(t.path, key)]; ok {
		return t.d.index.entries[n].key
	}
	if n, ok := t.d.index.byPath[element(sub(t.path, key), 0)]; ok {
		return t.d.index.entries[n].key
	}
	return t.head()
}

// head returns the header of the table, or the first line of the file.
func (t table) head() stretch {
	if n, ok := t.d.index.byPath[t.path]; ok {
		return t.d.index.entries[n].key
	}
	return t.d.line(0)
}

// fault reports an error at the value of a key.
func (t table) fault(key, code, summary, hint string, command ...string) {
	t.d.add(code, t.at(key), summary, hint, command...)
}

// warn reports something that does not stop the work.
func (t table) warn(key, code, summary, hint string, command ...string) {
	if t.d.full() {
		return
	}
	t.d.diags = append(t.d.diags, diag.Diagnostic{Severity: diag.Warning, Code: code, Summary: summary, Hint: diag.Command(hint, command...), At: t.d.span(t.at(key))})
}

// missing reports that a key is not there. In a file of which lines had to be
// skipped it may stand in them, and a misspelt key is reported as such: then nothing
// is said.
func (t table) missing(key, summary, hint string, command ...string) {
	if !t.d.broken && !t.d.meant[sub(t.path, key)] {
		t.d.add("missing-key", t.head(), summary, hint, command...)
	}
}

// only reports each key that is none of the known ones.
func (t table) only(known ...string) {
	for _, key := range sortedKeys(t.m) {
		if slices.Contains(known, key) || len(t.d.diags) >= maxFaults && t.d.full() {
			continue
		}
		hint := "known here: " + strings.Join(known, ", ")
		if near, ok := diag.Nearest(key, known); ok {
			hint = "did you mean " + near + "?"
			t.d.means(sub(t.path, near))
			if strings.EqualFold(near, key) {
				hint = "write it in lower case: " + near
			}
		}
		t.d.add("unknown-key", t.keySpan(key), fmt.Sprintf("unknown key %q", clip(key)), hint)
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

func (t table) wrong(key, want, hint string) {
	t.fault(key, "wrong-type", fmt.Sprintf("%s is %s, not %s", key, kind(t.m[key]), want), hint)
}

// text reads a text. A text of white space only counts as a fault.
func (t table) text(key string) (string, bool) {
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
		t.fault(key, "empty-text", key+" is empty", "write something between the quotes, or leave the line out")
		return "", false
	}
	return s, true
}

// choice reads a text that must be one of a few.
func (t table) choice(key string, known ...string) (string, bool) {
	s, ok := t.text(key)
	if !ok || slices.Contains(known, s) {
		return s, ok
	}
	t.fault(key, "unknown-choice", fmt.Sprintf("%s cannot be %q", key, clip(s)), nearHint(s, known))
	return "", false
}

// nearHint names the nearest known word, or all of them.
func nearHint(word string, known []string) string {
	if near, ok := diag.Nearest(word, known); ok {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "known: " + strings.Join(known, ", ")
}

// whole reads a whole number between two limits.
func (t table) whole(key string, least, most int, why string) (int, bool) {
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
		t.fault(key, "out-of-range", fmt.Sprintf("%s is %d, outside %d to %d", key, n, least, most), why)
		return 0, false
	}
	return int(n), true
}

// yes reads true or false.
func (t table) yes(key string) bool {
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

// date reads a calendar day.
func (t table) date(key string) (Date, bool) {
	v, ok := t.m[key]
	if !ok {
		return Date{}, false
	}
	when, ok := v.(time.Time)
	if !ok {
		hint := "write it without quotes: " + key + " = 2020-03-14"
		if s, isText := v.(string); isText {
			if d, err := ParseDate(s); err == nil {
				return d, true
			}
		}
		t.wrong(key, "a date", hint)
		return Date{}, false
	}
	return DateOf(when), true
}

// list reads a list of texts, or one text alone. The second result holds where
// each stands.
func (t table) list(key string) (words []string, at []stretch) {
	v, ok := t.m[key]
	if !ok {
		return nil, nil
	}
	if s, one := v.(string); one {
		return []string{s}, []stretch{t.at(key)}
	}
	items, ok := v.([]any)
	if !ok {
		t.wrong(key, "a list of texts", fmt.Sprintf("write %s = [\"one\", \"two\"]", key))
		return nil, nil
	}
	path := sub(t.path, key)
	for i, item := range items {
		where := t.at(key)
		if n, ok := t.d.index.byPath[element(path, i)]; ok {
			where = t.d.index.entries[n].value
		}
		s, ok := item.(string)
		if !ok || strings.TrimSpace(s) == "" {
			t.d.add("wrong-type", where, fmt.Sprintf("this is %s, not a name", kind(item)), "put each name in quotes")
			continue
		}
		words, at = append(words, s), append(at, where)
	}
	return words, at
}

// one reads a table inside this one.
func (t table) one(key string) (table, bool) {
	v, ok := t.m[key]
	if !ok {
		return table{}, false
	}
	m, ok := v.(map[string]any)
	if !ok {
		t.wrong(key, "a table", "write it under a line of its own: ["+key+"]")
		return table{}, false
	}
	return table{t.d, sub(t.path, key), m}, true
}

// many reads an array of tables, or a list of inline tables.
func (t table) many(key string) []table {
	v, ok := t.m[key]
	if !ok {
		return nil
	}
	path := sub(t.path, key)
	var all []table
	switch v := v.(type) {
	case []map[string]any:
		for i, m := range v {
			all = append(all, table{t.d, element(path, i), m})
		}
		return all
	case []any:
		for i, item := range v {
			m, ok := item.(map[string]any)
			if !ok {
				t.wrong(key, "a list of tables", "begin each with a line of its own: [["+key+"]]")
				return nil
			}
			all = append(all, table{t.d, element(path, i), m})
		}
		return all
	}
	t.wrong(key, "a list of tables", "begin each with a line of its own: [["+key+"]]")
	return nil
}
