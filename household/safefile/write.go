package safefile

import (
	"errors"
	"os"
	"path/filepath"
)

// Step is called before each step of a write with its name; a test makes it fail
// to play a crash or a full disk. It is nil in use.
var Step func(name string) error

func step(name string) error {
	if Step == nil {
		return nil
	}
	return Step(name)
}

// Write replaces the file at path, or makes it: a temporary file in the same
// folder is written and synced, renamed over the path, and the folder is synced.
// After a crash at any point the path holds the old bytes or the new ones. A
// symbolic link stays a link: its target is replaced.
func Write(path string, data []byte, mode os.FileMode) (err error) {
	if target, linkErr := filepath.EvalSymlinks(path); linkErr == nil {
		path = target
	}
	dir := filepath.Dir(path)
	if err := step("create"); err != nil {
		return err
	}
	f, err := os.CreateTemp(dir, "."+filepath.Base(path)+".*.tmp")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	if err := step("write"); err != nil {
		return err
	}
	if _, err := f.Write(data); err != nil {
		return err
	}
	if err := f.Chmod(mode); err != nil {
		return err
	}
	if err := step("sync"); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	if err := step("rename"); err != nil {
		return err
	}
	if err := os.Rename(f.Name(), path); err != nil {
		return err
	}
	return SyncDir(dir)
}

// SyncDir makes a rename in the folder durable. Systems that cannot sync a
// folder say so with an error that is no fault of the write.
func SyncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, os.ErrInvalid) {
		return err
	}
	return nil
}

// Append adds one line to a file and syncs it; a line that was cut off before
// (no newline at the end) is closed first, so that it spoils nothing else.
func Append(path string, line []byte, header []byte) error {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o644)
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return err
	}
	var data []byte
	if info.Size() == 0 {
		data = append(data, header...)
	} else {
		last := make([]byte, 1)
		if _, err := f.ReadAt(last, info.Size()-1); err != nil {
			return err
		}
		if last[0] != '\n' {
			data = append(data, '\n')
		}
	}
	data = append(data, line...)
	if err := step("append"); err != nil {
		return err
	}
	if _, err := f.Write(data); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	return SyncDir(filepath.Dir(path))
}
