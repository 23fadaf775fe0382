package main

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/records"
	"bowlwright/optimize"

	"github.com/urfave/cli/v2"
)

func (p *program) checkCommand() *cli.Command {
	return &cli.Command{
		Name: "check", Usage: "is everything in use consistent: base, plans, weights, figures",
		Flags:  []cli.Flag{&cli.BoolFlag{Name: "deep", Usage: "recompute each plan independently"}},
		Action: p.check,
	}
}

// checkJSON is the contract of `check --json`.
type checkJSON struct {
	Format    string             `json:"format"`
	Household string             `json:"household"`
	Date      household.Date     `json:"date"`
	Base      household.Identity `json:"base"`
	Findings  []findingJSON      `json:"findings"`
}

// findingJSON is a finding with its hint as a person would type it.
type findingJSON struct {
	household.Finding
	Hint string `json:"hint"`
}

func (p *program) check(c *cli.Context) error {
	if err := noMore(c, 0); err != nil {
		return err
	}
	h, today, err := p.load(c)
	if err != nil {
		return err
	}
	inUse, findings, err := records.Open(h.Dir).InUse()
	if err != nil {
		return err
	}
	findings = append(findings, household.Check(h, records.PlansOf(inUse), today)...)
	if c.Bool("deep") {
		findings = append(findings, deepFindings(h, inUse)...)
	}
	if c.Bool("json") {
		all := make([]findingJSON, len(findings))
		for i, f := range findings {
			all[i] = findingJSON{f, p.advice(f)}
		}
		if err := p.printJSON(checkJSON{"bowlwright/check/1", h.Name, today, h.Base.Identity(), all}); err != nil {
			return err
		}
	} else {
		p.printFindings(c, h, findings)
	}
	return p.checkError(h, inUse, findings)
}

// deepFindings checks each plan in use that was made for the base in use.
func deepFindings(h *household.Household, inUse map[string]records.PlanRecord) []household.Finding {
	var all []household.Finding
	shared := optimize.Share(h)
	for i := range h.Pets {
		pet := &h.Pets[i]
		record, ok := inUse[pet.Name]
		if !ok {
			continue
		}
		if _, err := h.PairIn(record.Plan); err != nil {
			continue
		}
		// The plan is held against the weight that it was made for; that the weight
		// moved since is a finding of its own.
		then := *pet
		then.Animal.WeightKg = record.Plan.Pet.WeightKg
		all = append(all, optimize.Deep(record.Plan, shared, &then)...)
	}
	return all
}

func (p *program) printFindings(c *cli.Context, h *household.Household, findings []household.Finding) {
	p.say(c, "%s: base %s, %s\n", h.Name, h.Base.Identity().Code, h.Base.Name)
	for _, f := range findings {
		if f.Severity == household.Refusal && f.Code == "other-base" {
			// What differs and what to do is told once for all, at the end.
			fmt.Fprintf(p.env.stdout, "%-8s %s: the plan in use was made for another base\n", f.Severity, f.Pet)
			continue
		}
		who := ""
		if f.Pet != "" && !strings.HasPrefix(f.Message, f.Pet+" ") {
			who = f.Pet + ": "
		}
		fmt.Fprintf(p.env.stdout, "%-8s %s%s\n", f.Severity, who, f.Message)
		if hint := p.advice(f); hint != "" {
			fmt.Fprintf(p.env.stdout, "%-8s -> %s\n", "", hint)
		}
	}
	if len(findings) == 0 {
		p.say(c, "Everything in use fits together.\n")
	}
}

// checkError: a refusal outweighs a plan that is not met; what is only stale is
// said and is no error.
func (p *program) checkError(h *household.Household, inUse map[string]records.PlanRecord, findings []household.Finding) error {
	var refused []error
	for i := range h.Pets {
		if record, ok := inUse[h.Pets[i].Name]; ok {
			if _, err := h.PairIn(record.Plan); err != nil {
				refused = append(refused, err)
			}
		}
	}
	if len(refused) > 0 {
		return &refusedError{refused}
	}
	var wrong []string
	for _, f := range findings {
		if f.Severity != household.Problem {
			continue
		}
		about := f.Pet
		if about == "" {
			about = "the records"
		}
		if !slices.Contains(wrong, about) {
			wrong = append(wrong, about)
		}
	}
	if len(wrong) > 0 {
		return unmet("there is a problem with "+someOf(wrong), "each line above that begins with problem says what to do")
	}
	return nil
}
