package records

import (
	"encoding/json"
	"fmt"
	"maps"
	"path/filepath"
	"slices"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/safefile"
)

// marksFile remembers the name of the newest record of each pet and pot, so that one
// that is lost is missed: without it an older one would silently count. It is no
// record: where it is gone nothing is missed, and the next record writes it anew.
const marksFile = ".newest"

const (
	marksFormat = "bowlwright/newest/1"
	maxMarks    = 4 << 20
)

type marks struct {
	Format string `json:"format"`
	// Newest maps what records are about (plan/marlow) to the name of the newest.
	Newest map[string]string `json:"newest"`
}

// readMarks returns the newest record of each kind and slug as it was remembered.
func (r *Folder) readMarks() map[string]recordName {
	newest := map[string]recordName{}
	var m marks
	text, err := safefile.Read(filepath.Join(r.folder(), marksFile), maxMarks)
	if err != nil || json.Unmarshal(text, &m) != nil || m.Format != marksFormat {
		return newest
	}
	for about, name := range m.Newest {
		if n, ok := parseRecordName(name); ok && n.about() == about {
			newest[about] = n
		}
	}
	return newest
}

// mark remembers the newest of all records that are there with those just written.
func (r *Folder) mark(old, written []recordName) {
	newest := map[string]recordName{}
	for _, n := range slices.Concat(old, written) {
		if was, ok := newest[n.about()]; !ok || was.seq <= n.seq {
			newest[n.about()] = n
		}
	}
	m := marks{Format: marksFormat, Newest: map[string]string{}}
	for about, n := range newest {
		m.Newest[about] = n.String()
	}
	// One that is missed stays missed until there is a newer one.
	for about, n := range r.readMarks() {
		if now, ok := newest[about]; !ok || now.seq < n.seq {
			m.Newest[about] = n.String()
		}
	}
	if text, err := json.Marshal(m); err == nil {
		safefile.Remember(filepath.Join(r.folder(), marksFile), append(text, '\n'))
	}
}

// missed lists the records of a kind that were the newest of their slug and are not
// there any more, nor a newer one; a finding for each, by slug.
func (r *Folder) missed(names []recordName, kind Kind) map[string]household.Finding {
	newest := map[string]recordName{}
	there := map[string]bool{}
	for _, n := range names {
		there[n.String()] = true
		if n.kind == kind {
			newest[n.slug] = n
		}
	}
	found := map[string]household.Finding{}
	remembered := r.readMarks()
	for _, about := range slices.Sorted(maps.Keys(remembered)) {
		n := remembered[about]
		if now, ok := newest[n.slug]; n.kind != kind || there[n.String()] || ok && now.seq > n.seq {
			continue
		}
		found[n.slug] = household.Finding{Code: "record-missing", Severity: household.Problem,
			Message: fmt.Sprintf("the newest record of %s, %s, is missing; an older one is not used in its place", n.slug, n), Hint: wayBack(n)}
	}
	return found
}

// wayBack is what helps where the newest record of its kind cannot be used.
func wayBack(n recordName) diag.Hint {
	switch n.kind {
	case KindPlan:
		return diag.Command("bring the file back from a backup, or make a new plan", "plan")
	case KindCooked:
		return diag.Command("bring the file back from a backup, or weigh the pot and record it again", "cook", "--cooked", "WEIGHT")
	}
	return diag.Hint{Text: "bring the file back from a backup"}
}
