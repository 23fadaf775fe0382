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
		out.Upper = append(out.Upper, finite(u))
	}
	for _, r := range p.Rows {
		out.Rows = append(out.Rows, outsideRow{A: r.A, Lower: finite(r.Lower), Upper: finite(r.Upper)})
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

// Seeded household programs and degenerate ones, both stages, against HiGHS. A
// disagreement is settled by our own proof, redone in exact arithmetic: an
// optimum by its duals, an infeasibility by its multipliers.
func TestAgainstHiGHS(t *testing.T) {
	python := outsidePython(t, "scipy")
	plain, bent := 400, 150
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		plain, bent = 5000, 2000
	}
	var problems []lp.Problem
	var results []lp.Result
	for _, d := range drawPrograms(t, 20, plain, bent) {
		for _, q := range d.stages {
			s, err := lp.New(q)
			if err != nil {
				t.Fatal(err)
			}
			problems, results = append(problems, q), append(results, s.Solve())
		}
	}
	programs := make([]outsideProgram, len(problems))
	for i, p := range problems {
		programs[i] = outside(p)
	}
	answers := askOutside[outsideProgram, outsideAnswer](t, python, "lp/testdata/highs.py", programs)
	counts := map[lp.Status]int{}
	settled := 0
	for i, a := range answers {
		got := results[i]
		counts[got.Status]++
		if got.Status == lp.Imprecise || got.Status == lp.IterationLimit {
			t.Errorf("program %d: %v", i, got.Status)
			continue
		}
		if a.Status == got.Status.String() && (a.Objective == nil || math.Abs(*a.Objective-got.Objective) <= agreeTol*(1+math.Abs(got.Objective))) {
			continue
		}
		if !proved(&problems[i], got) {
			theirs := math.NaN()
			if a.Objective != nil {
				theirs = *a.Objective
			}
			t.Errorf("program %d: %v %.12g, HiGHS %s %.12g, and our proof does not hold", i, got.Status, got.Objective, a.Status, theirs)
		}
		settled++
	}
	t.Logf("%d programs: %d optimal, %d infeasible; %d disagreements, settled by exact proof", len(problems), counts[lp.Optimal], counts[lp.Infeasible], settled)
	if len(problems) < plain || counts[lp.Infeasible] == 0 {
		t.Errorf("too few programs, or all of one kind: %d, %v", len(problems), counts)
	}
}

// proved checks our answer in exact arithmetic: the duals' bound meets the
// objective of a point that keeps its bounds, or the multipliers prove that none does.
func proved(p *lp.Problem, res lp.Result) bool {
	if res.Status == lp.Infeasible {
		return lp.ExactlyProves(p, res.Farkas)
	}
	bound := lp.ExactBound(p, res.Duals)
	if bound == nil || lp.Residual(p, res.X) > 1e-8 {
		return false
	}
	b, _ := bound.Float64()
	return math.Abs(b-res.Objective) <= agreeTol*(1+math.Abs(res.Objective))
}
