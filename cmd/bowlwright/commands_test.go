package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"

	"bowlwright/cmd/bowlwright/internal/manual"
	"bowlwright/household/diag"
)

// TestEveryCommandHasItsScript: a script named after each command runs it well and
// badly; a command without one cannot be added.
func TestEveryCommandHasItsScript(t *testing.T) {
	forEachCommand((&program{}).app().Commands, "", func(name string, _ *cli.Command) {
		words := strings.Fields(name)
		path := filepath.Join("testdata", "script", strings.Join(words, "-")+".txtar")
		text, err := os.ReadFile(path)
		if err != nil && len(words) > 1 {
			text, err = os.ReadFile(filepath.Join("testdata", "script", words[0]+".txtar"))
		}
		if err != nil {
			t.Errorf("%s has no script %s", name, path)
			return
		}
		for code, what := range map[string]string{"0": "well", "2": "badly"} {
			line := regexp.MustCompile(`(?m)^exits ` + code + ` bowlwright ` + strings.Join(words, `(?: --\S+)* `) + `(?: |$)`)
			if !line.Match(text) {
				t.Errorf("%s never runs %s %s", path, name, what)
			}
		}
	})
}

// TestJSON: with --json every command prints one object that names its format and
// nothing else, and nothing at all when it fails on bad input.
func TestJSON(t *testing.T) {
	seen := map[string]string{}
	forEachCommand((&program{}).app().Commands, "", func(name string, _ *cli.Command) {
		args := slices.Concat(strings.Fields(name), sampleArguments[name], []string{"--json"})
		_, stdout, stderr := inProcess(sampleFolder(t), args...)
		var object struct{ Format string }
		if err := json.Unmarshal([]byte(stdout), &object); err != nil {
			t.Errorf("%q: %v: %.200s%s", args, err, stdout, stderr)
		}
		if !regexp.MustCompile(`^bowlwright/[a-z-]+/1$`).MatchString(object.Format) {
			t.Errorf("%q: the format is %q", args, object.Format)
		}
		// `demo` prints what `plan` does.
		if other, twice := seen[object.Format]; twice && name != "plan" {
			t.Errorf("%s and %s share the format %s", name, other, object.Format)
		}
		seen[object.Format] = name
		code, stdout, _ := inProcess(sampleFolder(t), slices.Concat(args, []string{"one", "too", "many", "words", "here"})...)
		if code == diag.ExitInput && stdout != "" {
			t.Errorf("%q fails and prints %.200s", args, stdout)
		}
	})
	for _, topic := range append(manual.Names(), manual.Man) {
		_, stdout, _ := inProcess(t.TempDir(), "help", topic, "--json")
		if !json.Valid([]byte(stdout)) || !strings.Contains(stdout, `"bowlwright/help/1"`) {
			t.Errorf("help %s: %.200s", topic, stdout)
		}
	}
}

// TestErrorsCanBeMended: whatever a command is given too much or too little of, it
// says what is wrong in lower case and what to type.
func TestErrorsCanBeMended(t *testing.T) {
	dir := demoFolder(t)
	empty := t.TempDir()
	mended := func(where string, args []string) {
		code, stdout, stderr := inProcess(where, args...)
		if code == diag.ExitDone || code == diag.ExitRefused || code == diag.ExitOutOfDate {
			return
		}
		if code != diag.ExitInput || stdout != "" || !regexp.MustCompile(`(?m)^error: [^A-Z].*\n(?:[^e].*\n)*hint: [^A-Z]`).MatchString(stderr) {
			t.Errorf("%q: exit %d\n%s%s", args, code, stdout, stderr)
		}
	}
	forEachCommand((&program{}).app().Commands, "", func(name string, _ *cli.Command) {
		words := strings.Fields(name)
		if name != "init" && (exhaustive() || !slices.Contains(slow, name)) {
			// It asks on the standard output; its script tries that.
			mended(dir, words)
		}
		for _, args := range [][]string{
			slices.Concat(words, []string{"no-such-word"}), slices.Concat(words, []string{"", ""}),
			slices.Concat(words, []string{"a", "b", "c", "d"}), slices.Concat(words, sampleArguments[name], []string{"--today", "yesterday"}),
			slices.Concat(words, sampleArguments[name], []string{"--today"}), slices.Concat(words, sampleArguments[name], []string{"--household", "nowhere"}),
		} {
			mended(dir, args)
		}
		mended(empty, slices.Concat(words, sampleArguments[name]))
	})
}
