// Package safefile reads and writes files so that a crash, a full disk or a hostile
// folder does no harm. What is written is the old state or the new one at every
// moment; nothing is written through a symbolic link and nothing is emptied that was
// not made here; what is read is a regular file within a bound; a lock keeps two runs
// from writing at once.
//
// # Decisions
//
// A file that was there keeps its mode and is replaced, never changed in place: half a
// line of the weight log would be another weight. Its other names (hard links) keep the
// old content, and weigh says so.
//
// A set of files (Replace) goes into place with a journal: the old files go before the
// first new one comes, so that a crash never leaves both, and the next writer in the
// folder finishes the set or brings the old ones back. The lock of a folder is the
// folder itself; that of a household is records/.lock, which is never written to.
//
// A folder could be swapped for a link by somebody who writes into it at the same
// moment: against that neighbour there is no protection.
package safefile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
)

// The modes of what is written anew: readable by others in the house, who may share
// the folder.
const (
	fileMode = 0o644
	dirMode  = 0o755
)

// tempPrefix starts the name of what is not finished. Readers skip it, and the next
// writer in the folder clears it away.
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

// Write puts data at path. The file is the old one or the new one at every moment,
// the new one is on the disk when Write returns, and the old one is back when it
// returns an error. A file that was there keeps its mode; its other names (hard
// links) keep the old content, because a file is never changed in place. A symbolic
// link is refused with a *LinkError. The folder must exist.
func Write(path string, data []byte) error {
	return inFolder(filepath.Dir(path), func() error {
		return replaceOne(path, func(to io.Writer, _ io.Reader) error {
			_, err := to.Write(data)
			return err
		})
	})
}

// Append adds data to the end of a file as Write would: the whole file is written
// anew, so that half a line is never read. A last line without its end gets one; a
// new file begins with head. A file over limit bytes is a *TooLargeError.
func Append(path string, head, data []byte, limit int64) error {
	return inFolder(filepath.Dir(path), func() error {
		return replaceOne(path, func(to io.Writer, old io.Reader) error {
			begin := head
			if old != nil {
				last := &lastByte{}
				n, err := io.Copy(io.MultiWriter(to, last), io.LimitReader(old, limit+1))
				switch {
				case err != nil:
					return err
				case n > limit:
					return &TooLargeError{Path: path, Limit: limit}
				case n > 0 && last.b != '\n':
					begin = []byte{'\n'}
				case n > 0:
					begin = nil
				}
			}
			_, err := to.Write(append(begin[:len(begin):len(begin)], data...))
			return err
		})
	})
}

// lastByte remembers the last byte written to it.
type lastByte struct{ b byte }

func (l *lastByte) Write(p []byte) (int, error) {
	if len(p) > 0 {
		l.b = p[len(p)-1]
	}
	return len(p), nil
}

// replaceOne writes one file anew; content gets the old one to read, nil for none.
func replaceOne(path string, content func(to io.Writer, old io.Reader) error) (err error) {
	defer func() {
		if err != nil {
			err = plainer(path, err)
		}
	}()
	info, err := mayReplace(path)
	if err != nil {
		return err
	}
	dir := filepath.Dir(path)
	temp, err := writeTemp(dir, path, info, content)
	if err != nil {
		return err
	}
	defer os.Remove(temp)
	backup := ""
	if info != nil {
		if backup, err = keep(path); err != nil {
			return err
		}
		defer os.Remove(backup)
	}
	if err := commit(temp, path); err != nil {
		return err
	}
	if err := syncDir(dir); err != nil {
		return errors.Join(err, takeBack(path, backup))
	}
	return nil
}

// takeBack undoes the rename of a new file; what then stands is said where it fails.
func takeBack(path, backup string) error {
	err := step("take back")
	switch {
	case err == nil && backup != "":
		err = os.Rename(backup, path)
	case err == nil:
		err = os.Remove(path)
	}
	if err != nil {
		return &StandsError{Dir: filepath.Dir(path), New: []string{filepath.Base(path)}, Err: err}
	}
	return nil
}

