package safefile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"bowlwright/household/diag"
)

// CannotWriteError says in plain words that the disk refused.
type CannotWriteError struct {
	Path string
	Err  error
}

func (e *CannotWriteError) Error() string { return fmt.Sprintf("cannot write %s: %v", e.Path, e.Err) }

// Unwrap returns what the system said.
func (e *CannotWriteError) Unwrap() error { return e.Err }

// ExitCode is that of bad input: it is for the user to mend. What could not be taken
// back is a failure.
func (e *CannotWriteError) ExitCode() int {
	var stands *StandsError
	if errors.As(e.Err, &stands) {
		return diag.ExitFailed
	}
	return diag.ExitInput
}

// Hint says what to look at.
func (e *CannotWriteError) Hint() diag.Hint {
	var (
		stands *StandsError
		link   *LinkError
		other  *NotRegularError
		large  *TooLargeError
	)
	switch {
	case errors.As(e.Err, &stands):
		return diag.Hint{Text: "check the disk, then run the command again: it puts right what it finds unfinished"}
	case errors.Is(e.Err, syscall.ENOSPC):
		return diag.Hint{Text: "make room on the disk and run it again"}
	case errors.As(e.Err, &link):
		return diag.Hint{Text: "put a folder or file of its own in the place of the link, or name the one that it leads to"}
	case errors.As(e.Err, &other):
		return diag.Hint{Text: "move it away and run the command again"}
	case errors.As(e.Err, &large):
		return diag.Hint{Text: "move older lines to a file of their own"}
	case errors.Is(e.Err, fs.ErrPermission):
		return diag.Hint{Text: fmt.Sprintf("see who owns %s and who may write there", filepath.Dir(e.Path))}
	}
	return diag.Hint{Text: "check that the folder is there and may be written to"}
}

// LinkError says that a symbolic link stands where something was to be written.
type LinkError struct{ Path string }

func (e *LinkError) Error() string {
	return "it is a symbolic link, and nothing is written through a link"
}

// NotRegularError says that something other than a file stands at a path.
type NotRegularError struct {
	Path string
	// Kind is what stands there: "a folder", "a pipe", "a device", …
	Kind string
}

func (e *NotRegularError) Error() string { return fmt.Sprintf("it is %s, not a file", e.Kind) }

// TooLargeError says that a file holds more than is read or written.
type TooLargeError struct {
	Path string
	// Limit is the largest size in bytes.
	Limit int64
}

func (e *TooLargeError) Error() string {
	return "it is larger than " + megabytes(e.Limit)
}

// StandsError says that a write failed and could not be taken back either, and what
// stands now.
type StandsError struct {
	Dir string
	// New are the files that are new already, Missing those that are not there;
	// all others are the old ones.
	New, Missing []string
	Err          error
}

func (e *StandsError) Error() string {
	var parts []string
	if len(e.New) > 0 {
		parts = append(parts, "new: "+strings.Join(e.New, ", "))
	}
	if len(e.Missing) > 0 {
		parts = append(parts, "missing: "+strings.Join(e.Missing, ", "))
	}
	return fmt.Sprintf("it could not be taken back (%v); in %s stand now: %s; all else as before", e.Err, e.Dir, strings.Join(parts, "; "))
}

// Unwrap returns what the system said.
func (e *StandsError) Unwrap() error { return e.Err }

// kindOf says what a file that is no regular one is.
func kindOf(info fs.FileInfo) string {
	switch mode := info.Mode(); {
	case mode.IsDir():
		return "a folder"
	case mode&fs.ModeSymlink != 0:
		return "a symbolic link"
	case mode&fs.ModeNamedPipe != 0:
		return "a pipe"
	case mode&fs.ModeDevice != 0:
		return "a device"
	case mode&fs.ModeSocket != 0:
		return "a socket"
	}
	return "something else"
}

// plainer drops the name of the unfinished file, which means nothing to people.
func plainer(path string, err error) error {
	var already *CannotWriteError
	var stands *StandsError
	if errors.As(err, &already) && !errors.As(err, &stands) {
		return already
	}
	if errors.As(err, &stands) {
		return &CannotWriteError{Path: path, Err: stands}
	}
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		err = p.Err
	case errors.As(err, &l):
		err = l.Err
	}
	return &CannotWriteError{Path: path, Err: err}
}

// megabytes writes a size for people.
func megabytes(bytes int64) string {
	if bytes < 1<<20 {
		return fmt.Sprintf("%d bytes", bytes)
	}
	return fmt.Sprintf("%d MB", bytes>>20)
}
