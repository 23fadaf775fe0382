package safefile

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// put writes files for a test.
func put(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// contents returns all files of a folder by their names, also hidden ones.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, _ := filepath.Rel(dir, path)
		if d.IsDir() {
			if path != dir {
				files[name+"/"] = ""
			}
			return nil
		}
		if d.Type()&os.ModeSymlink != 0 {
			files[name] = "link"
			return nil
		}
		text, err := os.ReadFile(path)
		files[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func link(t *testing.T, to, at string) {
	t.Helper()
	if err := os.Symlink(to, at); err != nil {
		t.Skip("no symbolic links here")
	}
}

// A lock that is a link, or another name of a file, leaves that file as it was.
func TestLockTouchesNoOtherFile(t *testing.T) {
	for name, lay := range map[string]func(victim, lock string) error{"symbolic": os.Symlink, "hard": os.Link} {
		dir := t.TempDir()
		put(t, dir, map[string]string{"household.toml": "name = \"x\"\n", "records/a": ""})
		lock, victim := filepath.Join(dir, "records", ".lock"), filepath.Join(dir, "household.toml")
		if err := lay(victim, lock); err != nil {
			t.Skip("no links here")
		}
		unlock, err := Lock(lock, "x", time.Time{}, 0)
		var refused *LinkError
		switch {
		case name == "symbolic" && !errors.As(err, &refused):
			t.Errorf("%s: %v", name, err)
		case name == "hard" && err != nil:
			t.Errorf("%s: %v", name, err)
		}
		if err == nil {
			unlock()
		}
		if got := contents(t, dir)["household.toml"]; got != "name = \"x\"\n" {
			t.Errorf("%s: the file behind the lock holds %q", name, got)
		}
	}
}

// The note beside the lock does not follow a link either.
func TestNoteFollowsNoLink(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, map[string]string{"victim": "mine"})
	link(t, "victim", filepath.Join(dir, ".lock-holder"))
	unlock, err := Lock(filepath.Join(dir, ".lock"), "x", time.Time{}, 0)
	if err != nil {
		t.Fatal(err)
	}
	unlock()
	if got := contents(t, dir)["victim"]; got != "mine" {
		t.Errorf("the victim holds %q", got)
	}
}

// Nothing is written through a link, whichever way.
func TestNothingIsWrittenThroughALink(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, map[string]string{"victim": "mine", "elsewhere/old": "old"})
	link(t, "victim", filepath.Join(dir, "file"))
	link(t, "elsewhere", filepath.Join(dir, "folder"))
	before := contents(t, filepath.Join(dir, "elsewhere"))
	two := []File{{"a", []byte("x")}, {"b", []byte("y")}}
	for name, err := range map[string]error{
		"write":      Write(filepath.Join(dir, "file"), []byte("x")),
		"append":     Append(filepath.Join(dir, "file"), nil, []byte("x"), 1<<20),
		"set":        Replace(filepath.Join(dir, "folder"), two),
		"one of it":  Replace(filepath.Join(dir, "folder"), two[:1]),
		"within":     Replace(dir, []File{{"folder/old", []byte("x")}, {"c", nil}}),
		"over it":    Replace(dir, []File{{"file", []byte("x")}, {"c", nil}}),
		"the folder": func() error { _, err := MakeFolder(filepath.Join(dir, "folder")); return err }(),
	} {
		var refused *LinkError
		if !errors.As(err, &refused) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if got := contents(t, filepath.Join(dir, "elsewhere")); len(got) != len(before) || got["old"] != "old" {
		t.Errorf("behind the link now: %v", got)
	}
	if got := contents(t, dir); got["victim"] != "mine" || got["c"] != "" || len(got) != 5 || got["file"] != "link" {
		t.Errorf("now: %v", got)
	}
}

// A file keeps its mode and its other names keep what they had.
func TestWriteKeepsTheMode(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, map[string]string{"log": "one\n"})
	log, other := filepath.Join(dir, "log"), filepath.Join(dir, "other")
	if err := os.Chmod(log, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Link(log, other); err != nil {
		t.Skip("no hard links here")
	}
	if n := Names(log); n != 2 {
		t.Errorf("%d names", n)
	}
	if err := Append(log, []byte("head\n"), []byte("two\n"), 1<<20); err != nil {
		t.Fatal(err)
	}
	got := contents(t, dir)
	info, err := os.Stat(log)
	if err != nil || info.Mode().Perm() != 0o600 || got["log"] != "one\ntwo\n" || got["other"] != "one\n" || len(got) != 2 {
		t.Errorf("%v, %v, %v", info.Mode(), err, got)
	}
	if err := os.Chmod(log, 0o444); err != nil {
		t.Fatal(err)
	}
	if err := Append(log, nil, []byte("three\n"), 1<<20); !errors.Is(err, os.ErrPermission) {
		t.Errorf("a file that may not be written: %v", err)
	}
}

func TestAppend(t *testing.T) {
	for old, want := range map[string]string{"-": "head\nx\n", "": "head\nx\n", "a\n": "a\nx\n", "a": "a\nx\n"} {
		dir := t.TempDir()
		path := filepath.Join(dir, "log")
		if old != "-" {
			put(t, dir, map[string]string{"log": old})
		}
		if err := Append(path, []byte("head\n"), []byte("x\n"), 5); err != nil {
			t.Fatal(err)
		}
		if got := contents(t, dir)["log"]; got != want {
			t.Errorf("after %q: %q", old, got)
		}
	}
	dir := t.TempDir()
	put(t, dir, map[string]string{"log": "123456"})
	var large *TooLargeError
	if err := Append(filepath.Join(dir, "log"), nil, []byte("x"), 5); !errors.As(err, &large) || contents(t, dir)["log"] != "123456" {
		t.Errorf("%v", err)
	}
}

// Without locks on the file system the error says so, not that a folder could not be
// written to.
func TestNoLocksOnThisFileSystem(t *testing.T) {
	defer OnStep(func(s string) error {
		if s == "lock" {
			return &os.PathError{Op: "flock", Path: "x", Err: syscall.ENOLCK}
		}
		return nil
	})()
	_, err := Lock(filepath.Join(t.TempDir(), ".lock"), "x", time.Time{}, 0)
	var none *NoLocksError
	if !errors.As(err, &none) || !strings.Contains(err.Error(), "has no locks") {
		t.Errorf("%v", err)
	}
}

// A run waits for another one as long as it was told to.
func TestLockWaits(t *testing.T) {
	path := filepath.Join(t.TempDir(), ".lock")
	unlock, err := Lock(path, "a", time.Time{}, 0)
	if err != nil {
		t.Fatal(err)
	}
	var locked *LockedError
	if _, err := Lock(path, "b", time.Time{}, 3*lockPause); !errors.As(err, &locked) || locked.Waited != 3*lockPause {
		t.Errorf("%v", err)
	}
	time.AfterFunc(2*lockPause, unlock)
	second, err := Lock(path, "b", time.Time{}, time.Hour)
	if err != nil {
		t.Fatal(err)
	}
	second()
}
