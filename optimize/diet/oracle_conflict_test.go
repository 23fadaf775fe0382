package diet

import (
	"context"
	"math"
	"math/rand"
	"os"
	"testing"

	"bowlwright/fixtures/outside"
	"bowlwright/fixtures/sample"
	"bowlwright/optimize/lp"
)

// Conflicts of drawn households against HiGHS: the set cannot hold together, and
// without any one of its limits the rest can.
func TestConflictsAreIrreducible(t *testing.T) {
	python := outside.Python(t, "scipy")
	wanted := 15
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		wanted = 600
	}
	var programs []outside.Program
	var expect []string
	sizes := 0
	r := rand.New(rand.NewSource(31))
	for sets := 0; sets < wanted; {
		h := sample.Draw(r)
		p, err := Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 || p.Rows[0].Upper <= 0 {
			continue
		}
		s, err := p.Solve(context.Background(), nil)
		// What is missed by a hair is a matter of tolerances.
		if err != nil || s.Farkas == nil && s.Violation < 1e-4 {
			continue
		}
		rows, caps := p.Irreducible(s.Farkas == nil)
		var members []func(*lp.Problem)
		for i, row := range p.Rows {
			if rows[i] {
				members = append(members, func(q *lp.Problem) {
					a := make([]float64, len(row.A))
					for j := range a {
						a[j] = row.A[j] / row.Size
					}
					q.Rows = append(q.Rows, lp.Row{A: a, Lower: row.Lower / row.Size, Upper: row.Upper / row.Size})
				})
			}
		}
		for j := range caps {
			if caps[j] {
				members = append(members, func(q *lp.Problem) { q.Upper[j] = p.Items[j].Cap })
			}
		}
		if len(members) == 0 {
			t.Errorf("a pet that is not met has no conflict")
			break
		}
		sets++
		sizes += len(members)
		for without := -1; without < len(members); without++ {
			q := lp.Problem{Cost: make([]float64, len(p.Items)), Upper: make([]float64, len(p.Items))}
			for j := range q.Upper {
				q.Upper[j] = math.Inf(1)
			}
			for k, put := range members {
				if k != without {
					put(&q)
				}
			}
			if len(q.Rows) == 0 {
				continue
			}
			programs = append(programs, outside.Of(q))
			if without < 0 {
				expect = append(expect, "infeasible")
			} else {
				expect = append(expect, "optimal")
			}
		}
	}
	wrong := 0
	for i, a := range outside.Ask[outside.Program, outside.Answer](t, python, "../lp/testdata/highs.py", programs) {
		if a.Status != expect[i] {
			wrong++
		}
	}
	t.Logf("%d conflicts, %.1f limits on average, %d programs, %d judged otherwise", wanted, float64(sizes)/float64(wanted), len(programs), wrong)
	// The other solver drops coefficients under 1e-9.
	if wrong > wanted/100 {
		t.Errorf("%d of %d programs judged otherwise", wrong, len(programs))
	}
}
