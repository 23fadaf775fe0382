package records

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/safefile"
)

// Kind says what a record holds.
type Kind string

// The kinds: the plan of a pet, what came out of the pot, and a jar that was mixed.
const (
	KindPlan   Kind = "plan"
	KindCooked Kind = "cooked"
	KindMixed  Kind = "mixed"
)

const (
	// recordsFolder is the folder of a household that holds the records.
	recordsFolder = "records"
	// digestInName is how many hexadecimal digits of the digest a name carries:
	// 48 bits, enough to notice an edit.
	digestInName = 12
	// setSuffix ends the name of a folder with records of one run.
	setSuffix = "-set"
)

// recordName is what the name of a record says:
// 2026-11-25T093015-0007-plan-marlow-3f9a1c0b2d4e.json, in earlier versions without
// the time.
type recordName struct {
	date household.Date
	// time of the day as 093015, "" where it is not known.
	time   string
	seq    int
	kind   Kind
	slug   string
	digest string
	path   string
}

func (n recordName) String() string {
	return fmt.Sprintf("%s-%04d-%s-%s-%s.json", n.made(), n.seq, n.kind, n.slug, n.digest)
}

// ref is how people name the record: its number and what it is about.
func (n recordName) ref() string { return fmt.Sprintf("%04d-%s", n.seq, n.slug) }

var (
	recordForm = regexp.MustCompile(`^(\d{4}-\d{2}-\d{2})(?:T(\d{6}))?-(\d{4,9})-(plan|cooked|mixed)-([a-z0-9-]+)-([0-9a-f]{12})\.json$`)
	setForm    = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}(?:T\d{6})?-\d{4,9}-set$`)
)

func parseRecordName(name string) (recordName, bool) {
	m := recordForm.FindStringSubmatch(name)
	if m == nil {
		return recordName{}, false
	}
	date, err := household.ParseDate(m[1])
	seq, err2 := strconv.Atoi(m[3])
	if err != nil || err2 != nil {
		return recordName{}, false
	}
	return recordName{date: date, time: m[2], seq: seq, kind: Kind(m[4]), slug: m[5], digest: m[6]}, true
}

// list returns the names of all records in order, without reading them, and a
// notice for each file that is none: a synchronised folder keeps copies of files
// that were changed in two places.
func (r *Folder) list() ([]recordName, []household.Finding, error) {
	entries, err := os.ReadDir(r.folder())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, fmt.Errorf("cannot list %s: %w", r.folder(), diag.Cause(err))
	}
	var names []recordName
	var findings []household.Finding
	take := func(folder string, e fs.DirEntry) {
		path := filepath.Join(folder, e.Name())
		n, ok := parseRecordName(e.Name())
		switch {
		case strings.HasPrefix(e.Name(), "."), safefile.IsUnfinished(e.Name()), e.Name() == identityFile && folder == r.folder():
		case ok && !e.IsDir():
			n.path = path
			names = append(names, n)
		default:
			findings = append(findings, household.Finding{Code: "record-stranger", Severity: household.Notice,
				Message: r.shown(path) + " is not a record and is not used", Hint: diag.Hint{Text: "move it out of records/"}})
		}
	}
	for _, e := range entries {
		if !e.IsDir() || !setForm.MatchString(e.Name()) {
			take(r.folder(), e)
			continue
		}
		inside, err := os.ReadDir(filepath.Join(r.folder(), e.Name()))
		if err != nil {
			return nil, nil, fmt.Errorf("cannot list %s: %w", e.Name(), diag.Cause(err))
		}
		for _, one := range inside {
			take(filepath.Join(r.folder(), e.Name()), one)
		}
	}
	slices.SortFunc(names, func(a, b recordName) int {
		// Texts are made for twins only: for every pair they take longer than all else here.
		if a.seq != b.seq {
			return cmp.Compare(a.seq, b.seq)
		}
		return strings.Compare(a.String(), b.String())
	})
	// The same record in two places is one.
	names = slices.CompactFunc(names, func(a, b recordName) bool { return a.seq == b.seq && a.String() == b.String() })
	return names, findings, nil
}
