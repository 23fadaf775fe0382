package lp

import "math"

// verify checks an answer on the unscaled program: rows and columns within their
// bounds, and the duals' bound equal to the objective.
func (s *Solver) verify(res *Result) bool { return Verify(&s.p, res) }

// Verify says whether an answer keeps every bound of the program and is proved
// the best by its duals, to verifyTol relative to the terms of each sum.
func Verify(p *Problem, res *Result) bool {
	if Residual(p, res.X) > verifyTol {
		return false
	}
	bound, size := dualBound(p, res.Duals)
	for j, x := range res.X {
		size = max(size, math.Abs(p.Cost[j]*x))
	}
	return math.Abs(res.Objective-bound) <= verifyTol*size || size == 0
}

// Residual returns the largest violation of a bound by x, each relative to the
// bound or, for zero, to the largest term of its row.
func Residual(p *Problem, x []float64) float64 {
	worst := 0.0
	outside := func(v, lo, hi, size float64) {
		if v < lo {
			worst = max(worst, (lo-v)/max(math.Abs(lo), size))
		}
		if v > hi {
			worst = max(worst, (v-hi)/max(math.Abs(hi), size))
		}
	}
	for j := range x {
		outside(x[j], p.Lower[j], p.Upper[j], 1e-12)
	}
	for _, r := range p.Rows {
		sum, size := 0.0, 1e-300
		for j, a := range r.A {
			sum += a * x[j]
			size = max(size, math.Abs(a*x[j]))
		}
		outside(sum, r.Lower, r.Upper, size)
	}
	return worst
}

// dualBound returns the bound that the row multipliers prove for the objective,
// leaving out reduced costs that are rounding, and the size of its terms.
func dualBound(p *Problem, y []float64) (bound, size float64) {
	add := func(v float64) {
		bound += v
		size = max(size, math.Abs(v))
	}
	for i, r := range p.Rows {
		switch {
		case y[i] > 0:
			add(y[i] * r.Lower)
		case y[i] < 0:
			add(y[i] * r.Upper)
		}
	}
	reduced, terms := make([]float64, len(p.Cost)), make([]float64, len(p.Cost))
	for j, c := range p.Cost {
		reduced[j], terms[j] = c, math.Abs(c)
	}
	for i, r := range p.Rows {
		if y[i] == 0 {
			continue
		}
		for j, a := range r.A {
			if v := y[i] * a; v != 0 {
				reduced[j] -= v
				terms[j] = max(terms[j], math.Abs(v))
			}
		}
	}
	for j, d := range reduced {
		if math.Abs(d) <= proofNoise*terms[j] {
			continue
		}
		at := p.Lower[j]
		if d < 0 {
			at = p.Upper[j]
		}
		if math.IsInf(at, 0) && math.Abs(d) <= dualTol*terms[j] {
			continue
		}
		if at != 0 {
			add(d * at)
		}
	}
	return bound, size
}

// proof returns cleaned multipliers that prove, on the unscaled program, that no
// x keeps all bounds, or nil.
func (s *Solver) proof(y []float64) []float64 {
	if z := s.cleaned(y); Proves(&s.p, z) {
		return z
	}
	return nil
}

// exactProof is proof where the two ranges are too near for rounded arithmetic.
func (s *Solver) exactProof(y []float64) []float64 {
	for _, z := range [][]float64{s.cleaned(y), y} {
		if ExactlyProves(&s.p, z) {
			return z
		}
	}
	return nil
}

// cleaned leaves out the multipliers that are rounding.
func (s *Solver) cleaned(y []float64) []float64 {
	largest := 0.0
	for i, v := range y {
		largest = max(largest, math.Abs(v/s.row[i]))
	}
	z := append([]float64(nil), y...)
	for i := range z {
		if math.Abs(z[i]/s.row[i]) <= farkasDrop*largest {
			z[i] = 0
		}
	}
	return z
}

// Proves says whether the rows, multiplied by y and added up, cannot hold: the
// range of the sum over the rows' bounds does not meet its range over the columns'.
func Proves(p *Problem, y []float64) bool {
	var rows, columns interval
	for i, r := range p.Rows {
		rows.add(y[i], r.Lower, r.Upper)
	}
	for j := range p.Cost {
		g, terms := 0.0, 0.0
		for i, r := range p.Rows {
			g += y[i] * r.A[j]
			terms = max(terms, math.Abs(y[i]*r.A[j]))
		}
		if math.Abs(g) > proofNoise*terms {
			columns.add(g, p.Lower[j], p.Upper[j])
		}
	}
	return apart(rows, columns) || apart(columns, rows)
}

// interval is a sum of ranges; each end keeps its largest term.
type interval struct{ lo, hi, loSize, hiSize float64 }

func (v *interval) add(k, lo, hi float64) {
	if k == 0 {
		return
	}
	a, b := k*lo, k*hi
	if k < 0 {
		a, b = b, a
	}
	v.lo += a
	v.hi += b
	v.loSize = max(v.loSize, math.Abs(a))
	v.hiSize = max(v.hiSize, math.Abs(b))
}

// apart says whether a lies above b by more than the rounding of the sums.
func apart(a, b interval) bool {
	return a.lo-b.hi > farkasGap*max(a.loSize, b.hiSize)
}
