// Package safefile writes files so that a crash leaves the old state or the new
// one, and locks a folder so that two runs do not write at once.
package safefile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"syscall"

	"bowlwright/household/diag"
	"bowlwright/household/parallel"
)

// The modes of what is written: readable by others in the house, who may share
// the folder.
const (
	fileMode = 0o644
	dirMode  = 0o755
)

// tempPrefix starts the name of what is not finished. Readers skip it.
const tempPrefix = ".unfinished-"

// onStep is called before each change of the disk, with what is about to happen, by
// one writer at a time. Tests make it fail or end the process there.
var (
	onStep   = func(string) error { return nil }
	stepping sync.Mutex
)

func step(what string) error {
	stepping.Lock()
	defer stepping.Unlock()
	return onStep(what)
}

// OnStep sets a function that is called before each change of the disk; its
// error fails that step. It is meant for tests that show what a failure at each
// step leaves behind. The returned function takes it away again.
func OnStep(f func(step string) error) (restore func()) {
	stepping.Lock()
	defer stepping.Unlock()
	old := onStep
	onStep = f
	return func() {
		stepping.Lock()
		defer stepping.Unlock()
		onStep = old
	}
}

// IsUnfinished says whether a file or folder of that name is the rest of a write
// that did not finish.
func IsUnfinished(name string) bool {
	return len(name) > len(tempPrefix) && name[:len(tempPrefix)] == tempPrefix
}

// Write puts data at path. The file is the old one or the new one at every
// moment, and the new one is on the disk when Write returns. When path is a
// symbolic link, the file that it names is replaced and the link stays. The
// folder must exist.
func Write(path string, data []byte) error {
	path, err := target(path)
	if err != nil {
		return err
	}
	dir := filepath.Dir(path)
	temp, err := writeTemp(dir, data)
	if err != nil {
		return plainer(path, err)
	}
	if err := commit(temp, path); err != nil {
		os.Remove(temp)
		return plainer(path, err)
	}
	return syncDir(dir)
}

// setWriters is how many files of a set are on their way to the disk at once: a disk
// makes several writes last in about the time of one.
const setWriters = 16

// WriteSet makes a new folder with count files, all of them or none; file gives the
// name and the content of one and is called for several at once. It fails with
// fs.ErrExist when the folder exists. The folder above it must exist.
func WriteSet(path string, count int, file func(i int) (name string, data []byte, err error)) (err error) {
	if _, err := os.Lstat(path); err == nil {
		return &fs.PathError{Op: "write", Path: path, Err: fs.ErrExist}
	}
	above := filepath.Dir(path)
	if err := step("make folder"); err != nil {
		return plainer(path, err)
	}
	temp, err := os.MkdirTemp(above, tempPrefix)
	if err != nil {
		return plainer(path, err)
	}
	defer func() {
		if err != nil {
			os.RemoveAll(temp)
			err = plainer(path, err)
		}
	}()
	if err := os.Chmod(temp, dirMode); err != nil {
		return err
	}
	if err := sideBySide(count, func(i int) error {
		name, data, err := file(i)
		if err != nil {
			return err
		}
		// The folder has no name yet that a reader knows, so its files need no
		// unfinished name of their own.
		return create(filepath.Join(temp, name), data)
	}); err != nil {
		return err
	}
	if err := syncDir(temp); err != nil {
		return err
	}
	if err := commit(temp, path); err != nil {
		return err
	}
	return syncDir(above)
}

// sideBySide does a number of things, several at once, and returns when all are
// done or, after an error, when none is under way any more. Of several errors, a full
// disk fails all that are under way, it returns that of the first thing.
func sideBySide(count int, do func(i int) error) error {
	var failed atomic.Bool
	errs := make([]error, count)
	parallel.Do(setWriters, count, func(i int) {
		if failed.Load() {
			return
		}
		if errs[i] = do(i); errs[i] != nil {
			failed.Store(true)
		}
	})
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// create writes data to a new file and waits until it is on the disk.
func create(path string, data []byte) error {
	if err := step("make file"); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, fileMode)
	if err != nil {
		return err
	}
	return fill(f, data)
}

// target follows a symbolic link to the file it names.
func target(path string) (string, error) {
	info, err := os.Lstat(path)
	if err != nil || info.Mode()&fs.ModeSymlink == 0 {
		return path, nil
	}
	real, err := filepath.EvalSymlinks(path)
	if err != nil {
		return "", fmt.Errorf("the link %s leads nowhere: %w", path, err)
	}
	return real, nil
}

// writeTemp writes data to a new file in dir and waits until it is on the disk.
func writeTemp(dir string, data []byte) (name string, err error) {
	if err := step("make file"); err != nil {
		return "", err
	}
	f, err := os.CreateTemp(dir, tempPrefix)
	if err != nil {
		return "", err
	}
	if err := fill(f, data); err != nil {
		os.Remove(f.Name())
		return "", err
	}
	return f.Name(), nil
}

// fill writes data to a new file, waits until they are on the disk, and closes it.
func fill(f *os.File, data []byte) (err error) {
	defer func() {
		if err != nil {
			f.Close()
		}
	}()
	if err := step("write"); err != nil {
		return err
	}
	if _, err := f.Write(data); err != nil {
		return err
	}
	if err := f.Chmod(fileMode); err != nil {
		return err
	}
	if err := step("sync file"); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	return f.Close()
}

func commit(from, to string) error {
	if err := step("rename"); err != nil {
		return err
	}
	return os.Rename(from, to)
}

// syncDir waits until the names in a folder are on the disk. Where the system
// cannot do that for a folder, the rename has to do.
func syncDir(dir string) error {
	if err := step("sync folder"); err != nil {
		return plainer(dir, err)
	}
	f, err := os.Open(dir)
	if err != nil {
		return plainer(dir, err)
	}
	defer f.Close()
	if err := f.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) && !errors.Is(err, fs.ErrInvalid) {
		return plainer(dir, err)
	}
	return nil
}

// CannotWriteError says in plain words that the disk refused.
type CannotWriteError struct {
	Path string
	Err  error
}

func (e *CannotWriteError) Error() string { return fmt.Sprintf("cannot write %s: %v", e.Path, e.Err) }

// Unwrap returns what the system said.
func (e *CannotWriteError) Unwrap() error { return e.Err }

// ExitCode is that of bad input: it is for the user to mend.
func (e *CannotWriteError) ExitCode() int { return diag.ExitInput }

// Hint says what to look at.
func (e *CannotWriteError) Hint() diag.Hint {
	switch {
	case errors.Is(e.Err, syscall.ENOSPC):
		return diag.Hint{Text: "make room on the disk and run it again"}
	case errors.Is(e.Err, fs.ErrPermission):
		return diag.Hint{Text: fmt.Sprintf("see who owns %s and who may write there", filepath.Dir(e.Path))}
	}
	return diag.Hint{Text: "check that the folder is there and may be written to"}
}

// plainer drops the name of the unfinished file, which means nothing to people.
func plainer(path string, err error) error {
	var already *CannotWriteError
	if errors.As(err, &already) {
		return err
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
