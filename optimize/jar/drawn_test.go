package jar

import (
	"errors"
	"math"
	"math/rand"
	"os"
	"slices"
	"testing"

	"bowlwright/optimize/lp"
)

// drawn draws a household around the frozen pets: each is one of them grown or shrunk,
// with limits moved by up to a third and some powders it may not have.
func drawn(t testing.TB, r *rand.Rand, from []Pet, n int) []Pet {
	t.Helper()
	var pets []Pet
	for len(pets) < n {
		p := from[r.Intn(len(from))]
		p.Name += string(rune('A' + len(pets)))
		p.Items, p.Rows = slices.Clone(p.Items), slices.Clone(p.Rows)
		size := math.Exp(1.5 * (r.Float64() - 0.5))
		for j := range p.Items {
			p.Items[j].Cap *= size
			if j > 0 && r.Intn(12) == 0 {
				p.Items[j].Cap = 0
			}
		}
		for i := range p.Rows {
			row := &p.Rows[i]
			row.Lower, row.Upper, row.Size = row.Lower*size, row.Upper*size, row.Size*size
			if row.Elastic && row.Lower > 0 {
				row.Lower *= 0.8 + 0.5*r.Float64()
			}
		}
		if alone(t, &p) {
			pets = append(pets, p)
		}
	}
	return pets
}

// alone works out what a pet misses and needs with a premix of its own; false where its
// hard limits cannot be kept.
func alone(t testing.TB, p *Pet) bool {
	t.Helper()
	n := len(p.Items)
	q := lp.Problem{}
	add := func(cost, upper float64) {
		q.Cost, q.Lower, q.Upper = append(q.Cost, cost), append(q.Lower, 0), append(q.Upper, upper)
	}
	for _, x := range p.Items {
		add(0, x.Cap)
	}
	for range p.Rows {
		add(1, 1e3)
	}
	missed := lp.Row{A: make([]float64, len(q.Cost)), Lower: -none, Upper: none}
	for i, r := range p.Rows {
		a := make([]float64, len(q.Cost))
		for j, v := range r.A {
			a[j] = v / r.Size
		}
		if r.Elastic {
			a[n+i], missed.A[n+i] = 1, 1
		} else {
			q.Upper[n+i] = 0
		}
		q.Rows = append(q.Rows, lp.Row{A: a, Lower: r.Lower / r.Size, Upper: r.Upper / r.Size})
	}
	q.Rows = append(q.Rows, missed)
	s, err := lp.New(q)
	if err != nil {
		t.Fatal(err)
	}
	res := s.Solve()
	if res.Status != lp.Optimal {
		return false
	}
	if p.Missed = res.Objective; p.Missed <= notMissed {
		p.Missed = 0
		s.SetRow(len(q.Rows)-1, -none, 0)
	} else {
		s.SetRow(len(q.Rows)-1, -none, p.Missed+missSliver)
	}
	cost := make([]float64, len(q.Cost))
	for j := 1; j < n; j++ {
		cost[j] = 1
	}
	s.SetCost(cost)
	if res = s.Solve(); res.Status != lp.Optimal {
		return false
	}
	p.Least = res.Objective
	return true
}

// draws is how many households a test draws.
func draws(few, many int) int {
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		return many
	}
	return few
}

// Every jar keeps what it promises: limits in the pets' own units, shares that are a
// whole, grams that are the dose and what is given directly, nobody under its own least.
func TestDrawnJars(t *testing.T) {
	from := frozen(t)
	r := rand.New(rand.NewSource(16))
	served := 0
	for k := range draws(6, 60) {
		pets := drawn(t, r, from, 2+r.Intn(5))
		m, err := Choose(pets, Rules{})
		if err != nil {
			var none *ConflictError
			if !errors.As(err, &none) {
				t.Errorf("household %d: %v", k, err)
			} else if none.Farkas != nil && !lp.Proves(&none.Problem, none.Farkas) {
				t.Errorf("household %d: the proof does not hold", k)
			}
			continue
		}
		served++
		for p, pet := range pets {
			whole := m.whole(p)
			for _, row := range pet.Rows {
				v := 0.0
				for j, a := range row.A {
					v += a * whole[j]
				}
				if v > row.Upper+1e-6*row.Size || !row.Elastic && v < row.Lower-1e-6*row.Size {
					t.Errorf("household %d, %s: a limit is broken", k, pet.Name)
				}
			}
			if more := pet.MissedBy(whole) - pet.Missed; more > missSliver+m.Rules.MissMore+1e-6 || pet.Missed == 0 && more > 1e-6 {
				t.Errorf("household %d, %s misses %.4f more than alone", k, pet.Name, more)
			}
			if m.Grams[p] < pet.ownLeast(m.Rules.MissMore)-1e-6 {
				t.Errorf("household %d, %s gets less than its least", k, pet.Name)
			}
		}
		if b := m.Bound(5); b > m.Total()*(1+1e-6) {
			t.Errorf("household %d: bound %.4f over %.4f", k, b, m.Total())
		}
	}
	if served < 4 {
		t.Errorf("only %d households were served", served)
	}
}

