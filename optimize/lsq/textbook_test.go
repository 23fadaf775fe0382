package lsq

import (
	"math"
	"testing"
)

func nonNegative(n int) (g [][]float64, h []float64) {
	for j := range n {
		row := make([]float64, n)
		row[j] = 1
		g, h = append(g, row), append(h, 0)
	}
	return g, h
}

// Documented examples of non-negative least squares, recalled and solved by hand:
// clipping the unconstrained answer to zero would be wrong in the first.
func TestNonNegative(t *testing.T) {
	g, h := nonNegative(2)
	for _, c := range []struct {
		e    [][]float64
		f, x []float64
		rest float64
		tol  float64
	}{
		{e: [][]float64{{0.0372, 0.2868}, {0.6861, 0.7071}, {0.6233, 0.6245}, {0.6344, 0.6170}},
			f: []float64{0.8587, 0.1781, 0.0747, 0.8405}, x: []float64{0, 0.6929}, rest: 0.911892212696, tol: 5e-5},
		{e: [][]float64{{1, 0}, {1, 0}, {0, 1}}, f: []float64{2, 1, 1}, x: []float64{1.5, 1}, rest: math.Sqrt(0.5), tol: 1e-12},
		{e: [][]float64{{1, 0}, {1, 0}, {0, 1}}, f: []float64{-1, -1, -1}, x: []float64{0, 0}, rest: math.Sqrt(3), tol: 1e-12},
	} {
		p := Problem{E: c.e, F: c.f, G: g, H: h}
		x, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		for j := range x {
			if math.Abs(x[j]-c.x[j]) > c.tol {
				t.Errorf("x = %v, want %v", x, c.x)
			}
		}
		if rest := math.Sqrt(value(p, x)); math.Abs(rest-c.rest) > 1e-10 {
			t.Errorf("residual %.13g, want %.13g", rest, c.rest)
		}
	}
}

// Wampler1 of the NIST statistical reference data sets (recalled): an
// ill-conditioned polynomial whose certified coefficients are all one.
func TestIllConditionedPolynomial(t *testing.T) {
	p := Problem{}
	for x := 0.0; x <= 20; x++ {
		row, sum := make([]float64, 6), 0.0
		for k := range row {
			row[k] = math.Pow(x, float64(k))
			sum += row[k]
		}
		p.E, p.F = append(p.E, row), append(p.F, sum)
	}
	p.G, p.H = nonNegative(6)
	b, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	for k, v := range b {
		if math.Abs(v-1) > 1e-7 {
			t.Errorf("coefficient %d is %.12g", k, v)
		}
	}
}
