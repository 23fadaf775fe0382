package records

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/nutrients/number"
)

// Records of one household are written one after the other, each with the next number.
// Where two have the same, the folder was written to in two places that did not know of
// one another, and numbers alone do not tell which plan is in force: a plan names those
// that it follows, and one that nobody follows is a head. Two heads of an animal are a
// conflict, which a new plan or a restored one ends, because it follows both.

// firstTwin returns the lowest number that two records have, in a list in order; 0 when
// there is none.
func firstTwin(names []recordName) int {
	for i := 1; i < len(names); i++ {
		if names[i].seq == names[i-1].seq {
			return names[i].seq
		}
	}
	return 0
}

// heads returns the plans of one slug that no other follows; apart is the first number
// from which records were written in two places, 0 for nowhere.
func (r *Folder) heads(plans []recordName, apart int) []recordName {
	last := plans[len(plans)-1:]
	if apart == 0 {
		return last
	}
	first, _ := slices.BinarySearchFunc(plans, apart, func(n recordName, seq int) int { return n.seq - seq })
	// What came before is followed by all of these.
	if plans = plans[first:]; len(plans) < 2 {
		return last
	}
	followed := map[string]bool{}
	for _, n := range plans {
		text, fault := r.read(n)
		s, ok := stampOf(text)
		if fault != nil || !ok {
			// An earlier version, or one that cannot be read: it followed what had a lower number.
			for _, other := range plans {
				if other.seq < n.seq {
					followed[other.digest] = true
				}
			}
		}
		for _, digest := range s.Follows {
			followed[digest] = true
		}
	}
	heads := slices.DeleteFunc(slices.Clone(plans), func(n recordName) bool { return followed[n.digest] })
	if len(heads) == 0 {
		return last
	}
	return heads
}

// followed returns, for each slug of plans that are about to be written, the digests of
// the plans in force.
func (r *Folder) followed(old []recordName, records []newRecord) map[string][]string {
	bySlug := map[string][]recordName{}
	for _, rec := range records {
		if rec.kind == KindPlan {
			bySlug[rec.slug] = nil
		}
	}
	for _, n := range old {
		if _, about := bySlug[n.slug]; about && n.kind == KindPlan {
			bySlug[n.slug] = append(bySlug[n.slug], n)
		}
	}
	apart := firstTwin(old)
	follows := map[string][]string{}
	for slug, plans := range bySlug {
		if len(plans) == 0 {
			continue
		}
		for _, n := range r.heads(plans, apart) {
			follows[slug] = append(follows[slug], n.digest)
		}
	}
	return follows
}

// madeApart shows the plans of a conflict and how to choose.
func (r *Folder) madeApart(pet string, heads []recordName) household.Finding {
	f := household.Finding{Pet: pet, Code: "record-twin", Severity: household.Problem}
	var shown []string
	for _, n := range heads {
		text := fmt.Sprintf("%s of %s", n.ref(), strings.Replace(n.made(), "T", " ", 1))
		if p, fault := r.plan(n); fault == nil {
			text += fmt.Sprintf(" (%s g of base %s a day, for %s kg)", number.Short(p.Plan.Pet.BaseG), p.Plan.Base.Code, number.Short(p.Plan.Pet.WeightKg))
		}
		shown = append(shown, text)
		f.Ways = append(f.Ways, diag.Command("or take "+n.ref()+" of "+n.made(), "restore", n.String()))
	}
	f.Message = fmt.Sprintf("%d plans were made apart and none knows of the others, so that none is used: %s", len(heads), strings.Join(shown, "; "))
	f.Hint = diag.Command("choose one, or make a new plan", "plan", pet)
	return f
}
