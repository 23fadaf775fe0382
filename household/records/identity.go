package records

import (
	"crypto/rand"
	"encoding/hex"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"bowlwright/household/safefile"
)

// identityFile holds the household's id: 32 hexadecimal digits, drawn once, when the
// first record is written.
const identityFile = "household-id"

var identityForm = regexp.MustCompile(`^[0-9a-f]{32}$`)

const (
	// maxIdentity bounds the file of the id.
	maxIdentity = 1 << 10
	// identityLooks is how many records are looked at for the id when its file is
	// gone.
	identityLooks = 100
	// noIdentity is no household's id: where the file of the id is gone and the records
	// disagree, none of them may count.
	noIdentity = "unknown"
)

// identity is the id that records of this household carry, "" before there is one.
func (r *Folder) identity() string { return r.id() }

func (r *Folder) readIdentity() string {
	text, err := safefile.Read(filepath.Join(r.folder(), identityFile), maxIdentity)
	if id := strings.TrimSpace(string(text)); err == nil && identityForm.MatchString(id) {
		return id
	}
	// Gone or damaged: what the newest records say.
	names, _, err := r.list()
	if err != nil {
		return ""
	}
	found, looked := "", 0
	for _, n := range slices.Backward(names) {
		if looked++; looked > identityLooks {
			break
		}
		text, err := safefile.Read(n.path, maxRecord)
		if err != nil || shortDigest(text) != n.digest {
			continue
		}
		switch s, ok := stampOf(text); {
		case !ok:
		case found != "" && s.Household != found:
			return noIdentity
		default:
			found = s.Household
		}
	}
	return found
}

// makeIdentity returns the id for what is about to be written, under the lock, and
// writes it down where it is not. undo takes a new file back.
func (r *Folder) makeIdentity() (id string, undo func(), err error) {
	path, undo := filepath.Join(r.folder(), identityFile), func() {}
	id = r.readIdentity()
	if id == "" || id == noIdentity {
		raw := make([]byte, 16)
		if _, err := rand.Read(raw); err != nil {
			return "", undo, err
		}
		id = hex.EncodeToString(raw)
	}
	text, err := safefile.Read(path, maxIdentity)
	if err == nil && strings.TrimSpace(string(text)) == id {
		return id, undo, nil
	}
	if err := safefile.Write(path, []byte(id+"\n")); err != nil {
		return "", undo, err
	}
	return id, func() { _ = os.Remove(path) }, nil
}
