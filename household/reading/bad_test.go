package reading

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"bowlwright/household/diag"

	"github.com/google/go-cmp/cmp"
)

var mark = regexp.MustCompile(`#! ([a-z0-9-]+)`)

// TestBadFiles reads files whose faulty lines name the code that is expected
// there: missing, extra and misplaced diagnostics all fail.
func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*.toml")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, f := range files {
		t.Run(strings.TrimSuffix(filepath.Base(f), ".toml"), func(t *testing.T) {
			b, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			place := map[string]string{"household": "household.toml", "base": "bases/pot.toml", "food": "foods/own-food.toml"}
			kind, _, _ := strings.Cut(strings.TrimSuffix(filepath.Base(f), ".toml"), "-")
			dir := folder(t, map[string]string{place[kind]: string(b)})
			h, list, err := Load(dir, testDay)
			if err != nil {
				t.Fatal(err)
			}
			if h != nil {
				t.Error("a household came out of a file with errors")
			}
			var want, got []string
			for i, line := range strings.Split(string(b), "\n") {
				for _, m := range mark.FindAllStringSubmatch(line, -1) {
					want = append(want, fmt.Sprintf("%d %s", i+1, m[1]))
				}
			}
			for _, d := range list {
				if d.At.File == place[kind] && d.Severity == diag.Error {
					got = append(got, fmt.Sprintf("%d %s", d.At.Line, d.Code))
				}
				if d.Hint.IsZero() {
					t.Errorf("no hint with: %s", d.Summary)
				}
			}
			slices.Sort(want)
			slices.Sort(got)
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("-want +got:\n%s\n%s", diff, list.Text(100, false, diag.Plain))
			}
		})
	}
}
