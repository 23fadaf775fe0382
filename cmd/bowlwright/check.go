package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"bowlwright/cmd/bowlwright/internal/terminal"
	"bowlwright/household"
	"bowlwright/household/records"
	"bowlwright/household/upkeep"
	"bowlwright/optimize"

	"github.com/urfave/cli/v2"
)

func checkCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "check", Usage: "check that everything in use fits together: base, plans, weights, figures",
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "deep", Usage: "recompute each plan independently, and ask another solver about a sample"},
			&cli.BoolFlag{Name: "second-opinion", Usage: "ask another solver about each plan, which takes longer; implies --deep"},
			&cli.BoolFlag{Name: "all-records", Usage: "read every record ever written, and name each that is damaged and what works without it"},
		},
		Action: func(c *cli.Context) error {
			return checkOptions{deep: c.Bool("deep") || c.Bool("second-opinion"), secondOpinion: c.Bool("second-opinion"), allRecords: c.Bool("all-records")}.run(p)
		},
	}
}

// checkJSON is the contract of `check --json`.
type checkJSON struct {
	Format    string             `json:"format"`
	Household string             `json:"household"`
	Date      household.Date     `json:"date"`
	Base      household.Identity `json:"base"`
	Findings  []findingJSON      `json:"findings"`
	// Records counts what --all-records read.
	Records *surveyJSON `json:"records,omitempty"`
}

// findingJSON is a finding with its hint as a person would type it.
type findingJSON struct {
	household.Finding
	Hint string `json:"hint"`
}

func (p *program) findingsJSON(findings []household.Finding) []findingJSON {
	all := make([]findingJSON, len(findings))
	for i, f := range findings {
		all[i] = findingJSON{f, p.advice(f)}
	}
	return all
}

// checkOptions are what `check` takes.
type checkOptions struct {
	// deep recomputes each plan; secondOpinion asks another solver about all of them, not
	// just about a sample.
	deep, secondOpinion bool
	// allRecords reads every record.
	allRecords bool
}

func (o checkOptions) run(p *program) error {
	if err := p.noMore(0); err != nil {
		return err
	}
	c, err := p.checked()
	if err != nil {
		return err
	}
	h, today, store, inUse, findings := c.household, c.today, c.store, c.inUse, c.findings
	var survey *records.Survey
	if o.allRecords {
		if survey, err = surveyed(p, store); err != nil {
			return err
		}
		findings = withSurvey(findings, survey)
	}
	if o.deep {
		findings = append(findings, deepFindings(h, inUse, o.secondOpinion)...)
	}
	if p.json {
		if err := p.printJSON(checkJSON{"bowlwright/check/1", h.Name, today, h.Base.Identity(), p.findingsJSON(findings), surveyOf(survey)}); err != nil {
			return err
		}
	} else {
		printFindings(p, h, findings)
		printSurvey(p, survey)
	}
	return checkError(p, h, inUse, findings)
}

// checkedHousehold is a household with what `check` finds in it without being asked for
// more.
type checkedHousehold struct {
	household *household.Household
	today     household.Date
	store     *records.Folder
	inUse     map[string]records.PlanRecord
	findings  []household.Finding
}

// checked reads the household, its plans in use and what is to be said of them.
func (p *program) checked() (*checkedHousehold, error) {
	h, today, err := p.load()
	if err != nil {
		return nil, err
	}
	store := records.Open(h.Dir)
	inUse, findings, err := store.InUse()
	if err == nil {
		err = store.Remember(h)
	}
	if err != nil {
		return nil, err
	}
	findings = append(findings, upkeep.Check(h, records.PlansOf(inUse), today)...)
	audit, err := store.Audit(today)
	if err != nil {
		return nil, err
	}
	return &checkedHousehold{h, today, store, inUse, append(findings, audit...)}, nil
}

// sampled is of how many plans one is shown to another solver: it takes a hundred times as
// long as the rest of the check.
const sampled = 20

