package lsq

import (
	"errors"
	"math"
	"math/rand"
	"testing"
)

// An answer must keep its constraints, and no feasible point near it may be better:
// points are drawn at random at distances from 1 to 1e-4.
func TestOptimalityConditions(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for k := range 300 {
		n, rows, cons := 2+r.Intn(6), 10, 3+r.Intn(12)
		inside := make([]float64, n)
		for j := range inside {
			inside[j] = r.NormFloat64()
		}
		p := Problem{}
		for range rows {
			p.E, p.F = append(p.E, normals(r, n)), append(p.F, r.NormFloat64()*3)
		}
		for range cons {
			g := normals(r, n)
			p.G, p.H = append(p.G, g), append(p.H, dot(g, inside)-math.Abs(r.NormFloat64()))
		}
		x, err := Solve(p)
		if err != nil {
			t.Fatalf("problem %d: %v", k, err)
		}
		for i, g := range p.G {
			if dot(g, x) < p.H[i]-1e-8 {
				t.Errorf("problem %d: constraint %d missed by %g", k, i, p.H[i]-dot(g, x))
			}
		}
		at := value(p, x)
		for range 300 {
			y := make([]float64, n)
			step := math.Pow(10, -4*r.Float64())
			for j := range y {
				y[j] = x[j] + step*r.NormFloat64()
			}
			if feasible(p, y) && value(p, y) < at-1e-9 {
				t.Fatalf("problem %d: a better point is near: %g under %g", k, value(p, y), at)
			}
		}
	}
}

func normals(r *rand.Rand, n int) []float64 {
	v := make([]float64, n)
	for j := range v {
		v[j] = r.NormFloat64()
	}
	return v
}

func feasible(p Problem, x []float64) bool {
	for i, g := range p.G {
		if dot(g, x) < p.H[i] {
			return false
		}
	}
	return true
}

func value(p Problem, x []float64) float64 {
	sum := 0.0
	for i, e := range p.E {
		sum += (dot(e, x) - p.F[i]) * (dot(e, x) - p.F[i])
	}
	return sum
}

// Nearest point of the half-plane x + y >= 2 to the origin: (1, 1), by hand.
func TestByHand(t *testing.T) {
	x, err := Solve(Problem{E: [][]float64{{1, 0}, {0, 1}}, F: []float64{0, 0}, G: [][]float64{{1, 1}}, H: []float64{2}})
	if err != nil || math.Abs(x[0]-1) > 1e-12 || math.Abs(x[1]-1) > 1e-12 {
		t.Errorf("got %v, %v", x, err)
	}
}

func TestContradiction(t *testing.T) {
	_, err := Solve(Problem{E: [][]float64{{1}}, F: []float64{0}, G: [][]float64{{1}, {-1}}, H: []float64{2, -1}})
	if !errors.Is(err, ErrInfeasible) {
		t.Errorf("got %v", err)
	}
	_, err = Solve(Problem{E: [][]float64{{1, 1}, {1, 1}}, F: []float64{0, 0}})
	if !errors.Is(err, ErrRank) {
		t.Errorf("got %v", err)
	}
}
