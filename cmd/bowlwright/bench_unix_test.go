//go:build unix

package main

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"bowlwright/fixtures"
	"bowlwright/household"
	"bowlwright/household/diag"
)

// manyPets writes the example household with other pets into a folder.
func manyPets(b *testing.B, pets int) (dir string) {
	b.Helper()
	dir = filepath.Join(b.TempDir(), "many")
	if err := fixtures.WriteDemo(dir, testDay); err != nil {
		b.Fatal(err)
	}
	path := filepath.Join(dir, "household.toml")
	text, err := os.ReadFile(path)
	if err != nil {
		b.Fatal(err)
	}
	tables := regexp.MustCompile(`(?m)^\[`).FindAllIndex(text, -1)
	out := string(text[:tables[0][0]])
	for i, at := range tables {
		end := len(text)
		if i+1 < len(tables) {
			end = tables[i+1][0]
		}
		if table := string(text[at[0]:end]); !strings.HasPrefix(table, "[[pet") {
			out += regexp.MustCompile(`(?m)^pets *=.*\n`).ReplaceAllString(table, "")
		}
	}
	r := rand.New(rand.NewSource(1))
	for k := range pets {
		species, kg, stage := "dog", 3+45*r.Float64(), "born = 2020-03-14\ncondition = "+strconv.Itoa(4+r.Intn(4))
		if r.Intn(3) == 0 {
			species, kg = "cat", 2.5+4*r.Float64()
		}
		if r.Intn(4) == 0 {
			stage = fmt.Sprintf("born = 2026-%02d-10\nstage = \"growth\"\nadult_weight = \"%.2f kg\"", 6+r.Intn(3), kg*(1.3+r.Float64()))
		}
		out += fmt.Sprintf("\n[[pet]]\nname = \"Pet %d\"\nspecies = %q\nweight = \"%.2f kg\"\nneutered = true\nactivity = \"moderate\"\n%s\n", k, species, kg, stage)
	}
	if err := os.WriteFile(path, []byte(out), 0o644); err != nil {
		b.Fatal(err)
	}
	if err := os.Remove(filepath.Join(dir, "weights.csv")); err != nil && !errors.Is(err, fs.ErrNotExist) {
		b.Fatal(err)
	}
	return dir
}

// A thousand pets in a process of its own: files read, planned, recorded, printed;
// for the first time, and anew with a thousand plans in use. Processor time says
// more than the clock where other work goes on beside.
//
// Measured on two cores in November 2026, with other work going on: 1.37 to 1.48 s,
// 2.2 s of processor time and 139 MB for the first time (budget 2 s, 200 MB); 1.83 to
// 1.91 s and 3.0 s of processor time with a thousand plans in use; 0.43 s and 31 MB
// for one pet of these, for which all plans in use are read. The example takes 20 to
// 30 ms and 21 MB (budget 60 ms, 60 MB), the start of a command 3 ms. Set records/
// aside instead of removing it between runs: the file system takes half a millisecond
// longer over each name that was free a moment ago.
func BenchmarkPlanProcess(b *testing.B) {
	for _, kind := range []string{"first", "anew"} {
		b.Run(kind, func(b *testing.B) {
			dir := manyPets(b, 1000)
			plan := func() *os.ProcessState {
				cmd := exec.Command("bowlwright", "plan", "--household", dir, "--today", household.DateOf(testDay).String())
				text, err := cmd.CombinedOutput()
				if code := cmd.ProcessState.ExitCode(); code != diag.ExitDone && code != diag.ExitNotMet {
					b.Fatalf("%v\n%s", err, text)
				}
				return cmd.ProcessState
			}
			if kind == "anew" {
				plan()
			}
			var seconds, kilobytes []float64
			for i := 0; b.Loop(); i++ {
				if records := filepath.Join(dir, "records"); kind == "first" && i > 0 {
					// Set aside, not removed: a file system takes longer over names that
					// were free a moment ago.
					if err := os.Rename(records, fmt.Sprint(records, "-", i)); err != nil {
						b.Fatal(err)
					}
				}
				state := plan()
				seconds = append(seconds, (state.UserTime() + state.SystemTime()).Seconds())
				kilobytes = append(kilobytes, float64(state.SysUsage().(*syscall.Rusage).Maxrss))
			}
			b.ReportMetric(slices.Min(seconds), "cpu-s/least")
			b.ReportMetric(slices.Max(kilobytes)/1024, "MB/most")
		})
	}
}