// From other corners of the program the descent ends no lower.
func TestDescentFromOtherStarts(t *testing.T) {
	from := frozen(t)
	r := rand.New(rand.NewSource(50))
	for k := range draws(6, 15) {
		pets := drawn(t, r, from, 2+r.Intn(5))
		m, err := Compose(pets, Rules{})
		if err != nil {
			continue
		}
		for range 6 {
			q := formulate(pets, Rules{})
			solver, _, err := q.first()
			if err != nil {
				t.Fatal(err)
			}
			cost := make([]float64, len(q.lp.Cost))
			for p, s := range q.doses {
				weight := r.Float64()
				q.grams(cost, p, weight)
				cost[s] = -weight * pets[p].Least
			}
			for part := range q.powders {
				cost[part] = r.Float64() - 0.5
			}
			solver.SetCost(cost)
			res := solver.Solve()
			if res.Status != lp.Optimal {
				continue
			}
			if v := q.total(q.descend(solver, res.X)); v < m.Total()*0.999 {
				t.Errorf("household %d: %.4f g from another start, %.4f from the first", k, v, m.Total())
			}
		}
	}
}

// Merging comes as near as half a per cent to the best of all divisions.
func TestMergingAgainstAllDivisions(t *testing.T) {
	from := frozen(t)
	r := rand.New(rand.NewSource(6))
	for k := range draws(2, 6) {
		n := 4
		if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
			n = 3 + r.Intn(3)
		}
		pets := drawn(t, r, from, n)
		all, err := Merge(pets, Rules{}, 1)
		if err != nil {
			t.Fatal(err)
		}
		known := &merger{pets: pets, known: map[string]*Mix{}}
		best := map[int]float64{}
		divisions(n, func(groups [][]int) {
			sum := 0.0
			for _, g := range groups {
				mix, err := known.mix(g)
				if err != nil {
					t.Fatal(err)
				}
				if mix == nil {
					return
				}
				sum += mix.Total()
			}
			if b, ok := best[len(groups)]; !ok || sum < b {
				best[len(groups)] = sum
			}
		})
		for _, groups := range all {
			if got := Total(groups); got > best[len(groups)]*1.005 {
				t.Errorf("household %d, %d jars: %.3f g by merging, %.3f by the best division", k, len(groups), got, best[len(groups)])
			}
		}
		if len(best) != len(all) {
			t.Errorf("household %d: merging ends at %d jars of %d divisions", k, len(all), len(best))
		}
	}
}

// divisions calls with every division of n things into groups.
func divisions(n int, call func([][]int)) {
	var put func(at int, groups [][]int)
	put = func(at int, groups [][]int) {
		if at == n {
			call(groups)
			return
		}
		for g := range groups {
			next := slices.Clone(groups)
			next[g] = append(slices.Clone(groups[g]), at)
			put(at+1, next)
		}
		put(at+1, append(slices.Clone(groups), []int{at}))
	}
	put(0, nil)
}

// Most drawn households have a recipe in hundredths of a gram that costs a hundredth.
func TestDrawnRecipes(t *testing.T) {
	from := frozen(t)
	r := rand.New(rand.NewSource(10))
	var costs []float64
	none := 0
	for range draws(8, 18) {
		pets := drawn(t, r, from, 2+r.Intn(4))
		m, err := Choose(pets, Rules{})
		if err != nil {
			continue
		}
		grams := 0.0
		for _, d := range m.Dose {
			grams += 28 * d
		}
		recipe, err := m.Recipe(0.01, grams, 0)
		if err != nil {
			none++
			continue
		}
		costs = append(costs, recipe.Mix.Total()/m.Total())
	}
	slices.Sort(costs)
	if len(costs) == 0 || none > len(costs)/20 {
		t.Fatalf("%d recipes, %d without", len(costs), none)
	}
	if median := costs[len(costs)/2]; median > 1.01 {
		t.Errorf("the median recipe costs %.4f times its mix", median)
	}
	t.Logf("%d recipes, %d without, grams over the mix: median %.4f, worst %.4f", len(costs), none, costs[len(costs)/2], costs[len(costs)-1])
}
