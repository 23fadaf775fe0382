package safefile

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// File is one file of a set.
type File struct {
	// Name is its path within the folder, with slashes.
	Name string
	Data []byte
}

// Replace writes files into a folder as one set, over those of the same names: all of
// them or none. The folder is made, with those within it that the names ask for. An
// error leaves the folder as it was or says what stands. A crash never leaves new
// files beside old ones of the set: the old ones go before the first new one comes,
// and the next writer in the folder finishes the set or brings the old ones back. The
// last file comes last.
func Replace(dir string, files []File) error {
	undo, err := MakeFolder(dir)
	if err != nil {
		return err
	}
	if len(files) == 1 && !strings.Contains(files[0].Name, "/") {
		err = Write(filepath.Join(dir, files[0].Name), files[0].Data)
	} else {
		err = inFolder(dir, func() error { return replaceSet(dir, files) })
	}
	if err != nil {
		undo()
		return plainer(dir, err)
	}
	return nil
}

// Names inside the unfinished folder of a set. The journal is there from before the
// first change of a file to after the last; giveUp says that the set is on its way back.
const (
	journalName = "journal"
	giveUpName  = "give-up"
	journalForm = "bowlwright/unfinished/1"
	// maxJournal and maxRecovered bound what is read of an unfinished set.
	maxJournal, maxRecovered = 1 << 20, 64 << 20
)

// journal is what a set changes, for whoever finds it unfinished.
type journal struct {
	Format string `json:"format"`
	// Folders are those that the set makes within dir, outer ones first.
	Folders []string       `json:"folders"`
	Files   []journalEntry `json:"files"`

	dir, temp string
}

type journalEntry struct {
	Name string `json:"name"`
	// Digest is that of the new content; Old says that a file was there.
	Digest string `json:"digest"`
	Old    bool   `json:"old"`
}

func (j *journal) target(i int) string {
	return filepath.Join(j.dir, filepath.FromSlash(j.Files[i].Name))
}
func (j *journal) new(i int) string { return filepath.Join(j.temp, fmt.Sprintf("new-%d", i)) }
func (j *journal) old(i int) string { return filepath.Join(j.temp, fmt.Sprintf("old-%d", i)) }

func replaceSet(dir string, files []File) error {
	j := &journal{Format: journalForm, Folders: []string{}, dir: dir}
	for _, f := range files {
		if !filepath.IsLocal(filepath.FromSlash(f.Name)) {
			panic("safefile: a name that leads out of the folder: " + f.Name)
		}
		if err := j.plan(f); err != nil {
			return plainer(filepath.Join(dir, filepath.FromSlash(f.Name)), err)
		}
	}
	var err error
	if j.temp, err = tempFolder(dir); err != nil {
		return err
	}
	if err := j.prepare(files); err != nil {
		os.RemoveAll(j.temp)
		return err
	}
	if err := j.putInPlace(); err != nil {
		return errors.Join(err, j.abandon())
	}
	os.RemoveAll(j.temp)
	return nil
}

// plan notes what a file changes, or refuses it.
func (j *journal) plan(f File) error {
	missing, err := foldersOf(j.dir, f.Name)
	if err != nil {
		return err
	}
	for _, at := range missing {
		if !slices.Contains(j.Folders, at) {
			j.Folders = append(j.Folders, at)
		}
	}
	info, err := mayReplace(filepath.Join(j.dir, filepath.FromSlash(f.Name)))
	j.Files = append(j.Files, journalEntry{Name: f.Name, Digest: digestOf(f.Data), Old: info != nil})
	return err
}

// foldersOf looks at the folders between dir and a file: those that are not there, and
// an error for one that is a link or no folder.
func foldersOf(dir, name string) (missing []string, err error) {
	at := ""
	for _, part := range strings.Split(name, "/")[:strings.Count(name, "/")] {
		at = strings.TrimPrefix(at+"/"+part, "/")
		info, err := os.Lstat(filepath.Join(dir, filepath.FromSlash(at)))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			missing = append(missing, at)
		case err != nil:
			return nil, err
		case info.Mode()&fs.ModeSymlink != 0:
			return nil, &LinkError{Path: at}
		case !info.IsDir():
			return nil, errNotFolder
		}
	}
	return missing, nil
}

func digestOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// prepare puts the new files and the journal on the disk.
func (j *journal) prepare(files []File) error {
	if err := sideBySide(len(files), func(i int) error { return create(j.new(i), files[i].Data) }); err != nil {
		return err
	}
	text, err := json.Marshal(j)
	if err != nil {
		return err
	}
	if err := create(filepath.Join(j.temp, journalName), text); err != nil {
		return err
	}
	if err := syncDir(j.temp); err != nil {
		return err
	}
	return syncDir(j.dir)
}

