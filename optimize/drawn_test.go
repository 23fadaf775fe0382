package optimize

import (
	"context"
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
