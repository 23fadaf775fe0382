// Package records reads and writes what the program remembers: plans, bases as they
// were, what was cooked and mixed, and weighings. Files are only ever added.
//
// # Decisions
//
// Plans of every status are recorded. Over and impossible hold no amounts, and once
// recorded no earlier plan of that pet is printed any more.
//
// The form of a record and what counts is in fixtures/record-format.md. Plans go by
// number while numbers are unique, because clocks lie; where two machines gave out the
// same number, a plan counts that no other follows, and two such plans are shown and
// none is used. Cookings go by day, time and number.
//
// A record that is lost is missed by records/.newest, which is written after a record,
// best effort: it may miss too little, never too much. Numbers alone would not tell when
// the last one is gone.
//
// A thousand pets. The files of a run are written, synced and turned into JSON sixteen
// at a time, in a folder that gets its name when all of them are on the disk. A plan
// in use is read just before the new plan of its pet is made, compared at once and let
// go; it is read in full, because only that shows that it is a plan. Most of that time
// is encoding/json; remembering the base, which is the same in all of them, was tried
// and saves a tenth of it.
//
// A jar's code is that of its contents (grams over the total to 1e-6, own foods by
// their figures), whatever its name and size. mix --mixed records it under its name,
// and from then until its day is past or it is used up a plan for another jar of that
// name is refused everywhere but in plan and mix, which show the jar that they are
// about. A mix that weighs more than its recipe is refused: something else is in it.
// One that weighs less is the same jar and lasts shorter.
package records

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/parallel"
	"bowlwright/household/reading"
	"bowlwright/household/safefile"
)

// Records is the records/ folder of a
type Folder struct {
	dir string
	// command and since go into the note on the lock.
	command string
	since   time.Time
	// wait is how long a writer waits for another run.
	wait time.Duration
	// id is what readIdentity said the first time it was asked.
	id func() string
}

// OpenRecords returns the records of a household folder. Nothing is created
// until something is written.
func Open(householdDir string) *Folder {
	r := &Folder{dir: householdDir, command: "bowlwright"}
	r.id = sync.OnceValue(r.readIdentity)
	return r
}

// For returns the records with a note for the lock: the command that writes and
// the time it began, so that another run can say who it waits for.
func (r *Folder) For(command string, since time.Time) *Folder {
	noted := *r
	noted.command, noted.since = command, since
	return &noted
}

// Waiting returns the records with the time that a writer waits at most until another
// run is done, before it is turned away.
func (r *Folder) Waiting(wait time.Duration) *Folder {
	waiting := *r
	waiting.wait = wait
	return &waiting
}

// PlanRecord is a plan on disk.
type PlanRecord struct {
	// Ref is the name under which `restore` and `diff` know it.
	Ref  string
	Path string
	Plan *household.Plan
	// Seq orders records; a later record has a higher one.
	Seq int

	sound household.Sound
}

// Sound returns the plan as what may be printed and restored.
func (r PlanRecord) Sound() household.Sound { return r.sound }

func (r *Folder) folder() string { return filepath.Join(r.dir, recordsFolder) }

// swept are the folders of a household in which a run may die.
var swept = []string{".", recordsFolder, reading.BasesFolder, reading.FoodsFolder, "cards", "sheets"}

// lock takes the lock of the household and clears away what an earlier run left
// unfinished, wherever it wrote.
func (r *Folder) lock() (unlock func(), err error) {
	unlock, err = safefile.Lock(filepath.Join(r.folder(), ".lock"), r.command, r.since, r.wait)
	if err != nil {
		return nil, err
	}
	for _, folder := range swept {
		if err := safefile.Sweep(filepath.Join(r.dir, folder)); err != nil {
			unlock()
			return nil, err
		}
	}
	return unlock, nil
}

// newRecord is a record that is about to be written.
type newRecord struct {
	date household.Date
	kind Kind
	slug string
	// value is what is written, as JSON.
	value any
}

// encode writes a value the same way every time.
func encode(v any, s stamp) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, fmt.Errorf("cannot write the record: %w", err)
	}
	text, err := stamped(b.Bytes(), s)
	if err != nil {
		return nil, err
	}
	return indented(text), nil
}

