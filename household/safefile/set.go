package safefile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"sync/atomic"

	"bowlwright/household/parallel"
)

// setWriters is how many files of a set are on their way to the disk at once: a disk
// makes several writes last in about the time of one.
const setWriters = 16

// WriteSet makes a new folder with count files, all of them or none; file gives the
// name and the content of one and is called for several at once. It fails with
// fs.ErrExist when the folder exists. The folder above it must exist.
func WriteSet(path string, count int, file func(i int) (name string, data []byte, err error)) error {
	if _, err := os.Lstat(path); err == nil {
		return &fs.PathError{Op: "write", Path: path, Err: fs.ErrExist}
	}
	above := filepath.Dir(path)
	return inFolder(above, func() error {
		if err := newFolder(above, path, count, file); err != nil {
			return plainer(path, err)
		}
		return nil
	})
}

func newFolder(above, path string, count int, file func(i int) (name string, data []byte, err error)) error {
	temp, err := tempFolder(above)
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
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
	if err := syncDir(above); err != nil {
		back := step("take back")
		if back == nil {
			back = os.Rename(path, temp)
		}
		if back != nil {
			back = &StandsError{Dir: above, New: []string{filepath.Base(path)}, Err: back}
		}
		return errors.Join(err, back)
	}
	return nil
}

// tempFolder makes an unfinished folder.
func tempFolder(above string) (string, error) {
	if err := step("make folder"); err != nil {
		return "", err
	}
	temp, err := os.MkdirTemp(above, tempPrefix)
	if err != nil {
		return "", err
	}
	if err := os.Chmod(temp, dirMode); err != nil {
		os.Remove(temp)
		return "", err
	}
	return temp, nil
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
