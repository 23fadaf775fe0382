package safefile

import (
	"io"
	"io/fs"
	"os"
)

// Open opens a regular file to read, following links. A pipe, a device or a folder
// is a *NotRegularError; opening one never waits.
func Open(path string) (*os.File, fs.FileInfo, error) {
	// Opening some devices does something, so that what stands there is looked at first.
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, nil, &NotRegularError{Path: path, Kind: kindOf(info)}
	}
	f, err := os.OpenFile(path, os.O_RDONLY|nonBlock, 0)
	if err != nil {
		return nil, nil, err
	}
	if info, err = f.Stat(); err == nil && !info.Mode().IsRegular() {
		err = &NotRegularError{Path: path, Kind: kindOf(info)}
	}
	if err != nil {
		f.Close()
		return nil, nil, err
	}
	return f, info, nil
}

// Read returns the content of a regular file. More than limit bytes are a
// *TooLargeError, whatever the file says its size is.
func Read(path string, limit int64) ([]byte, error) {
	f, info, err := Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info.Size() > limit {
		return nil, &TooLargeError{Path: path, Limit: limit}
	}
	data, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err == nil && int64(len(data)) > limit {
		err = &TooLargeError{Path: path, Limit: limit}
	}
	if err != nil {
		return nil, err
	}
	return data, nil
}

// ReadEnd returns the last limit bytes of a regular file, the whole of a shorter
// one, and how many bytes before them were left out.
func ReadEnd(path string, limit int64) (data []byte, left int64, err error) {
	f, info, err := Open(path)
	if err != nil {
		return nil, 0, err
	}
	defer f.Close()
	if left = max(0, info.Size()-limit); left > 0 {
		if _, err := f.Seek(left, io.SeekStart); err != nil {
			return nil, 0, err
		}
	}
	data, err = io.ReadAll(io.LimitReader(f, limit))
	return data, left, err
}

// Names returns how many names (hard links) a file has, 1 where that is not known.
func Names(path string) int {
	info, err := os.Lstat(path)
	if err != nil {
		return 1
	}
	return hardLinks(info)
}