// mayReplace says whether a file may be written at path: nothing may be there, or a
// regular file that may be written.
func mayReplace(path string) (fs.FileInfo, error) {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, err
	case info.Mode()&fs.ModeSymlink != 0:
		return nil, &LinkError{Path: path}
	case !info.Mode().IsRegular():
		return nil, &NotRegularError{Path: path, Kind: kindOf(info)}
	case info.Mode().Perm()&0o200 == 0:
		return nil, &fs.PathError{Op: "write", Path: path, Err: fs.ErrPermission}
	}
	return info, nil
}

// keep gives the file at path a second name beside it, and where the file system has
// no hard links, makes a copy.
func keep(path string) (string, error) {
	if err := step("keep old"); err != nil {
		return "", err
	}
	f, err := os.CreateTemp(filepath.Dir(path), tempPrefix)
	if err != nil {
		return "", err
	}
	name := f.Name()
	f.Close()
	// CreateTemp found a name that is free; a link needs one that is not there.
	if os.Remove(name) == nil && os.Link(path, name) == nil {
		return name, nil
	}
	return name, copyFile(path, name)
}

// copyFile copies a file to a name that is free.
func copyFile(from, to string) error {
	in, info, err := Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL|noFollow, info.Mode().Perm())
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close())
}

// create writes data to a new file and waits until it is on the disk.
func create(path string, data []byte) error {
	if err := step("make file"); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL|noFollow, fileMode)
	if err != nil {
		return err
	}
	return fill(f, nil, func(to io.Writer) error {
		_, err := to.Write(data)
		return err
	})
}

// writeTemp writes a new file in dir and waits until it is on the disk. It gets mode
// and owner of the old one.
func writeTemp(dir, path string, info fs.FileInfo, content func(to io.Writer, old io.Reader) error) (name string, err error) {
	var old io.Reader
	if info != nil {
		f, _, err := Open(path)
		if err != nil {
			return "", err
		}
		defer f.Close()
		old = f
	}
	if err := step("make file"); err != nil {
		return "", err
	}
	f, err := os.CreateTemp(dir, tempPrefix)
	if err != nil {
		return "", err
	}
	if err := fill(f, info, func(to io.Writer) error { return content(to, old) }); err != nil {
		os.Remove(f.Name())
		return "", err
	}
	return f.Name(), nil
}

// fill writes a new file, waits until it is on the disk, and closes it.
func fill(f *os.File, like fs.FileInfo, content func(io.Writer) error) (err error) {
	defer func() {
		if err != nil {
			f.Close()
		}
	}()
	if err := step("write"); err != nil {
		return err
	}
	if err := content(f); err != nil {
		return err
	}
	mode := fs.FileMode(fileMode)
	if like != nil {
		mode = like.Mode().Perm()
		keepOwner(f, like)
	}
	if err := f.Chmod(mode); err != nil {
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

// MakeFolder makes a folder with those above it; undo removes what was made, as long
// as it is empty. A symbolic link in its place is a *LinkError.
func MakeFolder(dir string) (undo func(), err error) {
	var missing []string
	undo = func() {
		for _, d := range missing {
			_ = os.Remove(d)
		}
	}
	dir = filepath.Clean(dir)
	if info, err := os.Lstat(dir); err == nil {
		switch {
		case info.Mode()&fs.ModeSymlink != 0:
			return undo, plainer(dir, &LinkError{Path: dir})
		case !info.IsDir():
			return undo, plainer(dir, errNotFolder)
		}
		return undo, nil
	}
	for at := dir; ; at = filepath.Dir(at) {
		if _, err := os.Lstat(at); !errors.Is(err, fs.ErrNotExist) || at == filepath.Dir(at) {
			break
		}
		missing = append(missing, at)
	}
	if err := step("make folder"); err != nil {
		return undo, plainer(dir, err)
	}
	if err := os.MkdirAll(dir, dirMode); err != nil {
		undo()
		return undo, plainer(dir, err)
	}
	for _, d := range missing {
		if err := syncDir(filepath.Dir(d)); err != nil {
			undo()
			return undo, err
		}
	}
	return undo, nil
}

var errNotFolder = fmt.Errorf("a file stands in the way of the folder: %w", fs.ErrExist)
