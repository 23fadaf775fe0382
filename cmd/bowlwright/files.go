package main

import (
	"errors"
	"io/fs"
	"path/filepath"

	"bowlwright/household/safefile"
)

// file is something to write.
type file struct {
	name string
	data []byte
}

// writeFiles writes files into a folder as one set, all or none, and makes the folder
// with those within that the names ask for. A failed command leaves the folder as it
// was.
func writeFiles(dir string, files []file) error {
	set := make([]safefile.File, len(files))
	for i, f := range files {
		set[i] = safefile.File{Name: filepath.ToSlash(f.name), Data: f.data}
	}
	return safefile.Replace(dir, set)
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
