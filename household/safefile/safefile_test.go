package safefile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"syscall"
	"testing"
	"time"
)

// failAt makes the nth step fail, counted from one, and counts all steps.
func failAt(n int, with error) (count *int, restore func()) {
	count = new(int)
	return count, OnStep(func(string) error {
		if *count++; *count == n {
			return with
		}
		return nil
	})
}

// TestWriteLeavesOldOrNew fails each step of a write in turn, as a full disk does.
func TestWriteLeavesOldOrNew(t *testing.T) {
	for n := 1; ; n++ {
		dir := t.TempDir()
		path := filepath.Join(dir, "file")
		if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
			t.Fatal(err)
		}
		count, restore := failAt(n, syscall.ENOSPC)
		err := Write(path, []byte("new"))
		restore()
		got, readErr := os.ReadFile(path)
		if readErr != nil {
			t.Fatal(readErr)
		}
		if n > *count {
			if err != nil || string(got) != "new" {
				t.Fatalf("nothing failed, but %v and %q", err, got)
			}
			if n < 7 {
				t.Fatalf("only %d steps", *count)
			}
			return
		}
		var cannot *CannotWriteError
		if !errors.As(err, &cannot) || !errors.Is(err, syscall.ENOSPC) {
			t.Errorf("step %d: %v", n, err)
		}
		if string(got) != "old" {
			t.Errorf("step %d left %q", n, got)
		}
		onlyFile(t, dir, "file")
	}
}

func onlyFile(t *testing.T, dir string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) != len(want) {
		t.Errorf("%d entries, want %v: %v", len(entries), want, entries)
	}
}

// abc gives the files of a set: a, b, c, … with their numbers.
func abc(i int) (string, []byte, error) {
	return string(rune('a' + i)), []byte{'0' + byte(i)}, nil
}

// TestWriteSetIsAllOrNone fails each step of a set in turn.
func TestWriteSetIsAllOrNone(t *testing.T) {
	for n := 1; ; n++ {
		dir := t.TempDir()
		path := filepath.Join(dir, "set")
		count, restore := failAt(n, syscall.EIO)
		err := WriteSet(path, 3, abc)
		restore()
		entries, readErr := os.ReadDir(path)
		if n > *count {
			if err != nil || len(entries) != 3 {
				t.Fatalf("nothing failed, but %v and %v", err, entries)
			}
			if n != 1+3*3+3+1 {
				t.Errorf("%d steps", *count)
			}
			for i, e := range entries {
				name, want, _ := abc(i)
				got, err := os.ReadFile(filepath.Join(path, e.Name()))
				info, statErr := e.Info()
				if err != nil || statErr != nil || e.Name() != name || string(got) != string(want) || info.Mode().Perm() != fileMode {
					t.Errorf("%s holds %q, %v, %v", e.Name(), got, err, info)
				}
			}
			if again := WriteSet(path, 3, abc); !errors.Is(again, fs.ErrExist) {
				t.Errorf("a second set went over the first: %v", again)
			}
			return
		}
		if !errors.Is(err, syscall.EIO) {
			t.Errorf("step %d: %v", n, err)
		}
		if !errors.Is(readErr, fs.ErrNotExist) {
			t.Errorf("step %d left %d of 3 files", n, len(entries))
		}
		onlyFile(t, dir)
	}
}

// A file that cannot be made, or that has a name that is taken, fails the set.
func TestWriteSetWithABadFile(t *testing.T) {
	unwritten := errors.New("no text")
	for name, file := range map[string]func(int) (string, []byte, error){
		"unwritten": func(i int) (string, []byte, error) {
			if i == 70 {
				return "", nil, unwritten
			}
			return fmt.Sprint(i), nil, nil
		},
		"twice": func(i int) (string, []byte, error) { return fmt.Sprint(i % 99), nil, nil },
	} {
		dir := t.TempDir()
		err := WriteSet(filepath.Join(dir, "set"), 100, file)
		if !errors.Is(err, unwritten) && !errors.Is(err, fs.ErrExist) {
			t.Errorf("%s: %v", name, err)
		}
		onlyFile(t, dir)
	}
}

