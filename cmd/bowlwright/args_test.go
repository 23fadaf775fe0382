package main

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"github.com/urfave/cli/v2"

	"bowlwright/fixtures"
	"bowlwright/household/diag"
)

// testDay is the day of every test.
var testDay = time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)

// inProcess runs the program without a process of its own.
func inProcess(dir string, args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	code = run(environment{args: append([]string{"bowlwright"}, args...), stdin: strings.NewReader(""), stdout: &out, stderr: &errs,
		workDir: dir, now: func() time.Time { return testDay }, getenv: func(string) string { return "" }})
	return code, out.String(), errs.String()
}

// demoFiles is the example with its plans, made once.
var demoFiles = sync.OnceValue(func() fs.FS {
	dir, err := os.MkdirTemp("", "bowlwright")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	if code, _, stderr := inProcess(dir, "demo", "--quiet"); code != diag.ExitDone {
		panic(stderr)
	}
	files := fstest.MapFS{}
	root := os.DirFS(filepath.Join(dir, fixtures.DemoName))
	if err := fs.WalkDir(root, ".", func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && d.Name() != ".lock" {
			text, fault := fs.ReadFile(root, path)
			files[path], err = &fstest.MapFile{Data: text, Mode: 0o644}, fault
		}
		return err
	}); err != nil {
		panic(err)
	}
	return files
})

// demoFolder writes the example with its plans into a new folder.
func demoFolder(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), fixtures.DemoName)
	if err := os.CopyFS(dir, demoFiles()); err != nil {
		t.Fatal(err)
	}
	return dir
}

// sampleArguments gives arguments to each command that has some, so that a new
// command cannot be forgotten by the test below.
var sampleArguments = map[string][]string{
	"demo": {"example"}, "plan": {"Pip"}, "check": {}, "due": {}, "growth": {"Juno"}, "card": {"Pip"}, "weigh": {"Pip", "4.4 kg"}, "targets": {"Pip"},
	"foods find": {"turkey"}, "foods show": {"carrot-raw"}, "foods import": {"label.csv"}, "history": {"Pip"}, "explain": {"Pip"}, "assess": {"Pip"}, "shop": {}, "households": {"."}, "compare": {"turkey-heart-oats", "pork-lentils"}, "suggest": {"Pip"}, "improve": {}, "diff": {"Pip", "Juno"}, "restore": {"M2P-N20-5"}, "cook": {}, "completion": {"bash"}, "export": {"base"}, "import": {"recipe.csv"},
	"init": {"new", "--pet", "Bo, dog, 9 kg", "--ingredient", "oats-rolled-dry, 1 kg, boiled"}, "check-code": {"M2P-N20-5"}, "mix": {"Pip"},
}

