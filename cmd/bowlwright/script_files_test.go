package main

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

// The scripts run where there is nothing but Go: what a shell would do with files
// is done by these commands.

// scriptText takes the escapes of Go's strings in an argument of a script.
func scriptText(ts *testscript.TestScript, s string) string {
	text, err := strconv.Unquote(`"` + strings.ReplaceAll(s, `"`, `\"`) + `"`)
	if err != nil {
		ts.Fatalf("%q: %v", s, err)
	}
	return text
}

// matching are the files that a pattern names; there must be one.
func matching(ts *testscript.TestScript, pattern string) []string {
	found, err := filepath.Glob(ts.MkAbs(pattern))
	ts.Check(err)
	if len(found) == 0 {
		ts.Fatalf("no file matches %s", pattern)
	}
	return found
}

// appendText FILE TEXT puts text at the end of a file, which it makes when there is
// none.
func appendText(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: append FILE TEXT")
	}
	f, err := os.OpenFile(ts.MkAbs(args[0]), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	ts.Check(err)
	_, err = f.WriteString(scriptText(ts, args[1]))
	ts.Check(err)
	ts.Check(f.Close())
}

// pick FROM REGEXP TO puts the lines of FROM that match at the end of TO.
func pick(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: pick FROM REGEXP TO")
	}
	wanted, err := regexp.Compile(args[1])
	ts.Check(err)
	text := ts.ReadFile(args[2])
	before := len(text)
	for _, line := range strings.Split(ts.ReadFile(args[0]), "\n") {
		if wanted.MatchString(line) {
			text += line + "\n"
		}
	}
	if len(text) == before {
		ts.Fatalf("no line of %s matches %s", args[0], args[1])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), []byte(text), 0o644))
}

// count N PATTERN checks how many files match.
func count(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: count N PATTERN")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	if found := matching(ts, args[1]); len(found) != want {
		ts.Fatalf("%d files match %s, want %d: %q", len(found), args[1], want, found)
	}
}

// forge RECORD REGEXP NEW edits one place of one record and gives it the name that its
// bytes then ask for, as somebody would who knows how records are named.
func forge(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: forge RECORD REGEXP NEW")
	}
	path := matching(ts, args[0])[0]
	text, place := ts.ReadFile(path), regexp.MustCompile(args[1])
	at := place.FindStringSubmatchIndex(text)
	if at == nil {
		ts.Fatalf("%s does not hold %s", args[0], args[1])
	}
	text = text[:at[0]] + string(place.ExpandString(nil, args[2], text, at)) + text[at[1]:]
	sum := sha256.Sum256([]byte(text))
	ts.Check(os.Remove(path))
	path = regexp.MustCompile(`[0-9a-f]{12}\.json$`).ReplaceAllString(path, hex.EncodeToString(sum[:])[:12]+".json")
	ts.Check(os.WriteFile(path, []byte(text), 0o644))
	// Nobody forges a record and leaves the note of its name.
	ts.Check(os.Remove(ts.MkAbs("records/.newest")))
}

// glob NAME PATTERN puts the path of the one file that matches into a variable.
func glob(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: glob NAME PATTERN")
	}
	files := matching(ts, args[1])
	if len(files) != 1 {
		ts.Fatalf("%s matches %d files", args[1], len(files))
	}
	ts.Setenv(args[0], files[0])
}
