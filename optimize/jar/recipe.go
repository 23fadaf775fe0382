package jar

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"bowlwright/optimize/lp"
)

// Recipe is a jar in whole steps of a scale.
type Recipe struct {
	// Mix has the shares of the recipe, and days that suit them.
	Mix *Mix
	// StepG is the step in grams, Steps the whole steps of each of the mix's parts,
	// MakesG the grams in all.
	StepG  float64
	Steps  []int
	MakesG float64
}

// ErrTooFine says that a mix has no recipe in whole steps at the weight asked for.
var ErrTooFine = errors.New("the scale is too coarse for this mix")

// Recipe turns a mix into whole steps of a scale, of a weight in grams or a little more: each part is
// left out or at least StepsToWeigh steps, and every pet still keeps its limits, inside
// by the share room of each, so that whole steps of the doses find room too. The error
// is ErrTooFine where no recipe was found.
func (m *Mix) Recipe(step, grams, room float64) (*Recipe, error) {
	rules := m.Rules
	rules.Margin += room
	near, err := Compose(m.problem.pets, rules)
	if isNone(err) {
		return nil, ErrTooFine
	}
	if err != nil {
		return nil, err
	}
	for _, reach := range recipeReaches {
		r, err := newWhole(near, step, grams, reach).search()
		if err != ErrTooFine {
			return r, err
		}
	}
	return nil, ErrTooFine
}

// whole is the search for a recipe: the program of the jar with its columns times the
// weight of the mix, so that a part's column is its grams.
type whole struct {
	near   *Mix
	solver *lp.Solver
	q      *problem
	// step and grams are those asked for.
	step, grams float64
	nodes       int
	tried       map[string]bool
	best        *Recipe
	value       float64
}

func newWhole(near *Mix, step, grams, reach float64) *whole {
	q := formulate(near.problem.pets, near.Rules)
	w := &whole{near: near, q: q, step: step, grams: grams, value: math.Inf(1), tried: map[string]bool{}}
	// "One gram of jar" in a row is the weight of the mix.
	for i, r := range q.lp.Rows {
		if q.of[i] < 0 {
			q.lp.Rows[i].Lower, q.lp.Rows[i].Upper = grams, grams*(1+mixRoom)
		} else if r.Upper == -1 {
			for k := range q.powders {
				r.A[k]++
			}
			q.lp.Rows[i].Upper = 0
		}
	}
	for k, s := range q.doses {
		at := near.x[s] * grams
		q.lp.Lower[s], q.lp.Upper[s] = at*math.Exp(-reach), at*math.Exp(reach)
		q.grams(q.lp.Cost, k, 1/at)
		for part := range q.powders {
			q.lp.Cost[part] += 1 / at
		}
		q.lp.Cost[s] = -near.Grams[k] / at
	}
	for k := range q.powders {
		q.lp.Upper[k] = grams * (1 + mixRoom)
	}
	return w
}

// steps is a range of whole steps for each part.
type steps struct{ lo, hi []float64 }

// search branches on the parts, depth first and nearest first.
func (w *whole) search() (*Recipe, error) {
	grams := make([]float64, len(w.q.powders))
	root := steps{make([]float64, len(grams)), make([]float64, len(grams))}
	for k := range grams {
		root.hi[k] = math.Floor(w.q.lp.Upper[k] / w.step)
	}
	solver, err := lp.New(w.q.lp)
	if err != nil {
		return nil, err
	}
	w.solver = solver
	base := w.near.Total()
	scaled := make([]float64, len(grams))
	for k := range grams {
		scaled[k] = w.near.Shares[k] * w.grams
	}
	w.try(scaled)
	open := []steps{root}
	for len(open) > 0 && w.nodes < recipeNodes && w.value > base*(1+recipeGap) {
		at := open[len(open)-1]
		open = open[:len(open)-1]
		w.nodes++
		for k := range at.lo {
			w.solver.SetColumn(k, at.lo[k]*w.step, at.hi[k]*w.step)
		}
		res := w.solver.Solve()
		// The total is taken for its tangent at the mix: good enough to order by.
		if res.Status == lp.Infeasible || res.X == nil || base+res.Objective >= w.value*(1-recipeGap) {
			continue
		}
		w.try(res.X)
		open = append(open, w.divide(at, res.X)...)
	}
	if w.best == nil {
		return nil, ErrTooFine
	}
	return w.best, nil
}

// try rounds the parts of an answer and keeps them where the pets find days for them.
func (w *whole) try(x []float64) {
	r := &Recipe{StepG: w.step}
	shares := make([]float64, len(w.q.powders))
	for k := range shares {
		n := math.Round(x[k] / w.step)
		if n < StepsToWeigh {
			n = 0
			if x[k] > StepsToWeigh*w.step/2 {
				n = StepsToWeigh
			}
		}
		r.Steps = append(r.Steps, int(n))
		shares[k] = n * w.step
		r.MakesG += shares[k]
	}
	if name := fmt.Sprint(r.Steps); r.MakesG == 0 || w.tried[name] {
		return
	} else {
		w.tried[name] = true
	}
	for k := range shares {
		shares[k] /= r.MakesG
	}
	mix, ok := w.near.With(shares)
	if ok && mix.Total() < w.value {
		r.Mix, w.best, w.value = mix, r, mix.Total()
	}
}

// divide splits a range at the part that is farthest from whole; none where all are.
func (w *whole) divide(at steps, x []float64) []steps {
	worst, most := -1, wholeTol
	for k := range at.lo {
		v := x[k] / w.step
		off := math.Abs(v-math.Round(v)) / max(v, 1)
		if v > wholeTol && v < StepsToWeigh-wholeTol {
			off = 1
		}
		if at.lo[k] < at.hi[k] && off > most {
			worst, most = k, off
		}
	}
	if worst < 0 {
		return nil
	}
	under, over := steps{slices.Clone(at.lo), slices.Clone(at.hi)}, steps{slices.Clone(at.lo), slices.Clone(at.hi)}
	v := x[worst] / w.step
	if v < StepsToWeigh {
		under.hi[worst], over.lo[worst] = 0, StepsToWeigh
	} else {
		under.hi[worst], over.lo[worst] = math.Floor(v), math.Floor(v)+1
	}
	var parts []steps
	for _, part := range []steps{over, under} {
		if part.lo[worst] <= part.hi[worst] {
			parts = append(parts, part)
		}
	}
	if len(parts) == 2 && (v < StepsToWeigh && v >= StepsToWeigh/2 || v >= StepsToWeigh && v-math.Floor(v) > 0.5) {
		parts[0], parts[1] = parts[1], parts[0]
	}
	return parts
}
