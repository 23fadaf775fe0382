package optimize

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/optimize/lp"
)

// irreducible finds limits and caps that cannot hold together and of which none
// can be left out, by leaving out one after the other, caps first. It returns
// nothing when everything holds together on exact amounts. Lower limits and ratios
// take part only with elastic.
func (p *program) irreducible(elastic bool) (rows, caps []bool) {
	rows, caps = make([]bool, len(p.rows)), make([]bool, len(p.items))
	n := len(p.items)
	q := lp.Problem{Cost: make([]float64, n), Lower: make([]float64, n)}
	kept := func() lp.Result {
		q.Rows, q.Upper = nil, make([]float64, n)
		for j := range p.items {
			q.Upper[j] = math.Inf(1)
			if caps[j] {
				q.Upper[j] = p.items[j].cap
			}
		}
		for i, r := range p.rows {
			if rows[i] {
				out := lp.Row{A: make([]float64, n), Lower: r.lower / r.size, Upper: r.upper / r.size}
				for j := range out.A {
					out.A[j] = r.a[j] / r.size
				}
				q.Rows = append(q.Rows, out)
			}
		}
		solver, err := lp.New(q)
		if err != nil {
			return lp.Result{Status: lp.Imprecise}
		}
		return solver.Solve()
	}
	for i, r := range p.rows {
		rows[i] = elastic || !r.elastic
	}
	start := slices.Clone(rows)
	for j := 1; j < n; j++ {
		// Only what the household declares is a cap that could be changed.
		caps[j] = p.items[j].cap < p.naturalCap(j)*(1-limitTol)
	}
	first := kept()
	if first.Status != lp.Infeasible {
		// Then it is the caps that follow from the energy and the portion.
		for j := 1; j < n; j++ {
			caps[j] = true
		}
		first = kept()
	}
	if first.Status != lp.Infeasible {
		clear(rows)
		clear(caps)
		return rows, caps
	}
	// The rows of the proof are usually enough to start from.
	at := 0
	for i := range rows {
		if rows[i] {
			rows[i] = first.Farkas[at] != 0
			at++
		}
	}
	if kept().Status != lp.Infeasible {
		copy(rows, start)
	}
	for _, list := range [][]bool{caps, rows} {
		for i := range list {
			if !list[i] {
				continue
			}
			list[i] = false
			if kept().Status != lp.Infeasible {
				list[i] = true
			}
		}
	}
	return rows, caps
}

// naturalCap is the cap of an item without what the household declares.
func (p *program) naturalCap(j int) float64 {
	most := p.rows[0].upper / p.rows[0].a[0]
	if kcal := p.rows[0].a[j]; kcal > 0 {
		most = min(most, p.rows[1].upper/kcal)
	}
	return most
}

// conflictWords says for each lower limit in a conflict what on the shelf brings
// the nutrient, and which of the other limits stand against it.
func (p *program) conflictWords(rows, caps []bool) []string {
	var words, against []string
	for i, r := range p.rows {
		if rows[i] && (strings.HasSuffix(r.limit, " upper") || !r.elastic) {
			against = append(against, p.inWords(r))
		}
	}
	for j := range caps {
		if caps[j] {
			against = append(against, fmt.Sprintf("at most %s g of %s", short(p.items[j].cap), p.items[j].name))
		}
	}
	for i, r := range p.rows {
		if !rows[i] || !strings.HasSuffix(r.limit, " lower") {
			continue
		}
		var bring []string
		for j := 1; j < len(p.items); j++ {
			if r.a[j] > 0 {
				bring = append(bring, p.items[j].name)
			}
		}
		what := strings.ReplaceAll(strings.TrimSuffix(r.limit, " lower"), "-", " ")
		if r.limit == "calcium-phosphorus lower" {
			what = "calcium without more phosphorus"
		}
		switch {
		case len(bring) == 0:
			words = append(words, fmt.Sprintf("nothing on this shelf brings %s", what))
		case len(bring) <= 4:
			words = append(words, fmt.Sprintf("on this shelf nothing but %s brings %s", strings.Join(bring, ", "), what))
		default:
			words = append(words, fmt.Sprintf("%d items on this shelf bring %s, and none of them enough", len(bring), what))
		}
	}
	if len(words) > 0 && len(against) > 0 {
		words = append(words, "and these stand against more of it: "+strings.Join(against, "; "))
	}
	return words
}