// deepFindings checks each plan in use that was made for the base in use.
func deepFindings(h *household.Household, inUse map[string]records.PlanRecord, secondOpinion bool) []household.Finding {
	var all []household.Finding
	// Plans are held against the shelf with their own jar on it.
	shared := map[string]*optimize.Shared{"": optimize.Share(h)}
	sharedWith := func(plan *household.Plan) *optimize.Shared {
		j := plan.Pet.Jar
		if j == nil {
			return shared[""]
		}
		if shared[j.Mix.Name+j.Mix.Digest] == nil {
			with, _ := h.WithJars([]household.Jar{j.Mix})
			shared[j.Mix.Name+j.Mix.Digest] = optimize.Share(with)
		}
		return shared[j.Mix.Name+j.Mix.Digest]
	}
	for i := range h.Pets {
		pet := &h.Pets[i]
		record, ok := inUse[pet.Name]
		if !ok {
			continue
		}
		if _, err := h.PairIn(record.Sound()); err != nil {
			continue
		}
		// The plan is held against the weights that it was made for; that a weight
		// moved since is a finding of its own.
		then := *pet
		then.Animal.WeightKg, then.Animal.ScoredKg = record.Plan.Pet.WeightKg, record.Plan.Pet.ScoredKg
		all = append(all, optimize.Deep(record.Plan, sharedWith(record.Plan), &then)...)
		if secondOpinion || i%sampled == 0 {
			all = append(all, optimize.SecondOpinion(record.Plan)...)
		}
	}
	return all
}

// shownSeverity is the severity in the words of the screen.
func shownSeverity(s household.Severity) string {
	if s == household.Stale {
		return "out of date"
	}
	return string(s)
}

func printFindings(p *program, h *household.Household, findings []household.Finding) {
	p.say("%s: base %s, %s\n", h.Name, h.Base.Identity().Code, h.Base.Name)
	for _, f := range findings {
		if f.Severity == household.Refusal && f.Code == "other-base" {
			// What differs and what to do is told once for all, at the end.
			fmt.Fprintf(p.env.stdout, "%-11s %s: the plan in use was made for another base\n", shownSeverity(f.Severity), f.Pet)
			continue
		}
		if f.Severity == household.Refusal && f.Code == "other-jar" {
			fmt.Fprintf(p.env.stdout, "%-11s %s: the dose was made for another jar than the one in hand\n", shownSeverity(f.Severity), f.Pet)
			continue
		}
		who := ""
		if f.Pet != "" && !strings.HasPrefix(f.Message, f.Pet+" ") {
			who = f.Pet + ": "
		}
		fmt.Fprintf(p.env.stdout, "%-11s %s%s\n", shownSeverity(f.Severity), who, f.Message)
		if hint := p.advice(f); hint != "" {
			fmt.Fprintf(p.env.stdout, "%-11s -> %s\n", "", hint)
		}
	}
	if len(findings) == 0 {
		p.say("Everything in use fits together.\n")
	}
}

// checkError: a refusal outweighs a plan that is not met, and that outweighs one that is
// only out of date.
func checkError(p *program, h *household.Household, inUse map[string]records.PlanRecord, findings []household.Finding) error {
	var refused []error
	for i := range h.Pets {
		if record, ok := inUse[h.Pets[i].Name]; ok {
			if _, err := h.PairIn(record.Sound()); err != nil {
				refused = append(refused, err)
			}
		}
	}
	if len(refused) > 0 {
		return &refusedError{refused}
	}
	about := map[household.Severity][]string{}
	for _, f := range findings {
		who := f.Pet
		if who == "" {
			who = "the records"
		}
		if !slices.Contains(about[f.Severity], who) {
			about[f.Severity] = append(about[f.Severity], who)
		}
	}
	if wrong := about[household.Problem]; len(wrong) > 0 {
		return unmet(someOf(wrong)+needAttention(len(wrong)), "each line above that begins with problem says what to do")
	}
	if late := about[household.Stale]; len(late) > 0 {
		return &outOfDateError{*badInput("something is out of date for "+someOf(late), "each line above that begins with out of date says what to do")}
	}
	return nil
}

func needAttention(count int) string {
	if count == 1 {
		return " needs attention"
	}
	return " need attention"
}

// surveyJSON is what `check --all-records --json` says beside the findings.
type surveyJSON struct {
	Read    map[string]int `json:"read"`
	Damaged int            `json:"damaged"`
}

// surveyed reads every record, and says so on a terminal while it lasts.
func surveyed(p *program, store *records.Folder) (*records.Survey, error) {
	defer p.progress("reading every record", terminal.Delay)()
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
