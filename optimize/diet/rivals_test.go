package diet

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"bowlwright/fixtures/outside"
	"bowlwright/optimize/lp"
)

// answer is what a solver says of one stage of a program, in nanoseconds.
type answer struct {
	status    string
	objective float64
	// build is the time for the model, which is not in solve. A warm second stage
	// needs no other model.
	build, solve float64
}

// answers holds what each method says of each stage; a stage after one without an
// optimum has the status "none".
type answers map[string][]answer

// rival is another solver in a process of its own that times itself. It answers
// one program at a time, so that whatever else the machine does falls on all alike.
type rival struct {
	name string
	cmd  *exec.Cmd
	in   *bufio.Writer
	out  *bufio.Scanner
}

// startRivals starts GLPK and CLP in a small C program and HiGHS in Python, or
// skips; where the environment says that everything is installed, it fails instead.
func startRivals(t testing.TB) []*rival {
	t.Helper()
	sources, err := filepath.Glob("../lp/testdata/harness/*.c")
	if err != nil || len(sources) == 0 {
		t.Fatal("no harness", err)
	}
	harness := filepath.Join(t.TempDir(), "harness")
	args := append([]string{"-O2", "-Wall", "-Wextra", "-Werror", "-o", harness}, sources...)
	if text, err := exec.Command("gcc", append(args, "-lglpk", "-lClp")...).CombinedOutput(); err != nil {
		const missing = "no gcc with libglpk-dev and coinor-libclp-dev to compare with"
		if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
			t.Fatalf("%s, and BOWLWRIGHT_ORACLES=1 demands it: %v\n%s", missing, err, text)
		}
		t.Skip(missing)
	}
	python := outside.Python(t, "scipy")
	return []*rival{startRival(t, harness), startRival(t, python, "../lp/testdata/harness/highs.py")}
}

func startRival(t testing.TB, name string, args ...string) *rival {
	t.Helper()
	cmd := exec.Command(name, args...)
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		in.Close()
		if err := cmd.Wait(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	})
	return &rival{name, cmd, bufio.NewWriter(in), bufio.NewScanner(out)}
}

// ask has a program solved; times are the least of the repeats.
func (r *rival) ask(t testing.TB, d drawn, repeats int, all answers) {
	t.Helper()
	late := time.AfterFunc(rivalLimit, func() { r.cmd.Process.Kill() })
	defer late.Stop()
	writeStages(r.in, d.stages, repeats)
	if err := r.in.Flush(); err != nil {
		t.Fatal(r.name, err)
	}
	for r.out.Scan() && r.out.Text() != "end" {
		var method string
		var stage int
		var a answer
		if _, err := fmt.Sscan(r.out.Text(), &method, &stage, &a.status, &a.objective, &a.build, &a.solve); err != nil || stage != len(all[method]) {
			t.Fatalf("%s: %q: %v", r.name, r.out.Text(), err)
		}
		all[method] = append(all[method], a)
	}
	if r.out.Text() != "end" {
		t.Fatalf("%s ended: %v", r.name, r.out.Err())
	}
}

// writeStages writes a program in the form that the harness reads: a line with the
// sizes; a line each for costs, columns' and rows' upper bounds of each stage; a
// line for each row with its lower bound and coefficients. The form leaves out what
// the stages have in common or do not have.
func writeStages(w io.Writer, stages []lp.Problem, repeats int) {
	first := stages[0]
	fmt.Fprintln(w, "program", len(first.Cost), len(first.Rows), len(stages), repeats)
	line := func(values ...float64) {
		for _, v := range values {
			io.WriteString(w, strconv.FormatFloat(v, 'g', -1, 64)+" ")
		}
		fmt.Fprintln(w)
	}
	for _, q := range stages {
		line(q.Cost...)
		line(q.Upper...)
		var upper []float64
		for _, r := range q.Rows {
			upper = append(upper, r.Upper)
		}
		line(upper...)
	}
	for _, r := range first.Rows {
		line(append([]float64{r.Lower}, r.A...)...)
	}
}

// ours solves the stages of a program, the second from the dictionary of the first
// unless cold, and times them as the rivals time themselves.
func ours(t testing.TB, d drawn, repeats int, cold bool) ([]answer, []lp.Result) {
	t.Helper()
	best, results := make([]answer, len(d.stages)), make([]lp.Result, len(d.stages))
	for k := range repeats {
		var solver *lp.Solver
		for i, q := range d.stages {
			got := answer{}
			at := time.Now()
			if i == 0 || cold {
				var err error
				if solver, err = lp.New(q); err != nil {
					t.Fatal(err)
				}
				got.build = float64(time.Since(at).Nanoseconds())
				at = time.Now()
			} else {
				changeTo(solver, d.stages[0], q)
			}
			results[i] = solver.Solve()
			got.solve = float64(time.Since(at).Nanoseconds())
			if k > 0 {
				got.build, got.solve = min(got.build, best[i].build), min(got.solve, best[i].solve)
			}
			got.status, got.objective = results[i].Status.String(), results[i].Objective
			best[i] = got
		}
	}
	return best, results
}

// changeTo turns a solver's program into one with the same coefficients.
func changeTo(solver *lp.Solver, from, to lp.Problem) {
	for j, u := range to.Upper {
		if u != from.Upper[j] {
			solver.SetColumn(j, to.Lower[j], u)
		}
	}
	for i, r := range to.Rows {
		if r.Upper != from.Rows[i].Upper {
			solver.SetRow(i, r.Lower, r.Upper)
		}
	}
	solver.SetCost(to.Cost)
}

// gonums solves each stage with gonum's simplex. Its time includes the model,
// which counts for little there.
func gonums(t testing.TB, d drawn) []answer {
	t.Helper()
	var all []answer
	for _, q := range d.stages {
		at := time.Now()
		res, err := lp.SecondOpinion(q, gonumLimit)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, answer{status: res.Status.String(), objective: res.Objective, solve: float64(time.Since(at).Nanoseconds())})
	}
	return all
}

// rivalLimit is ten thousand times what a program takes; a solver that has not
// answered by then never will.
const rivalLimit = time.Minute

// gonumLimit is a hundred times what gonum's simplex takes; it can run for ever.
const gonumLimit = time.Second
