package jar

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/optimize/lp"
)

// Mix is a jar and the day of each pet with it.
type Mix struct {
	// Parts are the ids of the powders, Shares what each is of a gram of jar.
	Parts  []string
	Shares []float64
	// Dose is the grams of jar a day for each pet; Day the grams of each of its items
	// beside the jar, the base first; Grams the dose and all direct items.
	Dose  []float64
	Day   [][]float64
	Grams []float64
	Rules Rules
	// problem and x let a bound or a recipe go on from here.
	problem *problem
	x       []float64
}

// Total is the grams of add-on a day of all pets.
func (m *Mix) Total() float64 {
	sum := 0.0
	for _, g := range m.Grams {
		sum += g
	}
	return sum
}

// A ConflictError says that no jar serves a group of pets.
type ConflictError struct {
	// Pets are the names of the fewest pets found that no jar serves together.
	Pets []string
	// Farkas proves it; it is nil where the pets have no powder in common.
	Farkas  []float64
	Problem lp.Problem
}

func (e *ConflictError) Error() string {
	return "no one jar serves " + strings.Join(e.Pets, ", ")
}

// An UnprovedError says that the solver found no answer that passes its checks.
type UnprovedError struct{ Status lp.Status }

func (e *UnprovedError) Error() string {
	return fmt.Sprintf("no verified answer for a jar: %s", e.Status)
}

// Compose finds the jar of least grams for a group of pets. A *ConflictError says that
// there is none.
func Compose(pets []Pet, rules Rules) (*Mix, error) {
	q := formulate(pets, rules)
	if len(q.powders) == 0 {
		return nil, &ConflictError{Pets: names(pets)}
	}
	solver, x, err := q.first()
	if err != nil {
		return nil, err
	}
	x = q.descend(solver, x)
	m, err := q.mix(x)
	if err != nil {
		return nil, err
	}
	// The last of the descent: with these shares each pet's least is a program of its own.
	if exact, ok := m.With(m.Shares); ok && !rules.OneRate && exact.Total() < m.Total() {
		return exact, nil
	}
	return m, nil
}

// names lists the pets of a group.
func names(pets []Pet) []string {
	var all []string
	for _, p := range pets {
		all = append(all, p.Name)
	}
	return all
}

// first solves for the least excess over the pets' own grams per gram of jar: each of
// its terms is at least zero, so it is a good start and a cold dual simplex suits it.
func (q *problem) first() (*lp.Solver, []float64, error) {
	for k, p := range q.pets {
		q.grams(q.lp.Cost, k, 1)
		q.lp.Cost[q.doses[k]] = -p.Least
	}
	solver, err := lp.New(q.lp)
	if err != nil {
		return nil, nil, err
	}
	res := solver.Solve()
	switch res.Status {
	case lp.Optimal:
		return solver, res.X, nil
	case lp.Infeasible:
		return nil, nil, q.conflict(res.Farkas)
	}
	return nil, nil, &UnprovedError{res.Status}
}

// ratio returns the grams of a pet per gram of jar.
func (q *problem) ratio(k int, x []float64) float64 {
	sum := 1.0
	for j := 1; j < len(q.pets[k].Items); j++ {
		if d := q.direct[k][j]; d >= 0 {
			sum += x[d]
		}
	}
	return sum
}

// total returns the grams a day of all pets.
func (q *problem) total(x []float64) float64 {
	sum := 0.0
	for k, s := range q.doses {
		sum += q.ratio(k, x) / x[s]
	}
	return sum
}

// gradient is that of the total at x.
func (q *problem) gradient(x []float64) []float64 {
	cost := make([]float64, len(x))
	for k, s := range q.doses {
		q.grams(cost, k, 1/x[s])
		cost[s] -= q.ratio(k, x) / (x[s] * x[s])
	}
	return cost
}

// descend lowers the total by linear programs of its gradient, each within reach of
// the last answer. Every answer keeps all limits.
func (q *problem) descend(solver *lp.Solver, x []float64) []float64 {
	at := q.total(x)
	reach := firstReach
	for step, stalled := 0, 0; step < mostSteps && stalled < lastReach; step++ {
		solver.SetCost(q.gradient(x))
		for _, s := range q.doses {
			solver.SetColumn(s, max(leastDoses, x[s]*math.Exp(-reach)), min(mostDoses, x[s]*math.Exp(reach)))
		}
		res := solver.Solve()
		if res.Status != lp.Optimal {
			break
		}
		best, found := at, x
		for _, part := range [...]float64{1, 0.5, 0.25, 0.1} {
			y := make([]float64, len(x))
			for j := range x {
				y[j] = x[j] + part*(res.X[j]-x[j])
			}
			if v := q.total(y); v < best {
				best, found = v, y
			}
		}
		if at-best < leastGain*at {
			reach /= reachShrink
			stalled++
		}
		at, x = best, found
	}
	return x
}

// mix reads an answer, and holds it against the limits in the pets' own units.
func (q *problem) mix(x []float64) (*Mix, error) {
	m := &Mix{Parts: q.powders, Shares: slices.Clone(x[:len(q.powders)]), Rules: q.rules, problem: q, x: x}
	for k, p := range q.pets {
		dose := 1 / x[q.doses[k]]
		day := make([]float64, len(p.Items))
		grams := dose
		for j := range day {
			if d := q.direct[k][j]; d >= 0 {
				day[j] = x[d] * dose
			}
			if j > 0 {
				grams += day[j]
			}
		}
		m.Dose, m.Day, m.Grams = append(m.Dose, dose), append(m.Day, day), append(m.Grams, grams)
		if !p.keeps(m.whole(k), p.budget(q.rules.MissMore)) {
			return nil, &UnprovedError{lp.Imprecise}
		}
	}
	return m, nil
}

// whole returns what a pet gets of each item, the jar's parts included.
func (m *Mix) whole(k int) []float64 {
	day := slices.Clone(m.Day[k])
	for j, part := range m.problem.part[k] {
		if part >= 0 {
			day[j] += m.Dose[k] * m.Shares[part]
		}
	}
	return day
}

// budget is what a pet may miss in all.
func (p Pet) budget(more float64) float64 {
	if p.Missed <= notMissed {
		return 0
	}
	return p.Missed + missSliver + more
}

// MissedBy sums what amounts miss of a pet's elastic rows, each in units of its size.
func (p Pet) MissedBy(grams []float64) float64 {
	sum := 0.0
	for _, r := range p.Rows {
		if r.Elastic {
			sum += max(0, (r.Lower-dot(r.A, grams))/r.Size)
		}
	}
	return sum
}

// keeps says whether amounts keep a pet's limits and caps, misses within the budget.
func (p Pet) keeps(grams []float64, budget float64) bool {
	for _, r := range p.Rows {
		v := dot(r.A, grams)
		if v > r.Upper+keptTol*r.Size || !r.Elastic && v < r.Lower-keptTol*r.Size {
			return false
		}
	}
	for j, x := range p.Items {
		if grams[j] < 0 || grams[j] > x.Cap*(1+keptTol)+keptTol {
			return false
		}
	}
	return p.MissedBy(grams) <= budget+keptTol
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for j, v := range a {
		sum += v * b[j]
	}
	return sum
}
