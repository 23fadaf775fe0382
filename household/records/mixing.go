package records

import (
	"encoding/json"

	"bowlwright/household"
	"bowlwright/household/diag"
)

// RecordMixing records that a jar was mixed.
func (r *Folder) RecordMixing(m *household.Mixing) error {
	_, err := r.write([]newRecord{{m.Date, KindMixed, household.Slug(m.Jar.Name), m}})
	return err
}

// Mixings returns the newest mixing of each name that was mixed by a day and is still
// good on it, and a finding for each newest record that cannot be used: an older mix is
// never taken for the one in hand.
func (r *Folder) Mixings(today household.Date) ([]*household.Mixing, []household.Finding, error) {
	names, _, err := r.list()
	if err != nil {
		return nil, nil, err
	}
	var all []*household.Mixing
	var findings []household.Finding
	seen := map[string]bool{}
	for i := len(names) - 1; i >= 0; i-- {
		n := names[i]
		if n.kind != KindMixed || seen[n.slug] || today.Before(n.date) {
			continue
		}
		seen[n.slug] = true
		m, fault := r.mixing(n)
		switch {
		case fault != nil:
			findings = append(findings, *fault)
		case !m.UseBy.Before(today):
			all = append(all, m)
		}
	}
	return all, findings, nil
}

// mixing reads one record of a mixing.
func (r *Folder) mixing(n recordName) (*household.Mixing, *household.Finding) {
	text, fault := r.read(n)
	if fault == nil {
		fault = r.checkFormat(n, text, household.MixingFormat)
	}
	if fault != nil {
		return nil, fault
	}
	m := new(household.Mixing)
	if err := json.Unmarshal(text, m); err != nil || !m.Jar.Sound() {
		return nil, &household.Finding{Code: "record-edited", Severity: household.Problem, Message: r.shown(n.path) + " is not a mixing", Hint: diag.Hint{Text: "move it out of records/"}}
	}
	return m, nil
}
