package household

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/nutrients/number"
)

// CookingFormat names the record format of a cooking.
const CookingFormat = "bowlwright/cooking-record/1"

// yieldTolerance is the share by which the weight of a cooked batch may differ
// from the expected one before portions are worked out anew: less is the scatter
// of a kitchen scale and what sticks to the pot (common practice).
const yieldTolerance = 0.02

// Cooking is what came out of the pot on one day.
type Cooking struct {
	Format string       `json:"format"`
	Date   Date         `json:"date"`
	Base   BaseSnapshot `json:"base"`
	// RawG is the weight of the ingredients that went in, CookedG what the scale
	// said afterwards, ExpectedG what the recipe expects of RawG.
	RawG      float64 `json:"raw_g"`
	CookedG   float64 `json:"cooked_g"`
	ExpectedG float64 `json:"expected_g"`
	Note      string  `json:"note,omitempty"`
}

// Factor is by how much every portion grows for this cooking: the nutrients of
// the batch are spread over more or less weight than expected. It is one within
// the tolerance.
func (c *Cooking) Factor() float64 {
	f := c.CookedG / c.ExpectedG
	if math.Abs(f-1) <= yieldTolerance {
		return 1
	}
	return f
}

// PortionG returns the daily grams of base of a plan for this cooking, on the
// scale step of the plan. A plan for another base is refused with a *MixUpError.
func (c *Cooking) PortionG(p Paired) (float64, error) {
	if p.plan.Base.RecipeDigest != c.Base.RecipeDigest {
		return 0, &MixUpError{Pet: p.plan.Pet.Pet, PlanBase: p.plan.Base, Now: c.Base, Differences: differences(p.plan.Base, c.Base)}
	}
	g := p.plan.Pet.BaseG * c.Factor()
	if step := p.plan.Pet.Scales.ScaleG; step > 0 && c.Factor() != 1 {
		g = math.Round(g/step) * step
	}
	return g, nil
}

// ForPot returns the plan with the grams of base that this pot asks for, and a note
// that says so, where the pot came out heavier or lighter than expected: the same
// food weighs more or less, so the day holds the same. Within the tolerance, and
// for a plan without amounts, it is the plan itself. A plan for another base is
// refused with a *MixUpError.
func (c *Cooking) ForPot(p Paired) (Paired, error) {
	g, err := c.PortionG(p)
	if err != nil || c.Factor() == 1 || !p.plan.Pet.Status.Printable() {
		return p, err
	}
	plan := *p.plan
	plan.Pet.Notes = append([]string{fmt.Sprintf(
		"For the pot of %s, which weighed %s g and not %s g: %s g of base a day, not %s g. Another pot needs its own card.",
		c.Date, trim(math.Round(c.CookedG)), trim(math.Round(c.ExpectedG)), trim(g), trim(plan.Pet.BaseG))}, plan.Pet.Notes...)
	plan.Pet.BaseKcalPerG *= plan.Pet.BaseG / g
	plan.Pet.Makeup = plan.Pet.Makeup.withWater(g - plan.Pet.BaseG)
	plan.Pet.BaseG = g
	return Paired{plan: &plan, base: p.base}, nil
}

// RecordCooking records that a base was cooked: rawG of ingredients (0 for the
// amounts as declared) gave cookedG.
func (r *Records) RecordCooking(base *Batch, date Date, rawG, cookedG float64, note string) (*Cooking, Entry, error) {
	s := base.Snapshot()
	if rawG <= 0 {
		rawG = s.RawG
	}
	c := &Cooking{Format: CookingFormat, Date: date, Base: s, RawG: rawG, CookedG: cookedG,
		ExpectedG: s.CookedG * rawG / s.RawG, Note: note}
	if share := cookedG / rawG; !(share >= minYieldShare && share <= maxYieldShare) {
		return nil, Entry{}, diag.BadInput("absurd-yield", fmt.Sprintf("%s kg cooked from %s kg of ingredients cannot be", trim(cookedG/1000), trim(rawG/1000)), "weigh the cooked batch without the pot, and check the unit")
	}
	names, err := r.write([]newRecord{{date, kindCooked, Slug(s.File), c}})
	if err != nil {
		return nil, Entry{}, err
	}
	return c, names[0].entry(), nil
}

// LatestCooking returns the newest cooking of a base, nil when there is none, and
// a finding for each record that cannot be used.
func (r *Records) LatestCooking(base *Batch) (*Cooking, []Finding, error) {
	names, findings, err := r.list()
	if err != nil {
		return nil, nil, err
	}
	recipe := base.recipeDigest()
	for i := len(names) - 1; i >= 0; i-- {
		if names[i].kind != kindCooked {
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
func (r *Records) cooking(n recordName) (*Cooking, *Finding) {
	text, fault := r.read(n)
	if fault == nil {
		fault = r.checkFormat(n, text, CookingFormat)
	}
	if fault != nil {
		return nil, fault
	}
	c := new(Cooking)
	if err := json.Unmarshal(text, c); err != nil {
		return nil, &Finding{Code: "record-edited", Severity: Problem, Message: fmt.Sprintf("%s is not a cooking: %v", r.shown(n.path), err), Hint: diag.Hint{Text: "move it out of records/"}}
	}
	return c, nil
}

// exact writes a number so that it reads back the same.
func exact(x float64) string { return number.Exact(x) }

// TOMLText writes a text as a TOML basic string of one line.
func TOMLText(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < 0x20 || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
