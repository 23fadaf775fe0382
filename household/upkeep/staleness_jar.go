package upkeep

import (
	"fmt"

	"bowlwright/household"
	"bowlwright/household/diag"
)

// jarLow is for how many days a jar must be enough before it is said that it runs out.
const jarLow = 7

// jar compares the mix of a plan with the one in hand, and returns the household with the
// plan's jar on its shelf, as the plan was made; usable is false where there is none any
// more.
func (c *checker) jar() (h *household.Household, usable bool) {
	plan := c.plan
	if c.figures.base.IsRecorded(plan.Base) {
		mix, _, err := household.MixFor(plan, c.h.InHand)
		if refused, ok := err.(*household.JarMixUpError); ok {
			c.add("other-jar", household.Refusal, err.Error(), refused.Ways[0], refused.Ways[1:]...)
		} else if mix == nil && plan.Pet.Jar != nil {
			j := plan.Pet.Jar
			c.add("jar-not-mixed", household.Notice, fmt.Sprintf("its jar %s (%s) is not mixed yet", j.Code, j.Mix.Name), diag.Command("", "mix", j.Mix.Name))
		}
	}
	if plan.Pet.Jar == nil {
		return c.h, true
	}
	h, unusable := c.h.WithJars([]household.Jar{plan.Pet.Jar.Mix})
	if len(unusable) > 0 {
		c.stale("jar-unknown", "%s", unusable[0])
		return nil, false
	}
	return h, true
}

// TakenPerDay sums the doses that plans take from a jar in a day, in grams.
func TakenPerDay(plans []*household.Plan, digest string) float64 {
	sum := 0.0
	for _, p := range plans {
		if !p.Pet.Status.Printable() {
			continue
		}
		if j := p.Pet.Jar; j != nil && j.Mix.Digest == digest {
			sum += j.DoseG
		} else if m := p.Pet.Premix; j == nil && m != nil && m.Digest == digest {
			sum += m.ServeG
		}
	}
	return sum
}

// checkMixes says which mix in hand runs out, counted with the doses of the plans in use.
func checkMixes(h *household.Household, inUse map[string]*household.Plan, today household.Date) []household.Finding {
	var plans []*household.Plan
	for _, p := range inUse {
		plans = append(plans, p)
	}
	var all []household.Finding
	for _, m := range h.InHand {
		perDay := TakenPerDay(plans, m.Jar.Digest)
		if perDay <= 0 {
			continue
		}
		switch last := m.LastsUntil(perDay); {
		case last.Before(today):
			all = append(all, household.Finding{Code: "jar-empty", Severity: household.Notice, Message: fmt.Sprintf("%s (%s) was enough until %s", m.Jar.Name, m.Jar.Code, last), Hint: diag.Command("", "mix", m.Jar.Name)})
		case last.DaysSince(today) < jarLow:
			all = append(all, household.Finding{Code: "jar-low", Severity: household.Notice, Message: fmt.Sprintf("%s (%s) is enough until %s", m.Jar.Name, m.Jar.Code, last), Hint: diag.Command("", "mix", m.Jar.Name)})
		}
	}
	return all
}

// dueToMix says which shared jars of the plans in use are not in hand.
func dueToMix(h *household.Household, plans map[string]*household.Plan, today household.Date) []DueItem {
	var all []DueItem
	said := map[string]bool{}
	for _, m := range h.InHand {
		said[m.Jar.Name+m.Jar.Digest] = true
	}
	for i := range h.Pets {
		p := plans[h.Pets[i].Name]
		if p == nil || p.Pet.Jar == nil || !p.Pet.Status.Printable() || said[p.Pet.Jar.Mix.Name+p.Pet.Jar.Mix.Digest] {
			continue
		}
		j := p.Pet.Jar
		said[j.Mix.Name+j.Mix.Digest] = true
		all = append(all, DueItem{Date: today, What: "jar", Of: j.Mix.Name, Message: fmt.Sprintf("the jar %s (%s) is to be mixed", j.Mix.Name, j.Code), Hint: diag.Command("", "mix", j.Mix.Name)})
	}
	return all
}
