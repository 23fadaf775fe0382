package safefile

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/gofrs/flock"
)

// LockName is the file that is locked in a household folder. It stays after the
// run, because deleting a lock file races with the next run; the lock itself is
// the system's and ends with the process, so a killed run leaves none behind.
const LockName = ".lock"

// LockedError says that another run holds the lock.
type LockedError struct {
	Path string
	// Holder is the note the other run left: who, since when.
	Holder string
}

func (e *LockedError) Error() string {
	if e.Holder == "" {
		return "another run is writing in this household"
	}
	return "another run is writing in this household: " + e.Holder
}

// Lock takes the lock of a folder or fails at once with a *LockedError. The note
// says who holds it. Call the returned function to release it.
func Lock(dir, note string) (release func() error, err error) {
	path := filepath.Join(dir, LockName)
	l := flock.New(path, flock.SetFlag(os.O_CREATE|os.O_RDWR), flock.SetPermissions(0o644))
	ok, err := l.TryLock()
	if err != nil {
		return nil, err
	}
	if !ok {
		holder, _ := os.ReadFile(path)
		return nil, &LockedError{Path: path, Holder: strings.TrimSpace(string(holder))}
	}
	host, _ := os.Hostname()
	text := fmt.Sprintf("process %d on %s%s\n", os.Getpid(), host, note)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		l.Unlock()
		return nil, err
	}
	return l.Unlock, nil
}
