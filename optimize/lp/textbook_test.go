package lp

import (
	"math"
	"testing"
)

// Textbook diet problems. Costs and densities by food; lower limits by row.
func TestTextbooks(t *testing.T) {
	inf := math.Inf(1)
	cases := []struct {
		name      string
		source    string
		cost      []float64
		upper     float64
		uppers    []float64
		rows      [][]float64
		lower     []float64
		rowUpper  float64
		objective float64
		x         []float64
	}{
		{
			name:   "six foods with serving limits",
			source: "V. Chvatal, Linear Programming, Freeman 1983, pp.3-5; three of the serving limits and the printed optimum recalled",
			cost:   []float64{3, 24, 13, 9, 20, 19}, uppers: []float64{4, 3, 2, 8, 2, 2},
			rows: [][]float64{{110, 205, 160, 160, 420, 260}, {4, 32, 13, 8, 4, 14}, {2, 12, 54, 285, 22, 80}}, lower: []float64{2000, 55, 800}, rowUpper: inf,
			objective: 92.5, x: []float64{4, 0, 0, 4.5, 2, 0},
		},
		{
			name:   "the same without serving limits",
			source: "data as above; optimum by an exact rational solve, 44200/3103 and 8400/3103 servings",
			cost:   []float64{3, 24, 13, 9, 20, 19}, upper: inf,
			rows: [][]float64{{110, 205, 160, 160, 420, 260}, {4, 32, 13, 8, 4, 14}, {2, 12, 54, 285, 22, 80}}, lower: []float64{2000, 55, 800}, rowUpper: inf,
			objective: (3*44200 + 9*8400) / 3103.0, x: []float64{44200 / 3103.0, 0, 0, 8400 / 3103.0, 0, 0},
		},
		{
			name:   "eight dinners, vitamins between limits",
			source: "Fourer, Gay, Kernighan, AMPL, ch. 2, fig. 2-1 and 2-2; printed optimum recalled",
			cost:   []float64{3.19, 2.59, 2.29, 2.89, 1.89, 1.99, 1.99, 2.49}, upper: 100,
			rows: [][]float64{{60, 8, 8, 40, 15, 70, 25, 60}, {20, 0, 10, 40, 35, 30, 50, 20},
				{10, 20, 15, 35, 15, 15, 25, 15}, {15, 20, 10, 10, 15, 15, 15, 10}}, lower: []float64{700, 700, 700, 700}, rowUpper: 10000,
			objective: 88.2, x: []float64{0, 0, 0, 0, 46.0 + 2.0/3, 0, 0, 0},
		},
		{
			name:   "six foods by the pound",
			source: "G. B. Dantzig, Linear Programming and Extensions, 1963, p.118, as quoted; optimum by an exact rational solve",
			cost:   []float64{0.3, 1, 0.05, 0.08, 0.23, 0.48}, upper: inf,
			rows:  [][]float64{{1254, 1457, 318, 46, 309, 1725}, {39, 73, 8, 4, 16, 43}, {418, 41, 42, 141, 536, 0}, {0, 0, 70, 860, 720, 0}},
			lower: []float64{3000, 70, 800, 500}, rowUpper: inf,
			objective: (0.05*45360 + 0.23*4280) / 5249, x: []float64{0, 0, 45360 / 5249.0, 0, 4280 / 5249.0, 0},
		},
	}
	for _, c := range cases {
		p := Problem{Cost: c.cost, Lower: make([]float64, len(c.cost)), Upper: c.uppers}
		if p.Upper == nil {
			for range c.cost {
				p.Upper = append(p.Upper, c.upper)
			}
		}
		for i, a := range c.rows {
			p.Rows = append(p.Rows, Row{A: a, Lower: c.lower[i], Upper: c.rowUpper})
		}
		res := mustSolve(t, p)
		if res.Status != Optimal || math.Abs(res.Objective-c.objective) > 1e-9*c.objective {
			t.Errorf("%s (%s): %v, %.12g, want %.12g", c.name, c.source, res.Status, res.Objective, c.objective)
			continue
		}
		for j := range c.x {
			if math.Abs(res.X[j]-c.x[j]) > 1e-9 {
				t.Errorf("%s: x[%d] = %.12g, want %.12g", c.name, j, res.X[j], c.x[j])
			}
		}
		exact := ExactBound(&p, res.Duals)
		if exact == nil {
			continue // a reduced cost that is rounding meets an infinite bound
		}
		if bound, _ := exact.Float64(); math.Abs(bound-c.objective) > 1e-9*c.objective {
			t.Errorf("%s: the duals prove %.12g", c.name, bound)
		}
	}
}

// Duals are what the optimum does when a bound moves a little.
func TestDualsAreSlopes(t *testing.T) {
	p := Problem{Cost: []float64{3, 24, 13, 9, 20, 19}, Lower: make([]float64, 6), Upper: []float64{4, 3, 2, 8, 2, 2}, Rows: []Row{
		{A: []float64{110, 205, 160, 160, 420, 260}, Lower: 2000, Upper: math.Inf(1)},
		{A: []float64{4, 32, 13, 8, 4, 14}, Lower: 55, Upper: math.Inf(1)},
		{A: []float64{2, 12, 54, 285, 22, 80}, Lower: 800, Upper: math.Inf(1)}}}
	at := mustSolve(t, p)
	const h = 1e-3
	for i := range p.Rows {
		q := p
		q.Rows = append([]Row(nil), p.Rows...)
		q.Rows[i].Lower += h
		if slope := (mustSolve(t, q).Objective - at.Objective) / h; math.Abs(slope-at.Duals[i]) > 1e-6 {
			t.Errorf("row %d: slope %g, dual %g", i, slope, at.Duals[i])
		}
	}
}