// write puts new records on the disk, all or none, under the lock.
func (r *Folder) write(records []newRecord) (names []recordName, err error) {
	unlock, err := r.lock()
	if err != nil {
		return nil, err
	}
	defer unlock()
	old, _, err := r.list()
	if err != nil {
		return nil, err
	}
	seq := 0
	for _, n := range old {
		seq = max(seq, n.seq)
	}
	if seq > maxNumber-len(records) {
		return nil, diag.BadInput("records-full", fmt.Sprintf("a record has the number %d, and no number is left for another", seq), "that number was not given by this program: move the record out of records/")
	}
	first := seq + 1
	id, undo, err := r.makeIdentity()
	if err != nil {
		return nil, err
	}
	defer func() {
		if err != nil {
			undo()
		}
	}()
	follows := r.followed(old, records)
	clock := ""
	if !r.since.IsZero() {
		clock = r.since.Format("150405")
	}
	names = make([]recordName, len(records))
	// Each is turned into text when it is written, so that only a few texts at once
	// take room in memory.
	file := func(i int) (string, []byte, error) {
		rec := records[i]
		n := recordName{date: rec.date, time: clock, seq: first + i, kind: rec.kind, slug: rec.slug}
		text, err := encode(rec.value, stamp{Household: id, Number: n.seq, Made: n.made(), About: n.about(), Follows: follows[rec.slug]})
		n.digest = shortDigest(text)
		names[i] = n
		return names[i].String(), text, err
	}
	if len(records) == 1 {
		name, text, err := file(0)
		if err != nil {
			return nil, err
		}
		names[0].path = filepath.Join(r.folder(), name)
		if err := safefile.Write(names[0].path, text); err != nil {
			return nil, err
		}
		r.mark(old, names)
		return names, nil
	}
	set := filepath.Join(r.folder(), fmt.Sprintf("%s-%04d%s", recordName{date: records[0].date, time: clock}.made(), first, setSuffix))
	if err := safefile.WriteSet(set, len(records), file); err != nil {
		return nil, err
	}
	for i := range names {
		names[i].path = filepath.Join(set, names[i].String())
	}
	r.mark(old, names)
	return names, nil
}

// SavePlans writes plans as new records, all or none, under the lock, after a look at
// their numbers (household.Examine). A run that
// is writing already makes it return a *safefile.LockedError.
func (r *Folder) SavePlans(plans []*household.Plan) ([]PlanRecord, error) {
	if len(plans) == 0 {
		return nil, nil
	}
	records, sound := make([]newRecord, 0, len(plans)), make([]household.Sound, len(plans))
	for i, p := range plans {
		var err error
		if sound[i], err = household.Examine(p); err != nil {
			// Not the user's doing, so no error of input.
			return nil, fmt.Errorf("the program made a plan that it does not record: %v", err)
		}
		if p.Format != household.PlanFormat {
			panic("household: a plan without its format: " + p.Format)
		}
		records = append(records, newRecord{p.Date, KindPlan, household.Slug(p.Pet.Pet), p})
	}
	names, err := r.write(records)
	if err != nil {
		return nil, err
	}
	saved := make([]PlanRecord, len(plans))
	for i, n := range names {
		saved[i] = PlanRecord{Ref: n.ref(), Path: n.path, Plan: plans[i], Seq: n.seq, sound: sound[i]}
	}
	return saved, nil
}

// shortDigest is the part of the content's SHA-256 that stands in a record's name.
func shortDigest(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])[:digestInName]
}

const (
	// maxRecord bounds a record's size.
	maxRecord = 8 << 20
	// maxNumber is the largest number of a record: nine digits, as in its name.
	maxNumber = 999_999_999
)

// read returns the text of a record that is as it was written, or a finding.
func (r *Folder) read(n recordName) ([]byte, *household.Finding) {
	shown := r.shown(n.path)
	text, err := safefile.Read(n.path, maxRecord)
	var large *safefile.TooLargeError
	if errors.As(err, &large) {
		return nil, &household.Finding{Code: "record-edited", Severity: household.Problem, Message: shown + " is too large for a record", Hint: diag.Hint{Text: "move it out of records/"}}
	}
	if err != nil {
		return nil, &household.Finding{Code: "record-unreadable", Severity: household.Problem, Message: fmt.Sprintf("%s cannot be read: %v", shown, diag.Cause(err)), Hint: diag.Hint{Text: "check the file's permissions"}}
	}
	if shortDigest(text) != n.digest {
		return nil, &household.Finding{Code: "record-edited", Severity: household.Problem,
			Message: shown + " was edited or cut off after it was written, and is not used", Hint: diag.Command("bring the file back from a backup, or make a new plan", "plan")}
	}
	return text, r.checkStamp(n, text)
}

