package weighing

import (
	"context"
	"math"
	"math/rand"
	"os/exec"
	"testing"

	"bowlwright/fixtures/outside"
	"bowlwright/fixtures/sample"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/milp"
)

// The fewest add-ons of drawn households against CBC, on the weighable doses and within
// the same grams: no set that it finds is smaller, and where we say that we searched to
// the end ours is as small as any.
func TestFewestAgainstCBC(t *testing.T) {
	python := outside.Python(t, "json")
	if _, err := exec.LookPath("cbc"); err != nil {
		if sample.Count(0, 1) == 1 {
			t.Fatal("cbc is not installed, and BOWLWRIGHT_ORACLES=1 demands it")
		}
		t.Skip("cbc is not installed")
	}
	r := rand.New(rand.NewSource(515))
	var programs []outside.Program
	var ours, before []int
	var notes []string
	for len(programs) < sample.Count(4, 10) {
		h := sample.DrawStocked(r)
		p, err := diet.Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 {
			continue
		}
		s, err := p.Solve(context.Background(), nil)
		if err != nil {
			t.Fatal(err)
		}
		if s.Farkas != nil || s.Violation > 0 {
			continue
		}
		day, err := Weigh(p, s)
		if err != nil {
			t.Fatal(err)
		}
		if day == nil || p.Missed(day.Grams) > 0 {
			continue
		}
		few, note, err := Fewest(context.Background(), p, s, day)
		if err != nil {
			t.Fatal(err)
		}
		w := NewStepProgram(p, s, DosesFor(p, s.X), true)
		for i := range w.Rows {
			w.Rows[i].Elastic = false
		}
		most := max(p.Kitchen.FewestWithin*s.LeastG, p.Spent(day.Grams))
		q := integerProgram(w, milp.Goal{MaxSpent: most})
		clear(q.Cost)
		for k, j := range w.used {
			if j > 0 {
				q.Cost[len(w.Cols)+3*k+2] = 1
			}
		}
		programs, ours, before, notes = append(programs, q), append(ours, len(used(few))), append(before, len(used(day))), append(notes, note)
	}
	compared, worse := 0, 0
	for i, a := range outside.Ask[outside.Program, outside.Answer](t, python, "../lp/testdata/cbc.py", programs) {
		if a.Status != "optimal" || a.Objective == nil {
			continue
		}
		compared++
		theirs := int(math.Round(*a.Objective))
		t.Logf("%d with the least add-on, %d ours, %d by CBC; %s", before[i], ours[i], theirs, notes[i])
		if ours[i] > theirs {
			worse++
		}
	}
	t.Logf("%d of %d compared, ours is larger in %d", compared, len(programs), worse)
	if compared < len(programs)/2 || worse > compared/4 {
		t.Errorf("%d of %d compared, ours is larger in %d", compared, len(programs), worse)
	}
}
