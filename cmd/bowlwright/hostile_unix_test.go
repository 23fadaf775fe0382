//go:build unix

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"bowlwright/household/diag"
)

// mostMemory is what a run may take while it refuses a hostile file, in bytes.
const mostMemory = 64 << 20

// endless are files without an end, by what they are: reading one never stops, and
// opening one may wait for ever.
func endless(t *testing.T, path, kind string) {
	t.Helper()
	_ = os.Remove(path)
	var err error
	switch kind {
	case "link to an endless device":
		err = os.Symlink("/dev/zero", path)
	case "pipe":
		err = syscall.Mkfifo(path, 0o644)
	case "link to a folder":
		err = os.Symlink(".", path)
	case "huge file":
		if err = os.WriteFile(path, nil, 0o644); err == nil {
			// One with a hole takes no room on the disk.
			err = os.Truncate(path, 1<<40)
		}
	}
	if err != nil {
		t.Skipf("no %s here: %v", kind, err)
	}
}

// TestHostileFiles puts files without an end in the place of each kind of file that is
// read. The program says what is wrong and needs no more memory than for a small one; it
// would not come back at all, or with another code, if it read them.
func TestHostileFiles(t *testing.T) {
	kinds := []string{"link to an endless device", "pipe", "link to a folder", "huge file"}
	for where, run := range map[string][]string{
		"household.toml":       {"check"},
		"bases/more.toml":      {"check"},
		"foods/more.toml":      {"check"},
		"recipe.csv":           {"import", "recipe.csv"},
		"label.csv":            {"foods", "import", "label.csv"},
		"RECORD":               {"card", "Pip", "--format", "text"},
		"POT":                  {"card", "Pip", "--format", "text"},
		"records/.lock":        {"weigh", "Pip", "4.4 kg"},
		"records/.newest":      {"card", "Pip", "--format", "text"},
		"records/household-id": {"card", "Pip", "--format", "text"},
		"weights.csv":          {"weigh", "Pip", "4.4 kg"},
	} {
		for _, kind := range kinds {
			if kind == "link to a folder" && where == "label.csv" {
				continue // a folder is a download there
			}
			dir := sampleFolder(t)
			at := filepath.Join(dir, filepath.FromSlash(where))
			switch where {
			case "RECORD":
				at = oneFile(t, filepath.Join(dir, "records", "*", "*-plan-pip-*.json"))
			case "POT":
				if code, _, stderr := inProcess(dir, "cook", "--cooked", "8.4 kg", "--quiet"); code != diag.ExitDone {
					t.Fatal(stderr)
				}
				at = oneFile(t, filepath.Join(dir, "records", "*-cooked-*.json"))
			}
			if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
				t.Fatal(err)
			}
			endless(t, at, kind)
			cmd := exec.Command(os.Args[0], append(run, "--today", "2026-11-25")...)
			cmd.Args[0], cmd.Dir = "bowlwright", dir
			peak := filepath.Join(t.TempDir(), "peak")
			cmd.Env = append(os.Environ(), peakFile+"="+peak)
			out, _ := cmd.CombinedOutput()
			code := cmd.ProcessState.ExitCode()
			// What only remembers is left aside; a hole in the weight log is lines that are none.
			harmless := strings.HasPrefix(where, "records/.newest") || where == "records/household-id" || where == "records/.lock" && kind == "huge file"
			if harmless && code != diag.ExitDone || !harmless && code != diag.ExitInput {
				t.Errorf("%s as %s: exit code %d\n%s", where, kind, code, out)
			}
			if memory, known := peakOf(peak); known {
				if memory > mostMemory {
					t.Errorf("%s as %s: %d MB", where, kind, memory>>20)
				}
				t.Logf("%s as %s: %d MB, %v", where, kind, memory>>20, cmd.ProcessState.UserTime()+cmd.ProcessState.SystemTime())
			}
		}
	}
}

func oneFile(t *testing.T, pattern string) string {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) != 1 {
		t.Fatalf("%s: %v, %v", pattern, files, err)
	}
	return files[0]
}

// peakFile names the file for the most memory that the program held so far. What the
// system tells of an ended process counts the memory of the test that started it too.
const peakFile = "BOWLWRIGHT_TEST_PEAK"

// watchMemory keeps the file up to date, where the system tells a process its peak.
func watchMemory() {
	path := os.Getenv(peakFile)
	if path == "" {
		return
	}
	write := func() bool {
		status, err := os.ReadFile("/proc/self/status")
		return err == nil && os.WriteFile(path, status, 0o644) == nil
	}
	if write() {
		go func() {
			for write() {
				time.Sleep(time.Millisecond)
			}
		}()
	}
}

// peakOf reads the peak in bytes.
func peakOf(path string) (bytes int64, known bool) {
	status, err := os.ReadFile(path)
	if err != nil {
		return 0, false
	}
	for _, line := range strings.Split(string(status), "\n") {
		if n, err := fmt.Sscanf(line, "VmHWM: %d kB", &bytes); n == 1 && err == nil {
			return bytes << 10, true
		}
	}
	return 0, false
}
