package lsq

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// The tolerances act on constraints whose normals have length one.
const (
	// violationTol is how far a constraint may be missed.
	violationTol = 1e-11
	// dependentTol is the length of a step direction that counts as none: the
	// normal depends on the active ones.
	dependentTol = 1e-10
	// contradictTol is how far a constraint may be missed that the active ones
	// leave no room for: what rounding makes of constraints that meet in a point.
	contradictTol = 1e-8
	// optimalTol is the largest optimality error of an answer, relative to |f|.
	optimalTol = 1e-7
	// rankTol is the least diagonal of R, relative to the largest.
	rankTol = 1e-12
	// roundsPerRow bounds the steps of the active-set method.
	roundsPerRow = 20
)

// Problem is a least-squares problem; E has at least as many rows as columns and
// full column rank.
type Problem struct {
	E [][]float64
	F []float64
	G [][]float64
	H []float64
}

// The errors of Solve.
var (
	ErrInfeasible = errors.New("the constraints contradict each other")
	ErrRank       = errors.New("the columns of the least-squares matrix depend on each other")
	ErrImprecise  = errors.New("no answer passed the check of its optimality conditions")
)

// Solve returns the minimiser. An answer has passed a check of feasibility,
// stationarity and signs; what does not pass is ErrImprecise.
func Solve(p Problem) ([]float64, error) {
	rows, n := len(p.E), 0
	if rows > 0 {
		n = len(p.E[0])
	}
	if n == 0 || rows < n || len(p.F) != rows || len(p.G) != len(p.H) {
		panic("lsq: the shapes do not fit together")
	}
	e := mat.NewDense(rows, n, nil)
	for i, r := range p.E {
		e.SetRow(i, r)
	}
	var qr mat.QR
	qr.Factorize(e)
	var r mat.Dense
	qr.RTo(&r)
	largest := 0.0
	for j := range n {
		largest = max(largest, math.Abs(r.At(j, j)))
	}
	for j := range n {
		if math.Abs(r.At(j, j)) <= rankTol*largest {
			return nil, ErrRank
		}
	}
	var q mat.Dense
	qr.QTo(&q)
	c := make([]float64, n)
	for j := range n {
		for i := range rows {
			c[j] += q.At(i, j) * p.F[i]
		}
	}
	d := distance{n: n}
	for i, g := range p.G {
		// The normal in z = R x - c solves Rᵀ m = g.
		m := forward(&r, g)
		if err := d.add(m, p.H[i]-dot(m, c)); err != nil {
			return nil, err
		}
	}
	z, err := d.solve()
	if err != nil {
		return nil, err
	}
	for j := range z {
		z[j] += c[j]
	}
	return backward(&r, z), nil
}

// forward solves Rᵀ m = g.
func forward(r *mat.Dense, g []float64) []float64 {
	m := append([]float64(nil), g...)
	for i := range m {
		for k := range i {
			m[i] -= r.At(k, i) * m[k]
		}
		m[i] /= r.At(i, i)
	}
	return m
}

// backward solves R x = z.
func backward(r *mat.Dense, z []float64) []float64 {
	x := append([]float64(nil), z...)
	for i := len(x) - 1; i >= 0; i-- {
		for k := i + 1; k < len(x); k++ {
			x[i] -= r.At(i, k) * x[k]
		}
		x[i] /= r.At(i, i)
	}
	return x
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
