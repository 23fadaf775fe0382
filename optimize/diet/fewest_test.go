package diet

import (
	"math"
	"math/bits"
	"math/rand"
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/optimize/lp"
)

// FewestOf runs the choice of the fewest on a program; gaveUp says that it found none.
func FewestOf(t *testing.T, p *Program) (res lp.Result, size int, gaveUp bool) {
	t.Helper()
	s, solver, err := p.LeastAddon()
	if err != nil {
		t.Fatal(err)
	}
	res, out := p.fewest(solver, s.Problem, lp.Result{Status: lp.Optimal, X: s.X, Objective: s.LeastG})
	for j := 1; j < len(p.Items); j++ {
		if !out[j] && s.Problem.Upper[j] > 0 {
			size++
		}
	}
	for _, n := range p.Notes {
		gaveUp = gaveUp || strings.HasPrefix(n, "there are too many ways")
	}
	return res, size, gaveUp
}

// On small shelves against all subsets, one by one, each solved by itself.
func TestFewestAgainstAllSubsets(t *testing.T) {
	r := rand.New(rand.NewSource(41))
	sizes := map[int]int{}
	for checked := 0; checked < sample.Count(25, 150); {
		h := sample.DrawStocked(r)
		r.Shuffle(len(h.Addons), func(i, j int) { h.Addons[i], h.Addons[j] = h.Addons[j], h.Addons[i] })
		h.Addons = h.Addons[:min(len(h.Addons), 3+r.Intn(7))]
		p, err := Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 {
			continue
		}
		s, _, err := p.LeastAddon()
		if err != nil {
			t.Fatal(err)
		}
		if s.Farkas != nil {
			continue
		}
		checked++
		got, size, gaveUp := FewestOf(t, p)
		if gaveUp {
			t.Errorf("gave up on %d items", len(p.Items)-1)
			continue
		}
		wantSize, wantGrams := len(p.Items), math.Inf(1)
		for set := range uint(1) << (len(p.Items) - 1) {
			if bits.OnesCount(set) > wantSize {
				continue
			}
			q := s.Problem
			q.Upper = append([]float64(nil), q.Upper...)
			for j := 1; j < len(p.Items); j++ {
				if set>>(j-1)&1 == 0 {
					q.Upper[j] = 0
				}
			}
			solver, err := lp.New(q)
			if err != nil {
				t.Fatal(err)
			}
			res := solver.Solve()
			if res.Status != lp.Optimal || lp.Residual(&q, res.X) > FeasibleTol {
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
	for checked < sample.Count(15, 40) {
		h := sample.Draw(r)
		p, err := Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 || len(p.Items) < 10 {
			continue
		}
		if s, _, err := p.LeastAddon(); err != nil || s.Farkas != nil {
			continue
		}
		checked++
		items += len(p.Items) - 1
		if _, _, up := FewestOf(t, p); up {
			gaveUp++
		}
	}
	t.Logf("gave up on %d of %d shelves of %.0f items", gaveUp, checked, float64(items)/float64(checked))
	if gaveUp > checked/20 {
		t.Errorf("gave up on %d of %d", gaveUp, checked)
	}
}
