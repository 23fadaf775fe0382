package optimize

import (
	"bufio"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"bowlwright/optimize/lp"
)

// outsidePython finds an interpreter with scipy, or skips; where the environment
// says that everything is installed, it fails instead.
func outsidePython(t testing.TB, module string) string {
	t.Helper()
	for _, name := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(name, "-c", "import "+module).Run() == nil {
			return name
		}
	}
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		t.Fatalf("no Python with %s, and BOWLWRIGHT_ORACLES=1 demands it", module)
	}
	t.Skipf("no Python with %s to compare with", module)
	return ""
}

type outsideProgram struct {
	Cost    []float64    `json:"cost"`
	Upper   []*float64   `json:"upper"`
	Rows    []outsideRow `json:"rows"`
	Integer []int        `json:"integer,omitempty"`
}

type outsideRow struct {
	A     []float64 `json:"a"`
	Lower *float64  `json:"lower"`
	Upper *float64  `json:"upper"`
}

type outsideAnswer struct {
	Status    string   `json:"status"`
	Objective *float64 `json:"objective"`
	// X holds columns that are not zero, where the script gives them.
	X map[int]float64 `json:"x"`
}

func outside(p lp.Problem) outsideProgram {
	out := outsideProgram{Cost: p.Cost}
	for _, u := range p.Upper {
		out.Upper = append(out.Upper, absent(u))
	}
	for _, r := range p.Rows {
		out.Rows = append(out.Rows, outsideRow{A: r.A, Lower: absent(r.Lower), Upper: absent(r.Upper)})
	}
	return out
}

// askOutside solves programs with another solver, all in one run.
func askOutside[Q, A any](t *testing.T, python, script string, programs []Q) []A {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.jsonl"), filepath.Join(dir, "out.jsonl")
	f, err := os.Create(in)
	if err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriter(f)
	enc := json.NewEncoder(w)
	for _, p := range programs {
		if err := enc.Encode(p); err != nil {
			t.Fatal(err)
		}
	}
	w.Flush()
	f.Close()
	if text, err := exec.Command(python, script, in, out).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	answers := make([]A, 0, len(programs))
	g, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	dec := json.NewDecoder(g)
	for range programs {
		var a A
		if err := dec.Decode(&a); err != nil {
			t.Fatal(err)
		}
		answers = append(answers, a)
	}
	return answers
}

// absent is a bound as the other programs read it: nil where there is none.
func absent(v float64) *float64 {
	if math.IsInf(v, 0) {
		return nil
	}
	return &v
}
