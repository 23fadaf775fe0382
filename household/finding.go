package household

import "bowlwright/household/diag"

// Severity of a finding.
type Severity string

// The severities: Refusal means that base and add-on do not belong together.
const (
	Refusal Severity = "refusal"
	Problem Severity = "problem"
	Stale   Severity = "stale"
	Notice  Severity = "notice"
)

// Finding is one thing that `check` has to say.
type Finding struct {
	Pet string `json:"pet"`
	// Code is stable and kebab-case: "other-base", "weight-moved", ...
	Code     string   `json:"code"`
	Severity Severity `json:"severity"`
	Message  string   `json:"message"`
	// Hint says what to do, Ways are further ways out.
	Hint diag.Hint   `json:"-"`
	Ways []diag.Hint `json:"-"`
	// Barred marks an out-of-date plan that is past the bound up to which its card is
	// printed with a banner.
	Barred bool `json:"-"`
}

// OutOfDate picks the findings that say why a plan must not be taken for valid.
func OutOfDate(findings []Finding) []Finding {
	var reasons []Finding
	for _, f := range findings {
		if f.Severity == Stale && f.Code != "weigh-in-overdue" && f.Code != "no-plan" {
			reasons = append(reasons, f)
		}
	}
	return reasons
}
