package diet

import (
	"context"
	"math"
	"math/rand"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/nutrients"
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
		h := sample.Draw(r)
		p, err := Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 {
			continue
		}
		if k >= plain {
			s, err := p.Solve(context.Background(), nil)
			if err != nil || s.Farkas != nil {
				continue
			}
			degenerate(r, p, s.X)
		}
		s, err := p.Solve(context.Background(), nil)
		if err != nil {
			t.Errorf("program %d: %v", k, err)
			continue
		}
		d := drawn{stages: []lp.Problem{p.Elastic()}}
		if s.Farkas == nil {
			d.stages = append(d.stages, s.Problem)
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
func degenerate(r *rand.Rand, p *Program, x []float64) {
	for j := 1; j < len(p.Items); j++ {
		switch r.Intn(6) {
		case 0:
			p.Items[j].Cap = math.Max(x[j], 1e-3)
		case 1:
			for i := range p.Rows {
				p.Rows[i].A[j] = 0
			}
		case 2:
			k := 1 + r.Intn(len(p.Items)-1)
			for i := range p.Rows {
				p.Rows[i].A[j] = p.Rows[i].A[k]
			}
			p.Items[j].Cap = p.Items[k].Cap
		}
	}
	for i := range p.Rows {
		row := &p.Rows[i]
		sum := 0.0
		for j := range x {
			sum += row.A[j] * x[j]
		}
		if r.Intn(5) == 0 && sum > 0 && row.Limit != nutrients.EnergyOfDay {
			if !math.IsInf(row.Upper, 1) {
				row.Upper = sum
			} else if row.Elastic && row.Lower > 0 {
				row.Lower = sum
			}
		}
	}
}
