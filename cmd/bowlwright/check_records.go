package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/records"
)

// surveyJSON is what `check --all-records --json` says beside the findings.
type surveyJSON struct {
	Read    map[string]int `json:"read"`
	Damaged int            `json:"damaged"`
}

// surveyed reads every record, and says so on a terminal while it lasts.
func surveyed(p *program, store *records.Folder) (*records.Survey, error) {
	defer p.progress("reading every record", progressDelay)()
	s, err := store.Survey()
	return &s, err
}

// withSurvey adds what a survey found; what was said already is said with what works
// without it instead.
func withSurvey(findings []household.Finding, s *records.Survey) []household.Finding {
	findings = slices.DeleteFunc(findings, func(f household.Finding) bool {
		return slices.ContainsFunc(s.Findings, func(other household.Finding) bool {
			return other.Code == f.Code && strings.HasPrefix(other.Message, f.Message)
		})
	})
	return append(findings, s.Findings...)
}

func surveyOf(s *records.Survey) *surveyJSON {
	if s == nil {
		return nil
	}
	return &surveyJSON{s.Read, s.Damaged}
}

// printSurvey says what was read, so that nobody has to take silence for a look.
func printSurvey(p *program, s *records.Survey) {
	if s == nil {
		return
	}
	total := 0
	var kinds []string
	for _, kind := range slices.Sorted(maps.Keys(s.Read)) {
		total += s.Read[kind]
		kinds = append(kinds, fmt.Sprintf("%s %d", kind, s.Read[kind]))
	}
	p.say("Every record was read: %d (%s), %d damaged.\n", total, strings.Join(kinds, ", "), s.Damaged)
}
