package optimize

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"bowlwright/household"
)

// keptInstance is a weighing that a solver once got wrong, ours or another, with
// the best value that is known: accepted on the printed amounts, and proved by
// the other solver to its own tolerance.
type keptInstance struct {
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
	ServedAs    string
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
	return keptRow{name, household.CoefficientsOf(a), absent(lower), absent(upper), size, elastic}
}

func limitsOf(kept []keptRow) []row {
	var out []row
	for _, r := range kept {
		out = append(out, row{limit: r.Limit, a: r.A.Row(), lower: boundOf(r.Lower, -1), upper: boundOf(r.Upper, 1), size: r.Size, elastic: r.Elastic})
	}
	return out
}

func rowsOf(kept []keptRow) []searchRow {
	var out []searchRow
	for _, r := range kept {
		out = append(out, searchRow{name: r.Limit, a: r.A.Row(), lower: boundOf(r.Lower, -1), upper: boundOf(r.Upper, 1), size: r.Size, elastic: r.Elastic})
	}
	return out
}

// keep writes an instance where the environment names a folder for it.
func keep(t *testing.T, name, why string, c *integerCase) {
	w, want, best := c.w, c.want, &c.best.value
	if c.best.incumbent == nil {
		best = nil
	}
	dir := os.Getenv("BOWLWRIGHT_KEEP")
	if dir == "" {
		return
	}
	k := keptInstance{Why: why, Best: best, OfRows: true, MaxGrams: want.maxSpent, PremixDays: w.p.kitchen.PremixDays,
		Used: w.used, Premix: w.premix, Carrier: w.carrier}
	for _, r := range w.p.rows {
		k.Limits = append(k.Limits, keepRow(r.limit, r.a, r.lower, r.upper, r.size, r.elastic))
	}
	for _, r := range w.rows {
		k.Rows = append(k.Rows, keepRow(r.name, r.a, r.lower, r.upper, r.size, r.elastic))
	}
	for _, d := range w.doses {
		k.Doses = append(k.Doses, keptDose{d.step, d.least, d.servedAs, d.every})
	}
	for _, c := range w.cols {
		k.Columns = append(k.Columns, keptColumn{c.target, c.step, c.least, c.cap, c.weight, c.spends > 0})
	}
	text, err := json.MarshalIndent(k, "", " ")
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, name+".json"), append(text, '\n'), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func (k *keptInstance) weighing() (*weighing, aim) {
	w := &weighing{p: &program{rows: limitsOf(k.Limits), items: make([]item, len(k.Doses))}, used: k.Used, rows: rowsOf(k.Rows), premix: k.Premix, carrier: k.Carrier}
	w.p.kitchen.PremixDays = k.PremixDays
	for _, d := range k.Doses {
		w.doses = append(w.doses, dose{d.Step, d.Least, d.ServedAs, d.Every})
	}
	w.p.spends = make([]float64, len(k.Doses))
	for i, c := range k.Columns {
		spends := 0.0
		if c.Addon {
			spends, w.p.spends[k.Used[i]] = 1, 1
		}
		w.cols = append(w.cols, searchColumn{c.Target, c.Step, c.Least, c.Cap, c.Weight, spends})
	}
	return w, aim{distance: true, maxSpent: k.MaxGrams}
}

// What a solver once got wrong is solved again, without any other program.
func TestKeptInstances(t *testing.T) {
	files, err := filepath.Glob("testdata/kept/*.json")
	if err != nil || len(files) == 0 {
		t.Fatal("no kept instances", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			var k keptInstance
			if err := json.Unmarshal(text, &k); err != nil {
				t.Fatal(err)
			}
			w, want := k.weighing()
			judge := func(steps []float64) (float64, bool) { return w.accept(steps, want) }
			near, far := optimalityGap, 1e-4
			if k.OfRows {
				want.best, want.maxNodes = true, provingNodes
				judge = func(steps []float64) (float64, bool) { return w.keepsProgram(steps, want) }
				near, far = integerAgrees, 0
			}
			s, err := newSearch(w.cols, w.rows, want)
			if err != nil {
				t.Fatal(err)
			}
			steps := s.run(judge)
			if !s.proved {
				t.Errorf("not proved in %d nodes", s.nodes)
			}
			if k.Best == nil {
				if steps != nil {
					t.Errorf("an answer where there is none: %v", steps)
				}
				return
			}
			if steps == nil {
				t.Fatalf("no answer in %d nodes, %g is possible", s.nodes, *k.Best)
			}
			if again, ok := judge(steps); !ok || math.Abs(again-s.value) > 1e-9*(1+again) {
				t.Errorf("the answer %v is not acceptable", steps)
			}
			if s.value > *k.Best*(1+near)+far || s.bound > *k.Best+1e-5*(1+*k.Best) {
				t.Errorf("found %g, proved %g, best known %g", s.value, s.bound, *k.Best)
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
