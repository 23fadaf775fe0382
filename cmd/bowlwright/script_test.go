package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"bowlwright/household/safefile"
)

// TestMain lets the scripts run the real main as a program of its own.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"bowlwright": func() { dieAtStep(); main() }})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("testdata", "script"),
		RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("TODAY", "2026-11-25")
			env.Setenv("LONG", strings.Repeat("a", 1000))
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"example": example,
			"exits":   exits,
			"edit":    edit,
			"json":    jsonHolds,
			"lock":    lock,
			"tree":    tree,
			"absent":  absent,
			"append":  appendText,
			"pick":    pick,
			"glob":    glob,
			"count":   count,
			"forge":   forge,
		},
	})
}

// example DIR writes the example with its plans and cards as demo leaves it, without
// working it out again in each script.
func example(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: example DIR")
	}
	ts.Check(os.CopyFS(ts.MkAbs(args[0]), demoFiles()))
}

// exits CODE PROGRAM ARG… runs a program and checks its exit code. Whatever the
// code, a panic's trace on the error output fails the script.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE PROGRAM ARG…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var exit *exec.ExitError
	switch err := ts.Exec(args[1], args[2:]...); {
	case errors.As(err, &exit):
		got = exit.ExitCode()
	case err != nil:
		ts.Fatalf("%v", err)
	}
	if stderr := ts.ReadFile("stderr"); strings.Contains(stderr, "goroutine ") {
		ts.Fatalf("the program panicked")
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// edit FILE OLD NEW replaces one place of a file, which must be there. FILE may be a
// pattern that matches one file.
func edit(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: edit FILE OLD NEW")
	}
	files := matching(ts, args[0])
	if len(files) != 1 {
		ts.Fatalf("%s matches %d files", args[0], len(files))
	}
	text := ts.ReadFile(files[0])
	unescape := strings.NewReplacer(`\n`, "\n")
	was, now := unescape.Replace(args[1]), unescape.Replace(args[2])
	if strings.Count(text, was) == 0 {
		ts.Fatalf("%s does not hold %q", args[0], was)
	}
	ts.Check(os.WriteFile(files[0], []byte(strings.Replace(text, was, now, 1)), 0o644))
}

// json FILE PATH… checks that FILE (or stdout) is one JSON object and nothing
// else, and that every path is there. A path is a.0.b, with =VALUE to compare
// (VALUE as JSON, or as text), or with :KIND for number, string, list, object,
// null or bool.
func jsonHolds(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: json FILE PATH…")
	}
	dec := json.NewDecoder(strings.NewReader(ts.ReadFile(args[0])))
	var object map[string]any
	if err := dec.Decode(&object); err != nil {
		ts.Fatalf("no JSON object: %v", err)
	}
	if _, err := dec.Token(); err != io.EOF {
		ts.Fatalf("there is more than one object")
	}
	for _, a := range args[1:] {
		if err := checkPath(object, a); err != nil {
			ts.Fatalf("%v", err)
		}
	}
}

func checkPath(object any, claim string) error {
	path, want, compare := strings.Cut(claim, "=")
	path, kind, hasKind := strings.Cut(path, ":")
	at := object
	for _, part := range strings.Split(path, ".") {
		switch x := at.(type) {
		case map[string]any:
			next, ok := x[part]
			if !ok {
				return fmt.Errorf("%s: there is no %q", path, part)
			}
			at = next
		case []any:
			i, err := strconv.Atoi(part)
			if err != nil || i < 0 || i >= len(x) {
				return fmt.Errorf("%s: no element %q in a list of %d", path, part, len(x))
			}
			at = x[i]
		default:
			return fmt.Errorf("%s: %q is neither object nor list", path, part)
		}
	}
	if got := kindOf(at); hasKind && got != kind {
		return fmt.Errorf("%s is %s, want %s", path, got, kind)
	}
	text, err := json.Marshal(at)
	if err != nil {
		return err
	}
	if compare && string(text) != want && fmt.Sprint(at) != want {
		return fmt.Errorf("%s is %s, want %s", path, text, want)
	}
	return nil
}

func kindOf(x any) string {
	switch x.(type) {
	case nil:
		return "null"
	case bool:
		return "bool"
	case float64:
		return "number"
	case string:
		return "string"
	case []any:
		return "list"
	}
	return "object"
}

// lock DIR takes the lock of a household until the script ends, as another run
// would.
func lock(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: lock DIR")
	}
	path := filepath.Join(ts.MkAbs(args[0]), "records", ".lock")
	ts.Check(os.MkdirAll(filepath.Dir(path), 0o755))
	unlock, err := safefile.Lock(path, "cook", time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC), 0)
	ts.Check(err)
	ts.Defer(unlock)
}

// tree DIR FILE writes the names and contents of all files of DIR into FILE, to be
// compared with cmp: a failed command leaves the folder as it was. Lock files may
// come and go.
func tree(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: tree DIR FILE")
	}
	root := ts.MkAbs(args[0])
	var b bytes.Buffer
	ts.Check(filepath.WalkDir(root, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.Name() == ".lock" {
			return err
		}
		rel, _ := filepath.Rel(root, path)
		fmt.Fprintf(&b, "== %s\n", rel)
		if !d.Type().IsRegular() {
			return nil
		}
		text, err := os.ReadFile(path)
		fmt.Fprintf(&b, "%q\n", text)
		return err
	}))
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), b.Bytes(), 0o644))
}

// absent PATTERN… fails when a file matches.
func absent(ts *testscript.TestScript, neg bool, args []string) {
	for _, pattern := range args {
		found, err := filepath.Glob(ts.MkAbs(pattern))
		ts.Check(err)
		if len(found) > 0 {
			ts.Fatalf("%s is there", found)
		}
	}
}
