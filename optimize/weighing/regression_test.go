package weighing

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"bowlwright/fixtures/outside"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/milp"
)

// regression is a weighing that a solver once got wrong, ours or another, with
// the best value that is known: accepted on the printed amounts, and proved by
// the other solver to its own tolerance.
type regression struct {
	Why  string
	Best *float64 // nil: there are no weighable amounts
	// OfRows says that Best is that of the rows alone (see keepsProgram), and exact.
	OfRows     bool
	MaxGrams   float64
	PremixDays int
	Doses      []keptDose
	Used       []int
	Columns    []keptColumn
	Limits     []keptRow // of the program
	Rows       []keptRow // of the weighing
	Premix     []int
	Carrier    int
}

type keptDose struct {
	Step, Least float64
	ServedAs    household.Served
	Every       int
}

type keptColumn struct {
	Target, Step, Least, Cap, Weight float64
	Addon                            bool
}

type keptRow struct {
	Limit        string
	A            household.Coefficients
	Lower, Upper *float64
	Size         float64
	Elastic      bool
}

func keepRow(name string, a []float64, lower, upper, size float64, elastic bool) keptRow {
	return keptRow{name, household.CoefficientsOf(a), outside.Absent(lower), outside.Absent(upper), size, elastic}
}

func limitsOf(kept []keptRow) []diet.Row {
	var out []diet.Row
	for _, r := range kept {
		out = append(out, diet.Row{Limit: nutrients.ParseLimitID(r.Limit), A: r.A.Row(), Lower: boundOf(r.Lower, -1), Upper: boundOf(r.Upper, 1), Size: r.Size, Elastic: r.Elastic})
	}
	return out
}

func rowsOf(kept []keptRow) []milp.Row {
	var out []milp.Row
	for _, r := range kept {
		out = append(out, milp.Row{Name: r.Limit, A: r.A.Row(), Lower: boundOf(r.Lower, -1), Upper: boundOf(r.Upper, 1), Size: r.Size, Elastic: r.Elastic})
	}
	return out
}

// keep writes an instance where the environment names a folder for it.
func keep(t *testing.T, name, why string, c *integerCase) {
	w, want, best := c.w, c.want, &c.best.Value
	if c.best.Incumbent == nil {
		best = nil
	}
	dir := os.Getenv("BOWLWRIGHT_KEEP")
	if dir == "" {
		return
	}
	k := regression{Why: why, Best: best, OfRows: true, MaxGrams: want.MaxSpent, PremixDays: w.p.Kitchen.PremixDays,
		Used: w.used, Premix: w.premix, Carrier: w.carrier}
	for _, r := range w.p.Rows {
		k.Limits = append(k.Limits, keepRow(r.Limit.String(), r.A, r.Lower, r.Upper, r.Size, r.Elastic))
	}
	for _, r := range w.Rows {
		k.Rows = append(k.Rows, keepRow(r.Name, r.A, r.Lower, r.Upper, r.Size, r.Elastic))
	}
	for _, d := range w.doses {
		k.Doses = append(k.Doses, keptDose(d))
	}
	for _, c := range w.Cols {
		k.Columns = append(k.Columns, keptColumn{c.Target, c.Step, c.Least, c.Cap, c.Weight, c.Spends > 0})
	}
	text, err := json.MarshalIndent(k, "", " ")
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, name+".json"), append(text, '\n'), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func (k *regression) weighing() (*stepProgram, milp.Goal) {
	w := &stepProgram{p: &diet.Program{Rows: limitsOf(k.Limits), Items: make([]diet.Item, len(k.Doses))}, used: k.Used, Rows: rowsOf(k.Rows), premix: k.Premix, carrier: k.Carrier}
	w.p.Kitchen.PremixDays = k.PremixDays
	for _, d := range k.Doses {
		w.doses = append(w.doses, dose(d))
	}
	w.p.Counts = make([]float64, len(k.Doses))
	for i, c := range k.Columns {
		spends := 0.0
		if c.Addon {
			spends, w.p.Counts[k.Used[i]] = 1, 1
		}
		w.Cols = append(w.Cols, milp.Column{Target: c.Target, Step: c.Step, Least: c.Least, Cap: c.Cap, Weight: c.Weight, Spends: spends})
	}
	return w, milp.Goal{Distance: true, MaxSpent: k.MaxGrams}
}

// What a solver once got wrong is solved again, without any other program.
func TestRegressions(t *testing.T) {
	files, err := filepath.Glob("testdata/regression/*.json")
	if err != nil || len(files) == 0 {
		t.Fatal("no regressions", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			var k regression
			if err := json.Unmarshal(text, &k); err != nil {
				t.Fatal(err)
			}
			w, want := k.weighing()
			judge := func(steps []float64) (float64, bool) { return w.Accept(steps, want) }
			near, far := milp.OptimalityGap, 1e-4
			if k.OfRows {
				want.Best, want.MaxNodes = true, provingNodes
				judge = func(steps []float64) (float64, bool) { return w.keepsProgram(steps, want) }
				near, far = integerAgrees, 0
			}
			s, err := milp.New(w.Cols, w.Rows, want)
			if err != nil {
				t.Fatal(err)
			}
			steps := s.Run(judge)
			if !s.Proved {
				t.Errorf("not proved in %d nodes", s.Nodes)
			}
			if k.Best == nil {
				if steps != nil {
					t.Errorf("an answer where there is none: %v", steps)
				}
				return
			}
			if steps == nil {
				t.Fatalf("no answer in %d nodes, %g is possible", s.Nodes, *k.Best)
			}
			if again, ok := judge(steps); !ok || math.Abs(again-s.Value) > 1e-9*(1+again) {
				t.Errorf("the answer %v is not acceptable", steps)
			}
			if s.Value > *k.Best*(1+near)+far || s.Bound > *k.Best+1e-5*(1+*k.Best) {
				t.Errorf("found %g, proved %g, best known %g", s.Value, s.Bound, *k.Best)
			}
		})
	}
}

// boundOf reads an absent bound as infinite with the given sign.
func boundOf(v *float64, sign int) float64 {
	if v == nil {
		return math.Inf(sign)
	}
	return *v
}
