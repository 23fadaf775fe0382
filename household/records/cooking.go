package records

import (
	"cmp"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/reading"
)

// RecordCooking records that a base was cooked: rawG of ingredients (0 for the
// amounts as declared) gave cookedG.
func (r *Folder) RecordCooking(base *household.Batch, date household.Date, rawG, cookedG float64, note string) (*household.Cooking, Entry, error) {
	c, err := household.NewCooking(base, date, rawG, cookedG, note)
	if err != nil {
		return nil, Entry{}, err
	}
	names, err := r.write([]newRecord{{date, KindCooked, household.Slug(c.Base.File), c}})
	if err != nil {
		return nil, Entry{}, err
	}
	return c, names[0].entry(), nil
}

// LatestCooking returns the newest cooking of a base by date and time, then number; nil
// when there is none. Where a newer one may be among the records that cannot be used, or
// is missing, it is a *RecordError: an older pot never counts in its place. The findings
// are of the others that cannot be used.
func (r *Folder) LatestCooking(base *household.Batch) (*household.Cooking, []household.Finding, error) {
	names, findings, err := r.list()
	if err != nil {
		return nil, nil, err
	}
	if f, missing := r.missed(names, KindCooked)[household.Slug(base.File)]; missing {
		return nil, findings, &RecordError{f}
	}
	for _, n := range newestFirst(names, KindCooked) {
		c, fault := r.cooking(n)
		switch {
		case fault == nil && base.IsRecorded(c.Base):
			return c, findings, nil
		case fault != nil && r.mayBe(n, base):
			fault.Hint = wayBack(n)
			return nil, findings, &RecordError{*fault}
		case fault != nil:
			findings = append(findings, *fault)
		}
	}
	return nil, findings, nil
}

// mayBe says whether a record that cannot be read may be of a base: its name says so,
// or names no file of another base.
func (r *Folder) mayBe(n recordName, base *household.Batch) bool {
	if n.slug == household.Slug(base.File) {
		return true
	}
	_, err := os.Lstat(filepath.Join(r.dir, reading.BasesFolder, n.slug+".toml"))
	return err != nil
}

// newestFirst returns the records of a kind by date and time, then number, the newest
// first: two places that write do not share their numbers.
func newestFirst(names []recordName, kind Kind) []recordName {
	some := slices.DeleteFunc(slices.Clone(names), func(n recordName) bool { return n.kind != kind })
	slices.SortStableFunc(some, func(a, b recordName) int {
		return cmp.Or(strings.Compare(b.made(), a.made()), cmp.Compare(b.seq, a.seq))
	})
	return some
}

// cooking reads one record of a cooking.
func (r *Folder) cooking(n recordName) (*household.Cooking, *household.Finding) {
	text, fault := r.read(n)
	if fault == nil {
		fault = r.checkFormat(n, text, household.CookingFormat)
	}
	if fault != nil {
		return nil, fault
	}
	c := new(household.Cooking)
	if err := json.Unmarshal(text, c); err != nil {
		return nil, &household.Finding{Code: "record-edited", Severity: household.Problem, Message: fmt.Sprintf("%s is not a cooking: %v", r.shown(n.path), err), Hint: diag.Hint{Text: "move it out of records/"}}
	}
	if err := c.Examine(); err != nil {
		return nil, r.unsound(n, err)
	}
	return c, nil
}