// shown is a path as people see it, from the household's folder.
func (r *Folder) shown(path string) string {
	if rel, err := filepath.Rel(r.dir, path); err == nil {
		return filepath.ToSlash(rel)
	}
	return path
}

// checkFormat refuses a record of a newer program by name.
func (r *Folder) checkFormat(n recordName, text []byte, ours string) *household.Finding {
	shown := r.shown(n.path)
	format, err := formatOf(text)
	if err != nil {
		return &household.Finding{Code: "record-edited", Severity: household.Problem, Message: shown + " is not a record", Hint: diag.Hint{Text: "move it out of records/"}}
	}
	if format == ours {
		return nil
	}
	base, number, _ := cutLast(ours, "/")
	theirs, newer, _ := cutLast(format, "/")
	a, errA := strconv.Atoi(number)
	b, errB := strconv.Atoi(newer)
	if theirs == base && errA == nil && errB == nil && b > a {
		return &household.Finding{Code: "record-newer", Severity: household.Problem, Message: fmt.Sprintf("%s was written by a newer program (%s)", shown, format), Hint: diag.Hint{Text: "install the newest bowlwright"}}
	}
	return &household.Finding{Code: "record-edited", Severity: household.Problem, Message: fmt.Sprintf("%s has the unknown format %q", shown, diag.Clip(format)), Hint: diag.Hint{Text: "move it out of records/"}}
}

// formatOf reads the format of a record. It stands first in what this program writes,
// and then the rest is not read.
func formatOf(text []byte) (string, error) {
	d := json.NewDecoder(bytes.NewReader(text))
	open, _ := d.Token()
	key, _ := d.Token()
	value, err := d.Token()
	if format, ok := value.(string); ok && err == nil && open == json.Delim('{') && key == "format" {
		return format, nil
	}
	var head struct {
		Format string `json:"format"`
	}
	err = json.Unmarshal(text, &head)
	return head.Format, err
}

func cutLast(s, sep string) (before, after string, found bool) {
	if i := strings.LastIndex(s, sep); i >= 0 {
		return s[:i], s[i+len(sep):], true
	}
	return s, "", false
}

// plan reads one plan record.
func (r *Folder) plan(n recordName) (PlanRecord, *household.Finding) {
	text, fault := r.read(n)
	if fault == nil {
		fault = r.checkFormat(n, text, household.PlanFormat)
	}
	p := new(household.Plan)
	var sound household.Sound
	if fault == nil {
		if err := json.Unmarshal(text, p); err != nil {
			fault = &household.Finding{Code: "record-edited", Severity: household.Problem, Message: fmt.Sprintf("%s is not a plan: %v", r.shown(n.path), err), Hint: diag.Hint{Text: "move it out of records/"}}
		}
	}
	if fault == nil {
		var err error
		if sound, err = household.Examine(p); err != nil {
			fault = r.unsound(n, err)
		}
	}
	if fault != nil {
		return PlanRecord{}, fault
	}
	return PlanRecord{Ref: n.ref(), Path: n.path, Plan: p, Seq: n.seq, sound: sound}, nil
}

// unsound says that what a record holds contradicts itself, although its bytes are
// those of its name.
func (r *Folder) unsound(n recordName, err error) *household.Finding {
	return &household.Finding{Code: "record-unsound", Severity: household.Problem, Message: fmt.Sprintf("%s is not used: %v", r.shown(n.path), err),
		Hint: diag.Hint{Text: "bring the file back from a backup, or make a new plan"}}
}

// Plans returns all plan records in order, and a finding for each file that was
// edited, cut off, or comes from a newer program.
func (r *Folder) Plans() ([]PlanRecord, []household.Finding, error) {
	names, findings, err := r.list()
	if err != nil {
		return nil, nil, err
	}
	names = slices.DeleteFunc(names, func(n recordName) bool { return n.kind != KindPlan })
	var plans []PlanRecord
	read, faults := r.readPlans(names)
	for i, p := range read {
		if faults[i] != nil {
			findings = append(findings, *faults[i])
			continue
		}
		plans = append(plans, p)
	}
	return plans, findings, nil
}

// readPlans reads plan records on all processors; for each there is a plan or a
// finding.
func (r *Folder) readPlans(names []recordName) ([]PlanRecord, []*household.Finding) {
	plans, faults := make([]PlanRecord, len(names)), make([]*household.Finding, len(names))
	parallel.OnAllProcessors(len(names), func(i int) { plans[i], faults[i] = r.plan(names[i]) })
	return plans, faults
}
