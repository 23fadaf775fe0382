package main

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/urfave/cli/v2"

	"bowlwright/household/diag"
	"bowlwright/household/safefile"
)

// moreArguments are further ways to run commands that write.
var moreArguments = map[string][]string{
	"cards of all": {"card", "--format", "pdf,html,vet,text"}, "sheets": {"cook", "--days", "2", "--format", "text,pdf,labels"},
	"cooked": {"cook", "--cooked", "7.4 kg"}, "plan of all": {"plan"}, "table": {"export", "base", "--out", "tables/base.csv"}, "restored plan": {"restore", "1"},
}

// everyCommand runs a test for each command with arguments that make it work.
func everyCommand(t *testing.T, f func(t *testing.T, name string, args []string)) {
	t.Helper()
	forEachCommand((&program{}).app().Commands, "", func(name string, _ *cli.Command) {
		t.Run(name, func(t *testing.T) { f(t, name, slices.Concat(strings.Fields(name), sampleArguments[name])) })
	})
	for name, args := range moreArguments {
		t.Run(name, func(t *testing.T) { f(t, name, args) })
	}
}

// exhaustive says that every step is tried and not a few of them.
func exhaustive() bool { return os.Getenv("BOWLWRIGHT_ORACLES") == "1" }

// mostSteps is how many steps of one run are tried; of a longer one, every so many.
const mostSteps = 40

// someSteps are the steps of a run that are tried: all of a short one, or one of them.
func someSteps(steps, one int) []int {
	if !exhaustive() && steps > 0 {
		return []int{one}
	}
	var all []int
	for n := 1; n <= steps; n += 1 + (steps-1)/mostSteps {
		all = append(all, n)
	}
	return all
}

// counted are the runs whose steps were counted, for both tests that walk them.
var counted = map[string]struct{ steps, code int }{}

// stepsOf counts the steps of a run, and returns how it ends.
func stepsOf(t *testing.T, args []string) (steps, code int) {
	t.Helper()
	line := strings.Join(args, "\n")
	if known, ok := counted[line]; ok {
		return known.steps, known.code
	}
	defer func() { counted[line] = struct{ steps, code int }{steps, code} }()
	dir := sampleFolder(t)
	restore := safefile.OnStep(func(string) error { steps++; return nil })
	defer restore()
	code, _, _ = inProcess(dir, args...)
	return steps, code
}

// unfinished lists what is left of writes that did not finish.
func unfinished(t *testing.T, dir string) (found []string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && safefile.IsUnfinished(d.Name()) {
			found = append(found, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// TestEveryStepFails makes each step of each command that writes fail, as a full or
// broken disk does: the command fails, the folder is as it was, and the same command
// works afterwards.
func TestEveryStepFails(t *testing.T) {
	total := 0
	everyCommand(t, func(t *testing.T, name string, args []string) {
		steps, good := stepsOf(t, args)
		tried := 0
		for _, at := range someSteps(steps, 1+steps/2) {
			with := []error{syscall.ENOSPC, syscall.EIO}[at%2]
			dir := sampleFolder(t)
			before := contents(t, dir)
			n := 0
			restore := safefile.OnStep(func(string) error {
				if n++; n == at {
					return with
				}
				return nil
			})
			code, _, stderr := inProcess(dir, args...)
			restore()
			tried++
			if code == good || code == diag.ExitDone || !strings.Contains(stderr, "error: ") {
				t.Errorf("%s, step %d: exit code %d\n%s", name, at, code, stderr)
			}
			if after := contents(t, dir); after != before {
				t.Errorf("%s, step %d: the folder changed\n%s", name, at, difference(before, after))
			}
			if code, _, stderr := inProcess(dir, args...); code != good {
				t.Errorf("%s, after step %d: exit code %d\n%s", name, at, code, stderr)
			}
			if left := unfinished(t, dir); len(left) > 0 {
				t.Errorf("%s, after step %d: %v", name, at, left)
			}
		}
		if steps > 0 {
			t.Logf("%s: %d of %d steps", name, tried, steps)
		}
		total += tried
	})
	t.Logf("%d faults", total)
}

// difference is the first line in which two texts differ.
func difference(a, b string) string {
	was, now := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(was), len(now)) {
		if was[i] != now[i] {
			return "was " + was[i] + "\nnow " + now[i]
		}
	}
	return "one is the beginning of the other"
}

// full is an output that takes some bytes and then no more, as /dev/full or a full disk.
type full struct {
	room  int
	asked bool
}

func (f *full) Write(b []byte) (int, error) {
	f.asked = f.asked || len(b) > 0
	n := min(f.room, len(b))
	f.room -= n
	if n < len(b) {
		return n, &os.PathError{Op: "write", Path: "/dev/stdout", Err: syscall.ENOSPC}
	}
	return n, nil
}

// TestOutputToAFullDisk: whoever reads the output must not take a part of it for all.
func TestOutputToAFullDisk(t *testing.T) {
	everyCommand(t, func(t *testing.T, name string, args []string) {
		tries := [][]string{nil}
		if exhaustive() {
			tries = [][]string{nil, {"--json"}}
		}
		for i, more := range tries {
			args, to := slices.Concat(args, more), &full{room: 100 * i}
			var errs bytes.Buffer
			code := run(environment{args: append([]string{"bowlwright"}, args...), stdin: strings.NewReader(""), stdout: to, stderr: &errs,
				workDir: sampleFolder(t), now: func() time.Time { return testDay }, getenv: func(string) string { return "" }})
			if to.asked && to.room == 0 && (code != diag.ExitFailed || !strings.Contains(errs.String(), "error: the output could not be written: no space left on device")) {
				t.Errorf("%q: exit code %d\n%s", args, code, errs.String())
			}
		}
	})
	if err := errors.Join(&outputError{syscall.EIO}, unmet("x", "y")); exitCode(err) != diag.ExitFailed {
		t.Errorf("exit code %d", exitCode(err))
	}
}
