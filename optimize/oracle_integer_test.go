package optimize

import (
	"context"
	"fmt"
	"math"
	"math/rand"
	"os"
	"os/exec"
	"testing"
)

// integerProgram states a weighing for another solver: whole steps, an up and a
// down column for the distance, and a yes-or-no column for the least amount.
func integerProgram(w *weighing, want aim) outsideProgram {
	n := len(w.cols)
	var p outsideProgram
	column := func(cost, upper float64, whole int) {
		p.Cost, p.Upper, p.Integer = append(p.Cost, cost), append(p.Upper, &upper), append(p.Integer, whole)
	}
	for _, c := range w.cols {
		column(0, math.Floor(c.cap/c.step+integralTol), 1)
	}
	for _, c := range w.cols {
		column(c.weight*c.step, 1e7, 0)
		column(c.weight*c.step, 1e7, 0)
		column(0, 1, 1)
	}
	row := func(lower, upper float64, set map[int]float64) {
		r := outsideRow{A: make([]float64, len(p.Cost)), Lower: finite(lower), Upper: finite(upper)}
		for j, v := range set {
			r.A[j] = v
		}
		p.Rows = append(p.Rows, r)
	}
	inf := math.Inf(1)
	grams := map[int]float64{}
	for j, c := range w.cols {
		at := n + 3*j
		row(c.target/c.step, c.target/c.step, map[int]float64{j: 1, at: -1, at + 1: 1})
		least := math.Ceil(c.least/c.step - integralTol)
		row(-inf, 0, map[int]float64{j: 1, at + 2: -*p.Upper[j]})
		row(0, inf, map[int]float64{j: 1, at + 2: -least})
		if c.spends > 0 {
			grams[j] = c.spends * c.step
		}
	}
	if !math.IsInf(want.maxSpent, 1) {
		row(-inf, want.maxSpent, grams)
	}
	for _, r := range w.rows {
		set := map[int]float64{}
		for j, c := range w.cols {
			set[j] = r.a[j] * c.step / r.size
		}
		row(r.lower/r.size, r.upper/r.size, set)
	}
	return p
}

// Weighable amounts of drawn households against CBC. Ours stops within a stated
// gap and keeps a guard band at every limit, so it may be that much worse and
// never better than the true optimum.
func TestWeighableAgainstCBC(t *testing.T) {
	python := outsidePython(t, "json")
	if _, err := exec.LookPath("cbc"); err != nil {
		if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
			t.Fatal("cbc is not installed, and BOWLWRIGHT_ORACLES=1 demands it")
		}
		t.Skip("cbc is not installed")
	}
	wanted := 20
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		wanted = 1000
	}
	type outcome struct {
		value  float64
		found  bool
		proved bool
		bound  float64
		nodes  int
		w      *weighing
		want   aim
	}
	var ours []outcome
	var programs []outsideProgram
	broken, roundedOf := 0, 0
	r := rand.New(rand.NewSource(77))
	for len(programs) < wanted {
		h := randomHousehold(r)
		p, err := formulate(h, &h.Pets[0])
		if err != nil || p.rows[0].a[0] <= 0 {
			continue
		}
		s, err := p.stages(context.Background(), nil)
		if err != nil || s.farkas != nil {
			continue
		}
		if s.violation > 0 {
			// What is missed for good is not asked for: the rest is a program of
			// the same kind that has an answer.
			for i := range p.rows {
				if s.slack[i] > 0 {
					p.rows[i].lower -= s.slack[i] * p.rows[i].size * 1.01
				}
			}
		}
		w := p.weighing(s, dosesFor(p, s.x), false)
		want := aim{distance: true, maxSpent: nearLeastWeighable * math.Max(s.least, 1e-3)}
		for i := range w.rows {
			w.rows[i].elastic = false
		}
		search, err := newSearch(w.cols, w.rows, want)
		if err != nil {
			continue
		}
		steps := search.run(func(steps []float64) (float64, bool) { return w.accept(steps, want) })
		ours = append(ours, outcome{search.value, steps != nil, search.proved, search.bound, search.nodes, w, want})
		programs = append(programs, integerProgram(w, want))
		plain := make([]float64, len(w.cols))
		for k, c := range w.cols {
			plain[k] = math.Round(c.target / c.step)
		}
		roundedOf++
		if !keepsLimits(w, plain) {
			broken++
		}
	}
	answers := askOutside[outsideProgram, outsideAnswer](t, python, "lp/testdata/cbc.py", programs)
	named := func(i int) string { return fmt.Sprintf("drawn-%03d", i) }
	agreed, noAnswer, nodes, unproved, none, settled := 0, 0, 0, 0, 0, 0
	for i, a := range answers {
		o := ours[i]
		nodes += o.nodes
		if !o.proved {
			unproved++
		}
		if a.Status == "other" {
			noAnswer++
			continue
		}
		if a.Status == "optimal" {
			// What breaks a limit on whole steps is an answer of its tolerances.
			steps := make([]float64, len(o.w.cols))
			for j := range steps {
				steps[j] = math.Round(a.X[j])
			}
			if value, ok := o.w.accept(steps, o.want); !ok || math.Abs(value-*a.Objective) > 1e-5*(1+value) {
				settled++
				keep(t, named(i), "the other solver's answer breaks a limit on whole steps", o.w, o.want, valueIf(o.found, o.value))
				continue
			}
			if i == 603 || i == 760 {
				keep(t, named(i), "once no answer was found in 5000 nodes: nodes without a verified answer were halved for ever", o.w, o.want, a.Objective)
			}
		}
		switch {
		case a.Status == "infeasible" && o.found:
			settled++ // ours was accepted on the printed amounts
			keep(t, named(i), "the other solver calls it infeasible", o.w, o.want, &o.value)
		case a.Status == "infeasible":
			agreed++
			none++
		case !o.found:
			t.Errorf("program %d: CBC finds %g, ours nothing in %d nodes", i, *a.Objective, o.nodes)
		case o.value > *a.Objective*(1+optimalityGap)+1e-4 && o.proved:
			t.Errorf("program %d: CBC %g, ours %g (%d nodes)", i, *a.Objective, o.value, o.nodes)
		case o.value < *a.Objective-1e-5*(1+*a.Objective):
			settled++ // likewise
			keep(t, named(i), "the other solver's optimum is not the best", o.w, o.want, &o.value)
		case o.bound > *a.Objective+1e-5*(1+*a.Objective):
			t.Errorf("program %d: CBC finds %g, ours proves that nothing is under %g", i, *a.Objective, o.bound)
		default:
			agreed++
		}
	}
	t.Logf("%d programs: %d agree (%d of them that there is no answer), %d settled on the printed amounts, CBC gave no answer in %d; %d nodes on average, %d not proved; plain rounding breaks a limit in %d of %d",
		len(programs), agreed, none, settled, noAnswer, nodes/len(programs), unproved, broken, roundedOf)
	if agreed < wanted*8/10 {
		t.Errorf("only %d of %d compared", agreed, wanted)
	}
}

func valueIf(found bool, v float64) *float64 {
	if !found {
		return nil
	}
	return &v
}

// keepsLimits says whether whole steps keep every row of a weighing but the one
// for the even serving.
func keepsLimits(w *weighing, steps []float64) bool {
	for i, r := range w.p.rows {
		sum := 0.0
		for k, c := range w.cols {
			sum += w.rows[i].a[k] * steps[k] * c.step
		}
		if sum < w.rows[i].lower-limitTol*r.size || sum > w.rows[i].upper+limitTol*r.size {
			return false
		}
	}
	return true
}
