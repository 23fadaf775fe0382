package records

import (
	"fmt"
	"strconv"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
)

// Entry is one record in a list, known by its name alone.
type Entry struct {
	Ref  string         `json:"ref"`
	Date household.Date `json:"date"`
	// About is the slug of the pet or of the base.
	Kind  Kind   `json:"kind"`
	About string `json:"about"`
	Path  string `json:"path"`
	Seq   int    `json:"seq"`
}

func (n recordName) entry() Entry {
	return Entry{Ref: n.ref(), Date: n.date, Kind: n.kind, About: n.slug, Path: n.path, Seq: n.seq}
}

// History lists the records in order without reading them; with a pet's name only
// its plans.
func (r *Folder) History(pet string) ([]Entry, []household.Finding, error) {
	names, findings, err := r.list()
	if err != nil {
		return nil, nil, err
	}
	entries := make([]Entry, 0, len(names))
	for _, n := range names {
		if pet == "" || n.kind == KindPlan && n.slug == household.Slug(pet) {
			entries = append(entries, n.entry())
		}
	}
	return entries, findings, nil
}

// Plan finds one plan record by its reference ("0007-marlow"), by its number
// alone, or by the name of its file. What is not there is an *diag.InputError, what
// was edited or is newer a *RecordError.
func (r *Folder) Plan(ref string) (PlanRecord, error) {
	names, _, err := r.list()
	if err != nil {
		return PlanRecord{}, err
	}
	n, err := pick(names, KindPlan, ref)
	if err != nil {
		return PlanRecord{}, err
	}
	p, fault := r.plan(n)
	if fault != nil {
		return PlanRecord{}, &RecordError{*fault}
	}
	return p, nil
}

// RecordError says that a record cannot be used.
type RecordError struct{ Finding household.Finding }

func (e *RecordError) Error() string { return e.Finding.Message }

// ExitCode is that of bad input.
func (e *RecordError) ExitCode() int { return diag.ExitInput }

// Hint says what to do about the record.
func (e *RecordError) Hint() diag.Hint { return e.Finding.Hint }

// pick finds one record of a kind.
func pick(names []recordName, kind Kind, ref string) (recordName, error) {
	ref = strings.TrimSpace(ref)
	number, err := strconv.Atoi(ref)
	byNumber := err == nil
	var found []recordName
	var known []string
	for _, n := range names {
		if n.kind != kind {
			continue
		}
		known = append(known, n.ref())
		if byNumber && n.seq == number || strings.EqualFold(n.ref(), ref) || n.String() == ref || strings.HasSuffix(ref, "/"+n.String()) {
			found = append(found, n)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		hint, command := "list them with", []string{"history"}
		if len(known) > 0 && len(known) <= diag.MaxListed {
			hint, command = diag.NearHint(ref, known), nil
		}
		return recordName{}, diag.BadInput("unknown-record", fmt.Sprintf("there is no %s record %q", kind, diag.Clip(ref)), hint, command...)
	}
	return recordName{}, diag.BadInput("unknown-record", fmt.Sprintf("%d records are named %q", len(found), diag.Clip(ref)), "name one by its file, like "+found[0].String())
}
