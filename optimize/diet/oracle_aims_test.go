package diet

import (
	"math"
	"math/rand"
	"testing"

	"bowlwright/fixtures/outside"
	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize/lsq"
)

// drawnAims draws least-squares problems of households, scaled as they are solved,
// half of them with well-stocked shelves.
func drawnAims(t *testing.T, count int) []lsq.Problem {
	r := rand.New(rand.NewSource(17))
	var all []lsq.Problem
	for len(all) < count {
		draw := [...]func(*rand.Rand) *household.Household{sample.Draw, sample.DrawStocked}[len(all)%2]
		h := draw(r)
		p, err := Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 || len(p.Items) < 2 {
			continue
		}
		s := drawnStages(t, p)
		if s.Farkas != nil {
			continue
		}
		q := p.aimsProblem(s, 1.1*s.LeastG, nil)
		evenColumns(q)
		all = append(all, q)
	}
	return all
}

// The least squares of a household never gives up.
func TestAimsAreAlwaysFound(t *testing.T) {
	for k, q := range drawnAims(t, sample.Count(60, 400)) {
		if _, err := lsq.Solve(q); err != nil {
			t.Errorf("problem %d with %d columns: %v", k, len(q.E[0]), err)
		}
	}
}

// Against a quadratic solver that works by another method, an interior-point one. On
// some of these problems it reaches its own tolerance in no form of them; those are not
// compared.
func TestAimsAgainstQuadraticSolver(t *testing.T) {
	python := outside.Python(t, "cvxopt")
	problems := drawnAims(t, sample.Count(60, 400))
	type question struct {
		E [][]float64 `json:"e"`
		F []float64   `json:"f"`
		G [][]float64 `json:"g"`
		H []float64   `json:"h"`
	}
	type answer struct{ Value *float64 }
	var asked []question
	for _, q := range problems {
		asked = append(asked, question(q))
	}
	compared := 0
	for k, a := range outside.Ask[question, answer](t, python, "../lsq/testdata/quadratic.py", asked) {
		q := problems[k]
		x, err := lsq.Solve(q)
		if err != nil {
			t.Errorf("problem %d: %v", k, err)
			continue
		}
		ours := 0.0
		for i, e := range q.E {
			sum := -q.F[i]
			for j := range e {
				sum += e[j] * x[j]
			}
			ours += sum * sum
		}
		if a.Value == nil {
			continue
		}
		compared++
		if math.Abs(ours-*a.Value) > 1e-6*(1+*a.Value) {
			t.Errorf("problem %d: %.12g, the other solver %.12g", k, ours, *a.Value)
		}
	}
	t.Logf("%d of %d compared", compared, len(problems))
	if compared < len(problems)*9/10 {
		t.Errorf("only %d compared", compared)
	}
}
