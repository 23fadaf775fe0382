package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"bowlwright/household/safefile"
)

// file is something to write.
type file struct {
	name string
	data []byte
}

// writeFiles writes files into a folder, which it makes with those within that the
// names ask for. When one cannot be written, what was made before it is taken back,
// so that a failed command leaves the folder as it was.
func writeFiles(dir string, files []file) (err error) {
	var back []func()
	defer func() {
		if err != nil {
			for _, undo := range slices.Backward(back) {
				undo()
			}
		}
	}()
	for _, f := range files {
		path := filepath.Join(dir, f.name)
		undo, err := makeFolder(filepath.Dir(path))
		if err != nil {
			return err
		}
		back = append(back, undo)
		old, oldErr := os.ReadFile(path)
		if err := safefile.Write(path, f.data); err != nil {
			return err
		}
		back = append(back, func() {
			if oldErr == nil {
				_ = safefile.Write(path, old)
			} else {
				_ = os.Remove(path)
			}
		})
	}
	return nil
}

// makeFolder makes a folder with those above it; undo removes what was made, as long
// as it is empty.
func makeFolder(dir string) (undo func(), err error) {
	var missing []string
	for at := filepath.Clean(dir); ; at = filepath.Dir(at) {
		if _, err := os.Lstat(at); !errors.Is(err, fs.ErrNotExist) || at == filepath.Dir(at) {
			break
		}
		missing = append(missing, at)
	}
	undo = func() {
		for _, d := range missing {
			_ = os.Remove(d)
		}
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		undo()
		return undo, &safefile.CannotWriteError{Path: dir, Err: withoutOp(err)}
	}
	return undo, nil
}

// withoutOp takes the path off an error of the file system, which the message names
// already.
func withoutOp(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}
