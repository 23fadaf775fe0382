//go:build unix

package safefile

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"syscall"
	"testing"
)

// TestReplaceBrokenOff kills a process at each step of putting a set in place, and the
// next one at each step of putting it right: never a new file of the set beside an old
// one, and in the end all of it or none.
func TestReplaceBrokenOff(t *testing.T) {
	if dir := os.Getenv("BOWLWRIGHT_TEST_KILL_DIR"); dir != "" {
		dieAt(t, dir)
		return
	}
	// One killed repair in stride is tried unless everything is asked for.
	stride := 7
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		stride = 1
	}
	tried := 0
	for name, set := range sets {
		for n := 1; killed(t, name, n, 0, &tried); n++ {
			for again := 1 + n%stride; killed(t, name, n, again, &tried); again += stride {
			}
		}
		dir := lay(t, set.before)
		if kill(t, name, dir, 1000) {
			t.Errorf("%s: more steps than there are", name)
		}
	}
	t.Logf("%d processes killed", tried)
}

// killed kills the writing of a set at a step, and if asked for the repair at one, and
// checks what is left. It tells whether both were killed.
func killed(t *testing.T, name string, n, again int, tried *int) bool {
	t.Helper()
	set := sets[name]
	dir := lay(t, set.before)
	was, whole := look(t, dir), after(set.before, set.files)
	if !kill(t, name, dir, n) {
		return false
	}
	*tried++
	when := fmt.Sprintf("%s, step %d, repair %d", name, n, again)
	if len(set.files) > 1 {
		noMixture(t, when, look(t, dir), set.before, set.files)
	}
	if _, err := os.Lstat(dir); err != nil {
		return again == 0
	}
	died := again > 0 && kill(t, "", dir, again)
	if died {
		*tried++
	}
	if err := Sweep(dir); err != nil {
		t.Fatal(err)
	}
	if now := look(t, dir); !maps.Equal(now, was) && !maps.Equal(now, whole) {
		t.Errorf("%s: %v", when, now)
	}
	return again == 0 || died
}

// kill runs the writing of a set, or with no name the repair of a folder, in a process
// that dies at a step; it tells whether it came to that.
func kill(t *testing.T, name, dir string, n int) bool {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^TestReplaceBrokenOff$")
	cmd.Env = append(os.Environ(), "BOWLWRIGHT_TEST_KILL_DIR="+dir, "BOWLWRIGHT_TEST_KILL_SET="+name, fmt.Sprintf("BOWLWRIGHT_TEST_KILL_STEP=%d", n))
	out, err := cmd.CombinedOutput()
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.Sys().(syscall.WaitStatus).Signal() != syscall.SIGKILL {
		t.Fatalf("%s, step %d: %v\n%s", name, n, err, out)
	}
	return err != nil
}

func dieAt(t *testing.T, dir string) {
	var at, n int
	if _, err := fmt.Sscan(os.Getenv("BOWLWRIGHT_TEST_KILL_STEP"), &at); err != nil {
		t.Fatal(err)
	}
	OnStep(func(string) error {
		if n++; n == at {
			syscall.Kill(os.Getpid(), syscall.SIGKILL)
			select {}
		}
		return nil
	})
	err := Sweep(dir)
	if name := os.Getenv("BOWLWRIGHT_TEST_KILL_SET"); name != "" {
		err = Replace(dir, sets[name].files)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func noMixture(t *testing.T, when string, now, before map[string]string, files []File) {
	t.Helper()
	var old, fresh []string
	for _, f := range files {
		got, there := now[f.Name]
		was, had := before[f.Name]
		switch {
		case !there || had && was == string(f.Data):
		case had && got == was:
			old = append(old, f.Name)
		case got == string(f.Data):
			fresh = append(fresh, f.Name)
		}
	}
	if len(old) > 0 && len(fresh) > 0 {
		t.Errorf("%s: old %v beside new %v", when, old, fresh)
	}
}
