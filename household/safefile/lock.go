package safefile

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"

	"bowlwright/household/diag"
)

// Holder says who holds a lock.
type Holder struct {
	PID     int       `json:"pid"`
	Host    string    `json:"host"`
	Command string    `json:"command"`
	Since   time.Time `json:"since"`
}

func (h Holder) String() string {
	if h.PID == 0 {
		return "another run"
	}
	s := fmt.Sprintf("%q (process %d on %s", h.Command, h.PID, h.Host)
	if !h.Since.IsZero() {
		s += ", since " + h.Since.Format("2006-01-02 15:04")
	}
	return s + ")"
}

// LockedError says that another run is writing.
type LockedError struct {
	Path   string
	Holder Holder
}

func (e *LockedError) Error() string {
	return fmt.Sprintf("the household is locked by %s", e.Holder)
}

// ExitCode is that of a household in use by another run.
func (e *LockedError) ExitCode() int { return diag.ExitLocked }

// Hint says what to do.
func (e *LockedError) Hint() diag.Hint {
	return diag.Hint{Text: "wait until it has finished, then run the command again; the lock goes away by itself when that run ends"}
}

// Lock takes the lock file at path without waiting, or returns a *LockedError. The
// system takes the lock away when its holder ends, however it ends, so a lock is
// never stale; the file stays, because removing it would race. The time is the
// caller's, for the note that tells others who holds it.
func Lock(path, command string, now time.Time) (unlock func(), err error) {
	if err := os.MkdirAll(filepath.Dir(path), dirMode); err != nil {
		return nil, plainer(filepath.Dir(path), err)
	}
	lock := flock.New(path, flock.SetPermissions(fileMode), flock.SetFlag(os.O_CREATE|os.O_RDWR))
	got, err := lock.TryLock()
	if err != nil {
		return nil, plainer(path, err)
	}
	if !got {
		return nil, &LockedError{Path: path, Holder: readHolder(path)}
	}
	host, err := os.Hostname()
	if err != nil {
		host = "an unknown host"
	}
	note, err := json.Marshal(Holder{PID: os.Getpid(), Host: host, Command: command, Since: now})
	if err == nil {
		// The note is a courtesy: a disk too full for it must not stop the run
		// here, where the real write will say so better.
		_ = os.WriteFile(path, append(note, '\n'), fileMode)
	}
	return func() {
		_ = os.Truncate(path, 0)
		_ = lock.Unlock()
	}, nil
}

// readHolder reads the note; a lock whose note is not readable has an unknown
// holder.
func readHolder(path string) Holder {
	var h Holder
	if text, err := os.ReadFile(path); err != nil || json.Unmarshal(text, &h) != nil {
		return Holder{}
	}
	return h
}
