package records

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"bowlwright/household"
	"bowlwright/household/diag"
)

// stamp stands after the format in every record that this program writes, and says
// what its name says, so that a record which was renamed or comes from elsewhere is
// noticed. Records of earlier versions have none.
type stamp struct {
	// Household is the id of the household, see identity.
	Household string `json:"household_id"`
	Number    int    `json:"number"`
	// Made is the day, and the time of the day where it is known: 2026-11-25T093015.
	Made string `json:"made"`
	// About is kind and slug: plan/marlow.
	About string `json:"about"`
	// Follows are the digests, as in their names, of the plans of this animal that
	// were in force when this one was made.
	Follows []string `json:"follows,omitempty"`
}

// about is what a record is about.
func (n recordName) about() string { return string(n.kind) + "/" + n.slug }

// made is the first part of the name.
func (n recordName) made() string {
	if n.time == "" {
		return n.date.String()
	}
	return n.date.String() + "T" + n.time
}

// stamped puts a stamp into the text of a record, after its format.
func stamped(text []byte, s stamp) ([]byte, error) {
	const begin = `{"format":"`
	if !bytes.HasPrefix(text, []byte(begin)) {
		panic("records: a record that does not begin with its format")
	}
	after := len(begin) + bytes.IndexByte(text[len(begin):], '"') + 1
	inside, err := json.Marshal(s)
	if err != nil {
		return nil, fmt.Errorf("cannot write the record: %w", err)
	}
	return slices.Concat(text[:after], []byte(`,"stamp":`), inside, text[after:]), nil
}

// stampOf reads the stamp of a record, which stands second, and not the rest. ok is
// false for a record without one.
func stampOf(text []byte) (s stamp, ok bool) {
	d := json.NewDecoder(bytes.NewReader(text))
	for range 3 {
		if _, err := d.Token(); err != nil {
			return s, false
		}
	}
	if key, err := d.Token(); err != nil || key != "stamp" {
		return s, false
	}
	return s, d.Decode(&s) == nil
}

// checkStamp holds a record against its name and its household.
func (r *Folder) checkStamp(n recordName, text []byte) *household.Finding {
	s, ok := stampOf(text)
	if !ok {
		return nil
	}
	shown := r.shown(n.path)
	if s.Number != n.seq || s.Made != n.made() || s.About != n.about() {
		return &household.Finding{Code: "record-edited", Severity: household.Problem,
			Message: fmt.Sprintf("%s was renamed after it was written, and is not used: it is number %d of %s, about %s", shown, s.Number, diag.Clip(s.Made), diag.Clip(s.About)),
			Hint:    diag.Hint{Text: "give it its name back, or bring it back from a backup"}}
	}
	if id := r.identity(); id != "" && s.Household != id {
		return &household.Finding{Code: "record-foreign", Severity: household.Problem,
			Message: shown + " belongs to another household, and is not used", Hint: diag.Hint{Text: "move it out of records/"}}
	}
	return nil
}
