package optimize

import (
	"math"
	"math/bits"
	"math/rand"
	"strings"
	"testing"

	"bowlwright/optimize/lp"
)

// fewestOf runs the choice of the fewest on a program; gaveUp says that it found none.
func fewestOf(t *testing.T, p *program) (res lp.Result, size int, gaveUp bool) {
	t.Helper()
	s, solver, err := p.leastAddon()
	if err != nil {
		t.Fatal(err)
	}
	res, out := p.fewest(solver, s.problem, lp.Result{Status: lp.Optimal, X: s.x, Objective: s.least})
	for j := 1; j < len(p.items); j++ {
		if !out[j] && s.problem.Upper[j] > 0 {
			size++
		}
	}
	for _, n := range p.notes {
		gaveUp = gaveUp || strings.HasPrefix(n, "there are too many ways")
	}
	return res, size, gaveUp
}

// On small shelves against all subsets, one by one, each solved by itself.
func TestFewestAgainstAllSubsets(t *testing.T) {
	r := rand.New(rand.NewSource(41))
	sizes := map[int]int{}
	for checked := 0; checked < 150; {
		h := wellStocked(r)
		r.Shuffle(len(h.Addons), func(i, j int) { h.Addons[i], h.Addons[j] = h.Addons[j], h.Addons[i] })
		h.Addons = h.Addons[:min(len(h.Addons), 3+r.Intn(7))]
		p, err := formulate(h, &h.Pets[0])
		if err != nil || p.rows[0].a[0] <= 0 {
			continue
		}
		s, _, err := p.leastAddon()
		if err != nil {
			t.Fatal(err)
		}
		if s.farkas != nil {
			continue
		}
		checked++
		got, size, gaveUp := fewestOf(t, p)
		if gaveUp {
			t.Errorf("gave up on %d items", len(p.items)-1)
			continue
		}
		wantSize, wantGrams := len(p.items), math.Inf(1)
		for set := range uint(1) << (len(p.items) - 1) {
			if bits.OnesCount(set) > wantSize {
				continue
			}
			q := s.problem
			q.Upper = append([]float64(nil), q.Upper...)
			for j := 1; j < len(p.items); j++ {
				if set>>(j-1)&1 == 0 {
					q.Upper[j] = 0
				}
			}
			solver, err := lp.New(q)
			if err != nil {
				t.Fatal(err)
			}
			res := solver.Solve()
			if res.Status != lp.Optimal || lp.Residual(&q, res.X) > feasibleTol {
				continue
			}
			if n := bits.OnesCount(set); n < wantSize || res.Objective < wantGrams {
				wantSize, wantGrams = n, res.Objective
			}
		}
		sizes[wantSize]++
		if size != wantSize || math.Abs(got.Objective-wantGrams) > 1e-6*(1+wantGrams) {
			t.Errorf("%d items with %g g, of all subsets the best has %d with %g g", size, got.Objective, wantSize, wantGrams)
		}
	}
	t.Logf("programs by the number of items needed: %v", sizes)
	if len(sizes) < 4 {
		t.Errorf("the programs are too much alike: %v", sizes)
	}
}

// On whole shelves it hardly ever gives up.
func TestFewestOnWholeShelves(t *testing.T) {
	r := rand.New(rand.NewSource(43))
	checked, gaveUp, items := 0, 0, 0
	for checked < 40 {
		h := randomHousehold(r)
		p, err := formulate(h, &h.Pets[0])
		if err != nil || p.rows[0].a[0] <= 0 || len(p.items) < 10 {
			continue
		}
		if s, _, err := p.leastAddon(); err != nil || s.farkas != nil {
			continue
		}
		checked++
		items += len(p.items) - 1
		if _, _, up := fewestOf(t, p); up {
			gaveUp++
		}
	}
	t.Logf("gave up on %d of %d shelves of %.0f items", gaveUp, checked, float64(items)/float64(checked))
	if gaveUp > checked/20 {
		t.Errorf("gave up on %d of %d", gaveUp, checked)
	}
}
