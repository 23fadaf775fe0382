package records

import (
	"encoding/json"
	"fmt"

	"bowlwright/household"
	"bowlwright/household/diag"
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

// LatestCooking returns the newest cooking of a base, nil when there is none, and
// a finding for each record that cannot be used.
func (r *Folder) LatestCooking(base *household.Batch) (*household.Cooking, []household.Finding, error) {
	names, findings, err := r.list()
	if err != nil {
		return nil, nil, err
	}
	recipe := base.RecipeDigest()
	for i := len(names) - 1; i >= 0; i-- {
		if names[i].kind != KindCooked {
			continue
		}
		c, fault := r.cooking(names[i])
		if fault != nil {
			findings = append(findings, *fault)
		} else if c.Base.RecipeDigest == recipe {
			return c, findings, nil
		}
	}
	return nil, findings, nil
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
