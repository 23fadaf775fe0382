package safefile

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
)

// sets are what Replace is tried on: what is there and what comes.
var sets = map[string]struct {
	before map[string]string
	files  []File
}{
	"new folder": {nil, []File{{"bases/pot.toml", []byte("pot")}, {"foods/deep/egg.toml", []byte("egg")}, {"household.toml", []byte("home")}}},
	"cards":      {map[string]string{"a": "old a", "b": "old b", "mine": "mine"}, []File{{"a", []byte("new a")}, {"b", []byte("new b")}, {"c", []byte("new c")}}},
	"the same":   {map[string]string{"a": "a", "b": "b"}, []File{{"a", []byte("a")}, {"b", []byte("b")}}},
	"one":        {map[string]string{"a": "old"}, []File{{"a", []byte("new")}}},
}

// after is the folder with the set in it.
func after(before map[string]string, files []File) map[string]string {
	all := maps.Clone(before)
	if all == nil {
		all = map[string]string{}
	}
	for _, f := range files {
		all[f.Name] = string(f.Data)
		for at := filepath.Dir(f.Name); at != "."; at = filepath.Dir(at) {
			all[at+"/"] = ""
		}
	}
	return all
}

// lay makes the folder as it was, nothing where nothing was.
func lay(t *testing.T, before map[string]string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "home")
	put(t, dir, before)
	return dir
}

func look(t *testing.T, dir string) map[string]string {
	t.Helper()
	if _, err := os.Lstat(dir); errors.Is(err, os.ErrNotExist) {
		return map[string]string{}
	}
	return contents(t, dir)
}

// TestReplaceIsAllOrNone fails each step in turn: the folder is as it was.
func TestReplaceIsAllOrNone(t *testing.T) {
	tried := 0
	for name, set := range sets {
		for n := 1; ; n++ {
			dir := lay(t, set.before)
			was := look(t, dir)
			count, restore := failAt(n, syscall.EIO)
			err := Replace(dir, set.files)
			restore()
			if n > *count {
				if want := after(set.before, set.files); err != nil || !maps.Equal(look(t, dir), want) {
					t.Fatalf("%s: %v, %v, want %v", name, err, look(t, dir), want)
				}
				break
			}
			tried++
			if now := look(t, dir); !errors.Is(err, syscall.EIO) && !maps.Equal(now, after(set.before, set.files)) || err != nil && !maps.Equal(now, was) {
				t.Errorf("%s, step %d: %v; now %v, was %v", name, n, err, now, was)
			}
		}
	}
	t.Logf("%d steps failed", tried)
}

// TestReplaceWhenNothingWorks fails all steps from one on, so that nothing can be taken
// back: the folder is as it was, or the error says what stands, and the next run
// puts it right.
func TestReplaceWhenNothingWorks(t *testing.T) {
	said := 0
	for name, set := range sets {
		for from := 1; ; from++ {
			dir := lay(t, set.before)
			was := look(t, dir)
			n := 0
			restore := OnStep(func(string) error {
				if n++; n >= from {
					return syscall.EIO
				}
				return nil
			})
			err := Replace(dir, set.files)
			restore()
			if err == nil {
				break
			}
			now := look(t, dir)
			var stands *StandsError
			switch {
			case errors.As(err, &stands):
				said++
				for _, f := range set.files {
					got, there := now[f.Name]
					claim := "old"
					if slices.Contains(stands.New, f.Name) {
						claim = "new"
					} else if slices.Contains(stands.Missing, f.Name) {
						claim = "missing"
					}
					old, had := was[f.Name]
					if claim == "new" && got != string(f.Data) || claim == "missing" && there || claim == "old" && (there != had || got != old) {
						t.Errorf("%s from %d: %s is said to be %s, but %q, %t", name, from, f.Name, claim, got, there)
					}
				}
			case !maps.Equal(now, was):
				t.Errorf("%s from %d: %v; now %v, was %v", name, from, err, now, was)
			}
			if len(was) == 0 && len(now) == 0 {
				continue
			}
			if err := Sweep(dir); err != nil {
				t.Fatal(err)
			}
			if now := look(t, dir); !maps.Equal(now, was) && !maps.Equal(now, after(set.before, set.files)) {
				t.Errorf("%s from %d: after the next run %v", name, from, now)
			}
		}
	}
	if said == 0 {
		t.Error("nothing ever stood")
	}
}

// What somebody put in the place of a file of an unfinished set stays.
func TestRecoveryKeepsWhatIsNotOurs(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, map[string]string{"household.toml": "mine",
		".unfinished-1/journal": `{"format":"` + journalForm + `","folders":[],"files":[{"name":"household.toml","digest":"` + digestOf([]byte("theirs")) + `","old":false},{"name":"bases/x","digest":"","old":false}]}`,
		".unfinished-1/new-1":   "x", ".unfinished-2": "torn"})
	if err := Sweep(dir); err != nil {
		t.Fatal(err)
	}
	if now := contents(t, dir); !maps.Equal(now, map[string]string{"household.toml": "mine"}) {
		t.Errorf("%v", now)
	}
}

// A journal does not reach out of its folder.
func TestForgedJournal(t *testing.T) {
	for _, name := range []string{"../victim", "out/victim"} {
		top := t.TempDir()
		dir := filepath.Join(top, "home")
		put(t, top, map[string]string{"victim": "mine", "home/.unfinished-1/journal": `{"format":"` + journalForm + `","files":[{"name":"` + name + `","digest":"` + digestOf([]byte("mine")) + `"},{"name":"y"}]}`,
			"home/.unfinished-1/new-1": ""})
		link(t, "..", filepath.Join(dir, "out"))
		if err := Sweep(dir); err != nil {
			t.Fatal(err)
		}
		if text, err := os.ReadFile(filepath.Join(top, "victim")); string(text) != "mine" {
			t.Errorf("%s: %q, %v", name, text, err)
		}
		if now := contents(t, dir); strings.Contains(fmt.Sprint(now), ".unfinished") {
			t.Errorf("left: %v", now)
		}
	}
}
