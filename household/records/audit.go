package records

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/parallel"
)

// gapsShown bounds how many gaps and twins are named.
const gapsShown = 5

// Audit says what the plans in use do not show: cookings that cannot be read, are lost
// or lie after today, numbers that no record has, and numbers that several have.
func (r *Folder) Audit(today household.Date) ([]household.Finding, error) {
	names, _, err := r.list()
	if err != nil {
		return nil, err
	}
	var findings []household.Finding
	missed := r.missed(names, KindCooked)
	for _, slug := range slices.Sorted(maps.Keys(missed)) {
		findings = append(findings, missed[slug])
	}
	for _, n := range newestFirst(names, KindCooked) {
		if _, fault := r.cooking(n); fault != nil {
			fault.Hint = wayBack(n)
			findings = append(findings, *fault)
		} else if today.Before(n.date) {
			findings = append(findings, household.Finding{Code: "record-future", Severity: household.Problem,
				Message: fmt.Sprintf("%s was cooked on %s, which is yet to come, and counts before all others", r.shown(n.path), n.date), Hint: diag.Hint{Text: "move the record out of records/ and record the pot again with the right day"}})
		}
	}
	return append(findings, oddNumbers(names)...), nil
}

// oddNumbers finds gaps and twins in the numbers of records in order.
func oddNumbers(names []recordName) []household.Finding {
	var gaps, twins []string
	for i := 1; i < len(names); i++ {
		a, b := names[i-1], names[i]
		switch {
		case a.seq == b.seq:
			twins = append(twins, fmt.Sprintf("%04d (%s and %s)", a.seq, a.about(), b.about()))
		case b.seq == a.seq+2:
			gaps = append(gaps, fmt.Sprintf("%04d", a.seq+1))
		case b.seq > a.seq+2:
			gaps = append(gaps, fmt.Sprintf("%04d to %04d", a.seq+1, b.seq-1))
		}
	}
	var findings []household.Finding
	if len(gaps) > 0 {
		findings = append(findings, household.Finding{Code: "record-gap", Severity: household.Notice,
			Message: "no record has the number " + some(gaps) + ": it was moved away, or is not copied here yet", Hint: diag.Hint{Text: "bring missing records back from a backup, if they were not moved on purpose"}})
	}
	if len(twins) > 0 {
		findings = append(findings, household.Finding{Code: "record-number-twice", Severity: household.Notice,
			Message: "two records have the number " + some(twins) + ": the folder was written to in two places at once", Hint: diag.Hint{Text: "let the folder be copied before another machine writes to it"}})
	}
	return findings
}

// some joins the first few texts and counts the rest.
func some(texts []string) string {
	if len(texts) > gapsShown {
		return fmt.Sprintf("%s and %d more", strings.Join(texts[:gapsShown], ", "), len(texts)-gapsShown)
	}
	return strings.Join(texts, ", ")
}

// Survey is what became of a look at every record ever written.
type Survey struct {
	// Read counts the records by what they hold: plan, cooked, …
	Read map[string]int
	// Damaged counts those that cannot be used.
	Damaged  int
	Findings []household.Finding
}

// Survey reads every record: its name, its digest, its household, its form, and what
// it says of itself. Each that cannot be used is named with what works without it; what
// Audit says is not said again.
func (r *Folder) Survey() (Survey, error) {
	names, findings, err := r.list()
	if err != nil {
		return Survey{}, err
	}
	s := Survey{Read: map[string]int{}, Findings: findings}
	faults, bases := make([]*household.Finding, len(names)), make([]household.BaseSnapshot, len(names))
	parallel.OnAllProcessors(len(names), func(i int) { bases[i], faults[i] = r.base(names[i]) })
	newest := map[string]recordName{}
	for _, n := range names {
		s.Read[string(n.kind)]++
		if was, ok := newest[n.about()]; !ok || cmp.Or(strings.Compare(n.made(), was.made()), cmp.Compare(n.seq, was.seq)) >= 0 {
			newest[n.about()] = n
		}
	}
	for i, n := range names {
		if faults[i] == nil {
			continue
		}
		s.Damaged++
		f := *faults[i]
		f.Message += "; " + without(n, newest[n.about()].String() == n.String())
		s.Findings = append(s.Findings, f)
	}
	s.Findings = append(s.Findings, sharedCodes(bases)...)
	return s, nil
}

// base reads a record in full and returns the base that it holds.
func (r *Folder) base(n recordName) (household.BaseSnapshot, *household.Finding) {
	switch n.kind {
	case KindPlan:
		p, fault := r.plan(n)
		if fault != nil {
			return household.BaseSnapshot{}, fault
		}
		return p.Plan.Base, nil
	case KindCooked:
		c, fault := r.cooking(n)
		if fault != nil {
			return household.BaseSnapshot{}, fault
		}
		return c.Base, nil
	case KindMixed:
		_, fault := r.mixing(n)
		return household.BaseSnapshot{}, fault
	}
	_, fault := r.read(n)
	return household.BaseSnapshot{}, fault
}

// without says what still works while a record cannot be used.
func without(n recordName, newest bool) string {
	switch {
	case newest && n.kind == KindPlan:
		return "until there is a new plan, no card of " + n.slug + " is printed; all other animals and earlier plans are as they were"
	case newest && n.kind == KindCooked:
		return "until that pot is recorded again, no card for the base " + n.slug + " is printed; plans are as they were"
	case newest:
		return "an earlier one of " + n.slug + " does not count in its place; all else is as it was"
	case n.kind == KindPlan:
		return "what is in use does not need it: it cannot be compared or restored"
	}
	return "what is in use does not need it"
}

// sharedCodes finds different recipes with the same code, nested batches included.
func sharedCodes(bases []household.BaseSnapshot) []household.Finding {
	recipe := map[string]string{}
	said := map[string]bool{}
	var findings []household.Finding
	look := func(b *household.BaseSnapshot) {
		was, known := recipe[b.Code]
		if b.Code == "" || known && was == b.RecipeDigest || said[b.Code] {
			return
		}
		if !known {
			recipe[b.Code] = b.RecipeDigest
			return
		}
		said[b.Code] = true
		findings = append(findings, household.Finding{Code: "code-twice", Severity: household.Problem,
			Message: fmt.Sprintf("two recipes in the records have the code %s: containers of one look like those of the other", b.Code), Hint: diag.Hint{Text: "use up or label anew what stands in the freezer, and change one of the recipes by a gram"}})
	}
	for i := range bases {
		look(&bases[i])
		for _, inner := range batchesIn(&bases[i]) {
			look(inner)
		}
	}
	return findings
}
