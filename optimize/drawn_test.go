package optimize

import (
	"context"
	"math"
	"math/rand"
	"testing"

	"bowlwright/optimize/lp"
)

// drawn is a program of a drawn household: least violation and, where the hard
// limits can be kept, least add-on.
type drawn struct {
	stages []lp.Problem
}

// drawPrograms draws the programs of plain households and of bent ones (see
// degenerate), as the stages state them.
func drawPrograms(t testing.TB, seed int64, plain, bent int) []drawn {
	t.Helper()
	r := rand.New(rand.NewSource(seed))
	var all []drawn
	for k := range plain + bent {
		h := randomHousehold(r)
		p, err := formulate(h, &h.Pets[0])
		if err != nil || p.rows[0].a[0] <= 0 {
			continue
		}
		if k >= plain {
			s, err := p.stages(context.Background(), nil)
			if err != nil || s.farkas != nil {
				continue
			}
			degenerate(r, p, s.x)
		}
		s, err := p.stages(context.Background(), nil)
		if err != nil {
			t.Errorf("program %d: %v", k, err)
			continue
		}
		d := drawn{stages: []lp.Problem{p.elastic()}}
		if s.farkas == nil {
			d.stages = append(d.stages, s.problem)
		}
		all = append(all, d)
	}
	if len(all) == 0 {
		t.Fatal("no programs were drawn")
	}
	return all
}

// degenerate bends a program so that limits meet at its optimum: caps exactly
// there, rows exactly tight, columns twice and empty, costs of zero.
func degenerate(r *rand.Rand, p *program, x []float64) {
	for j := 1; j < len(p.items); j++ {
		switch r.Intn(6) {
		case 0:
			p.items[j].cap = math.Max(x[j], 1e-3)
		case 1:
			for i := range p.rows {
				p.rows[i].a[j] = 0
			}
		case 2:
			k := 1 + r.Intn(len(p.items)-1)
			for i := range p.rows {
				p.rows[i].a[j] = p.rows[i].a[k]
			}
			p.items[j].cap = p.items[k].cap
		}
	}
	for i := range p.rows {
		row := &p.rows[i]
		sum := 0.0
		for j := range x {
			sum += row.a[j] * x[j]
		}
		if r.Intn(5) == 0 && sum > 0 && row.limit != energyRow {
			if !math.IsInf(row.upper, 1) {
				row.upper = sum
			} else if row.elastic && row.lower > 0 {
				row.lower = sum
			}
		}
	}
}
