//go:build unix

package records

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"

	"bowlwright/household"
	"bowlwright/household/safefile"
)

// TestKilledWhileSaving ends a process at every step of saving two plans: what is
// left is the old state or the new one, and the next run works.
func TestKilledWhileSaving(t *testing.T) {
	if dir := os.Getenv("BOWLWRIGHT_TEST_KILL_DIR"); dir != "" {
		killYourself(t, dir)
		return
	}
	for n := 1; ; n++ {
		dir := folder(t, map[string]string{"household.toml": twoPets, "weights.csv": "date,pet,kg,note\n2026-11-01,Marlow,31.0,\n"})
		h := mustLoad(t, dir)
		cmd := exec.Command(os.Args[0], "-test.run=^TestKilledWhileSaving$")
		cmd.Env = append(os.Environ(), "BOWLWRIGHT_TEST_KILL_DIR="+dir, fmt.Sprintf("BOWLWRIGHT_TEST_KILL_STEP=%d", n))
		out, err := cmd.CombinedOutput()
		killed := err != nil
		if killed && cmd.ProcessState.Sys().(syscall.WaitStatus).Signal() != syscall.SIGKILL {
			t.Fatalf("step %d: %v\n%s", n, err, out)
		}
		r := Open(dir)
		plans, found, err := r.Plans()
		if err != nil || len(found) > 0 || len(plans) != 0 && len(plans) != 2 {
			t.Fatalf("step %d left %d plans, %v, %v", n, len(plans), found, err)
		}
		log := mustLoad(t, dir).Weights
		if len(log) != 1 && len(log) != 2 {
			t.Fatalf("step %d left %d weighings", n, len(log))
		}
		if !killed && (len(plans) != 2 || len(log) != 2) {
			t.Fatalf("nothing was killed, but %d plans, %d weighings", len(plans), len(log))
		}
		if _, err := r.SavePlans([]*household.Plan{testPlan(h, "Marlow", 400)}); err != nil {
			t.Fatalf("after step %d: %v", n, err)
		}
		entries, err := os.ReadDir(filepath.Join(dir, "records"))
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if safefile.IsUnfinished(e.Name()) {
				t.Errorf("step %d left %s behind for good", n, e.Name())
			}
		}
		if !killed {
			if n < 10 {
				t.Fatalf("only %d steps", n)
			}
			return
		}
	}
}

// killYourself saves two plans and a weighing, and dies at a step.
func killYourself(t *testing.T, dir string) {
	h := mustLoad(t, dir)
	var at, n int
	if _, err := fmt.Sscan(os.Getenv("BOWLWRIGHT_TEST_KILL_STEP"), &at); err != nil {
		t.Fatal(err)
	}
	safefile.OnStep(func(string) error {
		if n++; n == at {
			syscall.Kill(os.Getpid(), syscall.SIGKILL)
			select {}
		}
		return nil
	})
	r := Open(dir)
	if _, err := r.SavePlans([]*household.Plan{testPlan(h, "Marlow", 400), testPlan(h, "Žofka the 2nd", 90)}); err != nil {
		t.Fatal(err)
	}
	if _, err := r.Weigh(h, household.WeighIn{Date: testDay, Pet: "Marlow", Kg: 32}, testDay); err != nil {
		t.Fatal(err)
	}
}
