package lp

import (
	"math"
	"math/big"
)

// ExactBound returns, in exact rational arithmetic, the bound that the row
// multipliers y prove for the objective: no x that keeps all bounds has a smaller
// one. It is nil when y proves nothing because a bound it uses is infinite.
func ExactBound(p *Problem, y []float64) *big.Rat {
	if len(y) != len(p.Rows) {
		panic("lp: one multiplier for each row")
	}
	bound, term := new(big.Rat), new(big.Rat)
	add := func(k *big.Rat, at float64) bool {
		if math.IsInf(at, 0) || math.IsNaN(at) {
			return false
		}
		bound.Add(bound, term.Mul(k, new(big.Rat).SetFloat64(at)))
		return true
	}
	multipliers := make([]*big.Rat, len(y))
	for i, r := range p.Rows {
		if y[i] == 0 {
			continue
		}
		multipliers[i] = new(big.Rat).SetFloat64(y[i])
		if multipliers[i] == nil {
			return nil
		}
		at := r.Lower
		if y[i] < 0 {
			at = r.Upper
		}
		if !add(multipliers[i], at) {
			return nil
		}
	}
	for j := range p.Cost {
		reduced := new(big.Rat).SetFloat64(p.Cost[j])
		for i, r := range p.Rows {
			if multipliers[i] != nil && r.A[j] != 0 {
				reduced.Sub(reduced, term.Mul(multipliers[i], new(big.Rat).SetFloat64(r.A[j])))
			}
		}
		at := p.Lower[j]
		if reduced.Sign() < 0 {
			at = p.Upper[j]
		}
		if reduced.Sign() != 0 && !add(reduced, at) {
			return nil
		}
	}
	return bound
}

// ExactlyProves says, in exact rational arithmetic, whether the rows, multiplied by
// y and added up, cannot hold whatever the columns are.
func ExactlyProves(p *Problem, y []float64) bool {
	free := Problem{Cost: make([]float64, len(p.Cost)), Lower: p.Lower, Upper: p.Upper, Rows: p.Rows}
	opposite := make([]float64, len(y))
	for i, v := range y {
		opposite[i] = -v
	}
	for _, z := range [][]float64{y, opposite} {
		if bound := ExactBound(&free, z); bound != nil && bound.Sign() > 0 {
			return true
		}
	}
	return false
}
