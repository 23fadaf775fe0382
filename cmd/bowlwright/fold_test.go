package main

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/mattn/go-runewidth"
	"github.com/urfave/cli/v2"

	"bowlwright/cmd/bowlwright/internal/terminal"
)

// onTerminal runs the program on a terminal of so many columns, 0 for none.
func onTerminal(dir string, columns int, args ...string) string {
	var out bytes.Buffer
	run(environment{args: append([]string{"bowlwright"}, args...), stdin: strings.NewReader(""), stdout: &out, stderr: &out,
		workDir: dir, columns: columns, now: func() time.Time { return testDay },
		getenv: func(name string) string { return map[string]string{"NO_COLOR": "1"}[name] }})
	return out.String()
}

// forPrograms are commands whose output a shell or a spreadsheet reads.
var forPrograms = []string{"completion", "export"}

// TestTerminalsOfAnyWidth: on a terminal no command writes a line that is wider than
// it, and none loses a word of what it writes elsewhere; what programs read is the
// same everywhere.
func TestTerminalsOfAnyWidth(t *testing.T) {
	const columns = 60
	words := func(s string) string { return strings.Join(strings.Fields(s), "") }
	forEachCommand((&program{}).app().Commands, "", func(name string, _ *cli.Command) {
		whole := slices.Concat(strings.Fields(name), sampleArguments[name])
		help := append(strings.Fields(name), "--help")
		for i, args := range [][]string{help, whole, append(whole, "--json")} {
			if i > 1 && slices.Contains(slow, name) && !exhaustive() {
				continue
			}
			dir := sampleFolder(t)
			want := strings.ReplaceAll(onTerminal(dir, 0, args...), dir, "DIR")
			again := sampleFolder(t)
			got := strings.ReplaceAll(onTerminal(again, columns, args...), again, "DIR")
			if slices.Contains(forPrograms, name) && !slices.Contains(args, "--help") || slices.Contains(args, "--json") {
				if got != want {
					t.Errorf("%q differs on a terminal", args)
				}
				continue
			}
			if words(got) != words(want) {
				t.Errorf("%q: other words at %d columns:\n%s\nelsewhere:\n%s", args, columns, got, want)
			}
			for _, line := range strings.Split(got, "\n") {
				if n := runewidth.StringWidth(line); n > columns {
					t.Errorf("%q: %d columns on a terminal of %d: %q", args, n, columns, line)
				}
			}
		}
	})
}

// TestLinesAreFoldedWhole: pieces of a line are joined first, and the last one is
// not lost.
func TestLinesAreFoldedWhole(t *testing.T) {
	var out bytes.Buffer
	f := &terminal.Folder{To: &out, Width: 12}
	for _, piece := range []string{"one two ", "three four\n", "five"} {
		f.Write([]byte(piece))
	}
	f.Rest()
	if got, want := out.String(), "one two\n  three four\nfive"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