// putInPlace takes the old files away and brings the new ones.
func (j *journal) putInPlace() error {
	for _, folder := range j.Folders {
		if err := step("make folder"); err != nil {
			return err
		}
		if err := os.Mkdir(filepath.Join(j.dir, filepath.FromSlash(folder)), dirMode); err != nil {
			return err
		}
	}
	old := false
	for i, f := range j.Files {
		if !f.Old {
			continue
		}
		old = true
		if err := commit(j.target(i), j.old(i)); err != nil {
			return plainer(j.target(i), err)
		}
	}
	if old {
		if err := j.sync(); err != nil {
			return err
		}
	}
	for i := range j.Files {
		if err := commit(j.new(i), j.target(i)); err != nil {
			return plainer(j.target(i), err)
		}
	}
	if err := j.sync(); err != nil {
		return err
	}
	if err := step("finish"); err != nil {
		return err
	}
	return os.Remove(filepath.Join(j.temp, journalName))
}

// sync waits for the names in every folder that the set changes.
func (j *journal) sync() error {
	folders := []string{j.dir}
	for _, f := range j.Files {
		if at := filepath.Join(j.dir, filepath.FromSlash(filepath.Dir(f.Name))); !slices.Contains(folders, at) {
			folders = append(folders, at)
		}
	}
	for _, folder := range folders {
		if err := syncDir(folder); err != nil {
			return err
		}
	}
	return nil
}

// abandon takes the set back after a failure.
func (j *journal) abandon() error {
	err := step("give up")
	if err == nil {
		// For whoever finds the set if this run dies while it takes it back.
		err = os.WriteFile(filepath.Join(j.temp, giveUpName), nil, fileMode)
	}
	if err == nil {
		err = j.back()
	}
	if err != nil {
		return j.stands(err)
	}
	os.RemoveAll(j.temp)
	return nil
}

// stands says what stands where a set could not be taken back.
func (j *journal) stands(err error) error {
	s := &StandsError{Dir: j.dir, Err: withoutPath(err)}
	for i, f := range j.Files {
		switch {
		case !exists(j.target(i)) && (f.Old || !exists(j.new(i))):
			s.Missing = append(s.Missing, f.Name)
		case !exists(j.new(i)) && j.isNew(i):
			s.New = append(s.New, f.Name)
		}
	}
	if len(s.New)+len(s.Missing) == 0 {
		j.removeFolders()
		os.RemoveAll(j.temp)
		return nil
	}
	return s
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// back brings the old files back and takes the new ones away. It can be done again
// after it was broken off. A file that is neither is somebody's, and stays.
func (j *journal) back() error {
	for i := len(j.Files) - 1; i >= 0; i-- {
		if err := j.backOne(i); err != nil {
			return err
		}
	}
	j.removeFolders()
	return nil
}

// removeFolders removes the folders that the set made; one that is not empty holds
// somebody's files and stays.
func (j *journal) removeFolders() {
	for _, folder := range slices.Backward(j.Folders) {
		_ = os.Remove(filepath.Join(j.dir, filepath.FromSlash(folder)))
	}
}

func (j *journal) backOne(i int) error {
	if err := step("take back"); err != nil {
		return err
	}
	placed, hasOld, there := !exists(j.new(i)), exists(j.old(i)), exists(j.target(i))
	switch {
	case j.Files[i].Old && !hasOld:
		return nil // not set aside yet, or back already
	case there && !(placed && j.isNew(i)):
		return nil // somebody's
	case hasOld:
		return os.Rename(j.old(i), j.target(i))
	case placed && there:
		return os.Remove(j.target(i))
	}
	return nil
}

// isNew says whether the target is the file that the set brought.
func (j *journal) isNew(i int) bool {
	data, err := Read(j.target(i), maxRecovered)
	return err == nil && digestOf(data) == j.Files[i].Digest
}

// recoverFolder clears away what runs that died left in a folder whose lock is held.
func recoverFolder(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if !IsUnfinished(e.Name()) {
			continue
		}
		path := filepath.Join(dir, e.Name())
		if e.IsDir() {
			if err := recoverSet(dir, path); err != nil {
				return err
			}
		}
		// What cannot be removed does no harm: readers skip it.
		_ = os.RemoveAll(path)
	}
	return nil
}

// recoverSet finishes a set or takes it back. Without a journal that can be read it
// changed nothing yet, or was done.
func recoverSet(dir, temp string) error {
	text, err := Read(filepath.Join(temp, journalName), maxJournal)
	if err != nil {
		return nil
	}
	j := &journal{dir: dir, temp: temp}
	if json.Unmarshal(text, j) != nil || j.Format != journalForm {
		return nil
	}
	whole := !exists(filepath.Join(temp, giveUpName))
	for i, f := range j.Files {
		// A journal that somebody else wrote must not reach out of the folder.
		if _, err := foldersOf(dir, f.Name); err != nil || !filepath.IsLocal(filepath.FromSlash(f.Name)) {
			return nil
		}
		whole = whole && !exists(j.new(i))
	}
	if whole {
		return nil
	}
	return j.back()
}
