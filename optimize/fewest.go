package optimize

import "bowlwright/optimize/lp"

// maxSubsets bounds the sets of add-ons that the search for the fewest looks at.
const maxSubsets = 4000

// fewest looks for the smallest set of add-ons that keeps the violation where it
// is: first the ones that nothing can replace, then sets of the others, smaller
// before larger, of equal ones the lightest. The solver holds the program of the
// least add-on; it returns the answer and which items it leaves out.
func (p *program) fewest(solver *lp.Solver, q lp.Problem, all lp.Result) (lp.Result, []bool) {
	n := len(p.items)
	without := func(out []bool) lp.Result {
		for j := 1; j < n; j++ {
			most := q.Upper[j]
			if out[j] {
				most = 0
			}
			solver.SetColumn(j, 0, most)
		}
		return solver.Bound()
	}
	var needed, free []int
	for j := 1; j < n; j++ {
		if q.Upper[j] <= 0 {
			continue
		}
		out := make([]bool, n)
		out[j] = true
		if without(out).Status == lp.Optimal {
			free = append(free, j)
		} else {
			needed = append(needed, j)
		}
	}
	best, bestOut := all, make([]bool, n)
	looked := 0
	for size := 0; size <= len(free) && looked < maxSubsets; size++ {
		found := false
		subsets(len(free), size, func(pick []int) bool {
			looked++
			out := make([]bool, n)
			for j := 1; j < n; j++ {
				out[j] = true
			}
			for _, j := range needed {
				out[j] = false
			}
			for _, k := range pick {
				out[free[k]] = false
			}
			if res := without(out); res.Status == lp.Optimal && lp.Residual(&q, res.X) <= feasibleTol && (!found || res.Objective < best.Objective) {
				found, best, bestOut = true, res, out
			}
			return looked < maxSubsets
		})
		if found {
			return best, bestOut
		}
	}
	p.notes = append(p.notes, "there are too many ways to choose the fewest add-ons; this is the plan with the least add-on")
	without(make([]bool, n))
	return all, make([]bool, n)
}

// subsets calls f with every choice of k of n, in order, until f says stop.
func subsets(n, k int, f func([]int) bool) {
	pick := make([]int, k)
	var choose func(at, from int) bool
	choose = func(at, from int) bool {
		if at == k {
			return f(pick)
		}
		for i := from; i <= n-(k-at); i++ {
			pick[at] = i
			if !choose(at+1, i+1) {
				return false
			}
		}
		return true
	}
	choose(0, 0)
}