// sampleFolder is the example with the files that the sample arguments name.
func sampleFolder(t *testing.T) string {
	t.Helper()
	dir := demoFolder(t)
	for name, text := range map[string]string{"label.csv": "name,protein_g\nOat bran,17\n", "recipe.csv": "food,amount_g\ncarrot-raw,200\n",
		"bases/pork-lentils.toml": "name = \"Pork\"\n[[ingredient]]\nfood = \"pork-ground-84-lean-raw\"\namount = \"1 kg\"\nmethod = \"simmered\"\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// slow are commands that take more than half a second of a processor: they are tried
// in fewer ways unless everything is.
var slow = []string{"demo", "improve"}

// TestOptionsAnywhere: for every command, options before the command's name,
// between it and its arguments, and after them do the same.
func TestOptionsAnywhere(t *testing.T) {
	app := (&program{}).app()
	forEachCommand(app.Commands, "", func(name string, c *cli.Command) {
		arguments, ok := sampleArguments[name]
		if !ok {
			t.Errorf("%s has no sample arguments", name)
			return
		}
		t.Run(name, func(t *testing.T) {
			words := strings.Fields(name)
			options := []string{"--json", "--today", "2026-11-26", "--color=never"}
			var first string
			for i, args := range [][]string{
				slices.Concat(options, words, arguments),
				slices.Concat(words, options, arguments),
				slices.Concat(words, arguments, options),
				slices.Concat(words[:1], options[:1], words[1:], arguments, options[1:]),
				slices.Concat(options[1:3], words, options[:1], arguments, options[3:]),
				slices.Concat(words, options, []string{"--"}, arguments),
			} {
				if i > 0 && i != 3 && slices.Contains(slow, name) && !exhaustive() {
					continue
				}
				if i == 5 && slices.ContainsFunc(arguments, func(a string) bool { return strings.HasPrefix(a, "-") }) {
					continue
				}
				dir := sampleFolder(t)
				code, stdout, stderr := inProcess(dir, args...)
				got := strings.ReplaceAll(stdout, dir, "DIR") + stderr
				if code != diag.ExitDone || !strings.HasPrefix(got, "{") {
					t.Errorf("%q: exit %d: %.300s", args, code, got)
				}
				if i == 0 {
					first = got
				} else if got != first {
					t.Errorf("%q says\n%.300s\nand not\n%.300s", args, got, first)
				}
			}
		})
	})
}

// forEachCommand visits what can be run, with its full name.
func forEachCommand(commands []*cli.Command, prefix string, visit func(string, *cli.Command)) {
	for _, c := range commands {
		name := strings.TrimSpace(prefix + " " + c.Name)
		if len(c.Subcommands) > 0 {
			forEachCommand(c.Subcommands, name, visit)
		} else if c.Name != "help" && !c.Hidden {
			visit(name, c)
		}
	}
}

// TestUnknownOption: no command ignores an option that it does not have, wherever
// it stands, and none prints its help page for it.
func TestUnknownOption(t *testing.T) {
	dir := demoFolder(t)
	app := (&program{}).app()
	forEachCommand(app.Commands, "", func(name string, _ *cli.Command) {
		words, arguments := strings.Fields(name), sampleArguments[name]
		for _, args := range [][]string{
			slices.Concat(words, []string{"--jsn"}, arguments),
			slices.Concat(words, arguments, []string{"--jsn"}),
			slices.Concat([]string{"--jsn"}, words, arguments),
		} {
			code, stdout, stderr := inProcess(dir, args...)
			if code != diag.ExitInput || stdout != "" || !strings.Contains(stderr, "did you mean --json") {
				t.Errorf("%q: exit %d\n%s%s", args, code, stdout, stderr)
			}
		}
	})
}

// TestHelp: every command says what it does and how to call it, within 100
// columns.
func TestHelp(t *testing.T) {
	app := (&program{}).app()
	forEachCommand(app.Commands, "", func(name string, c *cli.Command) {
		for _, args := range [][]string{slices.Concat(strings.Fields(name), []string{"--help"}), slices.Concat([]string{"help"}, strings.Fields(name)[:1])} {
			code, stdout, stderr := inProcess(t.TempDir(), args...)
			if code != diag.ExitDone || stderr != "" || !strings.Contains(stdout, "bowlwright "+strings.Fields(name)[0]) {
				t.Errorf("%q: exit %d: %s%s", args, code, stdout, stderr)
			}
			for _, line := range strings.Split(stdout, "\n") {
				if len([]rune(line)) > 110 {
					t.Errorf("%q: a line of %d columns: %s", args, len([]rune(line)), line)
				}
			}
		}
		if c.Usage == "" {
			t.Errorf("%s has no usage line", name)
		}
	})
}

// TestFailedCommandsLeaveTheFolder: whatever fails on bad input leaves every byte.
func TestFailedCommandsLeaveTheFolder(t *testing.T) {
	dir := demoFolder(t)
	before := contents(t, dir)
	for _, args := range [][]string{
		{"plan", "Nobody"}, {"card", "Nobody"}, {"weigh", "Pip", "4,4 kg"}, {"weigh", "Nobody", "4.4 kg"}, {"targets"}, {"check", "x"},
		{"card", "--format", "x"}, {"plan", "--x"}, {"check-code", "x"}, {"history", "Nobody"}, {"demo", "."}, {""}, {"plan", ""},
		{"weigh", "", ""}, {"card", "--out", "household.toml"},
	} {
		if code, _, stderr := inProcess(dir, args...); code != diag.ExitInput || !strings.HasPrefix(stderr, "error: ") || !strings.Contains(stderr, "\nhint: ") {
			t.Errorf("%q: exit %d: %s", args, code, stderr)
		}
	}
	if after := contents(t, dir); after != before {
		t.Error("the folder changed")
	}
}

// contents is everything in a folder as one text.
func contents(t *testing.T, dir string) string {
	t.Helper()
	var b strings.Builder
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == ".lock" {
			return err
		}
		text, err := os.ReadFile(path)
		b.WriteString(path + "\n" + string(text) + "\n")
		return err
	})
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		t.Fatal(err)
	}
	return b.String()
}
