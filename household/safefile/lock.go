package safefile

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
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
	// Waited is how long this run waited for the other.
	Waited time.Duration
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

// NoLocksError says that the file system has no locks, so that two runs could write
// over one another.
type NoLocksError struct {
	Path string
	Err  error
}

func (e *NoLocksError) Error() string {
	return fmt.Sprintf("the file system of %s has no locks, and without one two runs could write over one another (%v)", filepath.Dir(e.Path), e.Err)
}

// Unwrap returns what the system said.
func (e *NoLocksError) Unwrap() error { return e.Err }

// ExitCode is that of bad input: it is for the user to mend.
func (e *NoLocksError) ExitCode() int { return diag.ExitInput }

// Hint says what to do.
func (e *NoLocksError) Hint() diag.Hint {
	return diag.Hint{Text: "keep the household on a disk of this machine, or mount the network folder with locks"}
}

const (
	// lockPause is the time between two attempts to take a lock.
	lockPause = 20 * time.Millisecond
	// folderWait is how long a writer waits for another one in the same folder, who
	// has it only while files are put in place.
	folderWait = 10 * time.Second
	// noteSuffix makes of a lock's name that of the note which says who holds it.
	noteSuffix = "-holder"
	// maxNote bounds the note.
	maxNote = 4 << 10
)

// Lock takes the lock file at path, waiting at most as long as asked for, or returns
// a *LockedError. The system takes the lock away when its holder ends, however it
// ends, so a lock is never stale; the file stays, because removing it would race. It
// is never written to: who holds it stands in a note beside it. The time is the
// caller's, for the note.
func Lock(path, command string, now time.Time, wait time.Duration) (unlock func(), err error) {
	if _, err := MakeFolder(filepath.Dir(path)); err != nil {
		return nil, err
	}
	info, err := os.Lstat(path)
	switch {
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return nil, plainer(path, err)
	case err == nil && info.Mode()&fs.ModeSymlink != 0:
		return nil, plainer(path, &LinkError{Path: path})
	case err == nil && !info.Mode().IsRegular():
		return nil, plainer(path, &NotRegularError{Path: path, Kind: kindOf(info)})
	}
	lock := flock.New(path, flock.SetPermissions(fileMode), flock.SetFlag(os.O_CREATE|os.O_RDWR|noFollow))
	var waited time.Duration
	got := false
	if err = step("lock"); err == nil {
		waited, got, err = tryFor(lock, wait)
	}
	if err != nil {
		if keepsNoLocks(err) {
			return nil, &NoLocksError{Path: path, Err: withoutPath(err)}
		}
		return nil, plainer(path, err)
	}
	if !got {
		return nil, &LockedError{Path: path, Holder: readHolder(path), Waited: waited}
	}
	note := path + noteSuffix
	writeHolder(note, command, now)
	return func() {
		_ = os.Remove(note)
		_ = lock.Unlock()
	}, nil
}

// tryFor tries to take a lock until the time is up.
func tryFor(lock *flock.Flock, wait time.Duration) (waited time.Duration, got bool, err error) {
	for {
		if got, err = lock.TryLock(); got || err != nil || waited >= wait {
			return waited, got, err
		}
		time.Sleep(lockPause)
		waited += lockPause
	}
}

// writeHolder writes the note.
func writeHolder(note, command string, now time.Time) {
	host, err := os.Hostname()
	if err != nil {
		host = "an unknown host"
	}
	text, err := json.Marshal(Holder{PID: os.Getpid(), Host: host, Command: command, Since: now})
	if err != nil {
		return
	}
	Remember(note, append(text, '\n'))
}

// Remember puts a note at path, whole or not at all, for what is good to know and no
// loss: it does not wait for the disk, and what fails is not said. A link at path is
// replaced and not followed.
func Remember(path string, data []byte) {
	f, err := os.CreateTemp(filepath.Dir(path), tempPrefix)
	if err != nil {
		return
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Chmod(fileMode), f.Close()); err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		_ = os.Remove(f.Name())
	}
}

// readHolder reads the note; a lock whose note is not readable has an unknown
// holder. Earlier versions wrote it into the lock itself.
func readHolder(path string) Holder {
	for _, note := range []string{path + noteSuffix, path} {
		var h Holder
		if text, err := Read(note, maxNote); err == nil && json.Unmarshal(text, &h) == nil {
			return h
		}
	}
	return Holder{}
}

// withoutPath drops the path of an error of the system.
func withoutPath(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// inFolder does something in a folder while nobody else writes there, after clearing
// away what a run that died left in it. Where folders have no locks, it is done
// without one and nothing is cleared away.
func inFolder(dir string, do func() error) error {
	lock := folderLock(dir)
	waited, got, err := tryFor(lock, folderWait)
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, fs.ErrPermission):
		return plainer(dir, err)
	case err != nil:
		return do()
	case !got:
		return &LockedError{Path: dir, Waited: waited}
	}
	defer lock.Unlock()
	if err := recoverFolder(dir); err != nil {
		return plainer(dir, err)
	}
	return do()
}

// Sweep clears away what runs that died left in a folder: a set of files that was
// being put in place is finished where all of it was there, and taken back where not.
// Where another run is writing, nothing is done.
func Sweep(dir string) error {
	lock := folderLock(dir)
	if got, err := lock.TryLock(); err != nil || !got {
		return nil
	}
	defer lock.Unlock()
	if err := recoverFolder(dir); err != nil {
		return plainer(dir, err)
	}
	return nil
}
