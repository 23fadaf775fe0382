//go:build unix

package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"

	"bowlwright/household/diag"
	"bowlwright/household/safefile"
)

// killStep names the variable that says at which step the program dies.
const killStep = "BOWLWRIGHT_TEST_KILL_STEP"

// dieAtStep makes the program kill itself at a step, when the test asked for that.
func dieAtStep() {
	watchMemory()
	var at, n int
	if _, err := fmt.Sscan(os.Getenv(killStep), &at); err != nil {
		return
	}
	safefile.OnStep(func(string) error {
		if n++; n == at {
			syscall.Kill(os.Getpid(), syscall.SIGKILL)
			select {}
		}
		return nil
	})
}

// process runs the program as a process of its own, which dies at a step unless that
// is zero.
func process(t *testing.T, dir string, step int, args ...string) (code int, killed bool, output string) {
	t.Helper()
	cmd := exec.Command(os.Args[0], append(args, "--today", "2026-11-25")...)
	cmd.Args[0], cmd.Dir = "bowlwright", dir
	cmd.Env = append(os.Environ(), fmt.Sprintf("%s=%d", killStep, step))
	out, err := cmd.CombinedOutput()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return cmd.ProcessState.ExitCode(), exit != nil && exit.Sys().(syscall.WaitStatus).Signal() == syscall.SIGKILL, string(out)
}

// TestKilledAtEveryStep kills the program at each step of each command that writes.
// Nothing that was there is lost, no record is damaged, and the same command then
// works and clears away what was left.
func TestKilledAtEveryStep(t *testing.T) {
	total := 0
	everyCommand(t, func(t *testing.T, name string, args []string) {
		steps, good := stepsOf(t, args)
		for _, at := range someSteps(steps, steps) {
			dir := sampleFolder(t)
			before := filesByName(t, dir)
			if _, killed, out := process(t, dir, at, args...); !killed {
				t.Errorf("%s: not killed at step %d of %d\n%s", name, at, steps, out)
				continue
			}
			total++
			nothingLost(t, fmt.Sprintf("%s, killed at step %d", name, at), before, filesByName(t, dir))
			code, _, out := process(t, dir, 0, args...)
			// What was done just before the kill is done, and is refused a second time.
			done := code == diag.ExitInput && (strings.Contains(out, "there already") || strings.Contains(out, "is not empty"))
			if code != good && code != diag.ExitDone && !done {
				t.Errorf("%s, after a kill at step %d: exit code %d\n%s", name, at, code, out)
			}
			if left := unfinished(t, dir); len(left) > 0 {
				t.Errorf("%s, after a kill at step %d: %v", name, at, left)
			}
			if code, _, out := process(t, dir, 0, "check"); code != diag.ExitDone {
				t.Errorf("%s, after a kill at step %d: check says\n%s", name, at, out)
			}
		}
	})
	t.Logf("%d processes killed", total)
}

// filesByName are the files of a folder.
func filesByName(t *testing.T, dir string) map[string]string {
	t.Helper()
	all, err := filesBelow(dir)
	if err != nil {
		t.Fatal(err)
	}
	byName := map[string]string{}
	for _, f := range all {
		byName[f.name] = string(f.data)
	}
	return byName
}

// nothingLost: every file that was there is as it was or longer, but for what is
// printed, which is made again.
func nothingLost(t *testing.T, when string, before, now map[string]string) {
	t.Helper()
	for name, text := range before {
		if got, there := now[name]; !strings.HasPrefix(name, "cards/") && !strings.HasPrefix(name, "sheets/") && (!there || !strings.HasPrefix(got, text)) {
			t.Errorf("%s: %s is lost or changed", when, name)
		}
	}
}