// TestOrderOfStepsOfASet: every file is on the disk before the folder is, and the
// folder is before it has its name, however many files are written at once.
func TestOrderOfStepsOfASet(t *testing.T) {
	const files = 3 * setWriters
	var steps []string
	restore := OnStep(func(s string) error { steps = append(steps, s); return nil })
	err := WriteSet(filepath.Join(t.TempDir(), "set"), files, func(i int) (string, []byte, error) { return fmt.Sprint(i), nil, nil })
	restore()
	last := len(steps) - 3
	if err != nil || steps[0] != "make folder" || !slices.Equal(steps[last:], []string{"sync folder", "rename", "sync folder"}) {
		t.Fatalf("%v, %v", steps, err)
	}
	done := map[string]int{}
	for _, s := range steps[1:last] {
		done[s]++
	}
	if len(done) != 3 || done["make file"] != files || done["write"] != files || done["sync file"] != files {
		t.Errorf("before the folder: %v", done)
	}
}

func TestLockNamesItsHolder(t *testing.T) {
	path := filepath.Join(t.TempDir(), "records", ".lock")
	since := time.Date(2026, 11, 25, 9, 30, 0, 0, time.UTC)
	unlock, err := Lock(path, "bowlwright plan", since, 0)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Lock(path, "bowlwright weigh", since, 0)
	var locked *LockedError
	if !errors.As(err, &locked) {
		t.Fatalf("a second lock: %v", err)
	}
	if h := locked.Holder; h.Command != "bowlwright plan" || h.PID != os.Getpid() || !h.Since.Equal(since) {
		t.Errorf("holder %+v", h)
	}
	unlock()
	unlock, err = Lock(path, "bowlwright weigh", since, 0)
	if err != nil {
		t.Fatalf("after unlocking: %v", err)
	}
	unlock()
}

// TestLockOfADeadRun: the note of a run that died does not keep anyone out.
func TestLockOfADeadRun(t *testing.T) {
	path := filepath.Join(t.TempDir(), ".lock")
	if err := os.WriteFile(path, []byte(`{"pid":1,"host":"elsewhere","command":"x"}`), 0o644); err != nil {
		t.Fatal(err)
	}
	unlock, err := Lock(path, "bowlwright plan", time.Time{}, 0)
	if err != nil {
		t.Fatal(err)
	}
	unlock()
}

func TestLockWithoutANote(t *testing.T) {
	path := filepath.Join(t.TempDir(), ".lock")
	unlock, err := Lock(path, "x", time.Time{}, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer unlock()
	if err := os.Remove(path + noteSuffix); err != nil {
		t.Fatal(err)
	}
	if _, err := Lock(path, "y", time.Time{}, 0); err == nil || err.Error() != "the household is locked by another run" {
		t.Errorf("%v", err)
	}
}

// TestOrderOfSteps: the data are on the disk before the name is, and the name is
// before Write returns.
func TestOrderOfSteps(t *testing.T) {
	var steps []string
	restore := OnStep(func(s string) error { steps = append(steps, s); return nil })
	err := Write(filepath.Join(t.TempDir(), "f"), []byte("x"))
	restore()
	want := []string{"make file", "write", "sync file", "rename", "sync folder"}
	if err != nil || !slices.Equal(steps, want) {
		t.Errorf("%v, %v", steps, err)
	}
}

// What fails for every file of a set is said once.
func TestWriteSetSaysOnceWhatFails(t *testing.T) {
	path := filepath.Join(t.TempDir(), "set")
	var together sync.WaitGroup
	together.Add(setWriters)
	err := WriteSet(path, setWriters, func(i int) (string, []byte, error) {
		together.Done()
		together.Wait() // all of them are under way
		return "", nil, fmt.Errorf("no paper for %d", i)
	})
	if want := "cannot write " + path + ": no paper for 0"; err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
}
