package diet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
	"bowlwright/optimize/lp"
)

// Irreducible finds limits and caps that cannot hold together and of which none
// can be left out, by leaving out one after the other, caps first. It returns
// nothing when everything holds together on exact amounts. Lower limits and ratios
// take part only with elastic.
func (p *Program) Irreducible(elastic bool) (rows, caps []bool) {
	rows, caps = make([]bool, len(p.Rows)), make([]bool, len(p.Items))
	n := len(p.Items)
	q := lp.Problem{Cost: make([]float64, n), Lower: make([]float64, n)}
	kept := func() lp.Result {
		q.Rows, q.Upper = nil, make([]float64, n)
		for j := range p.Items {
			q.Upper[j] = math.Inf(1)
			if caps[j] {
				q.Upper[j] = p.Items[j].Cap
			}
		}
		for i, r := range p.Rows {
			if rows[i] {
				out := lp.Row{A: make([]float64, n), Lower: r.Lower / r.Size, Upper: r.Upper / r.Size}
				for j := range out.A {
					out.A[j] = r.A[j] / r.Size
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
	for i, r := range p.Rows {
		rows[i] = elastic || !r.Elastic
	}
	start := slices.Clone(rows)
	for j := 1; j < n; j++ {
		// Only what the household declares is a cap that could be changed.
		caps[j] = p.Items[j].Cap < p.naturalCap(j)*(1-LimitTol)
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
func (p *Program) naturalCap(j int) float64 {
	most := p.EnergyLeft / p.Rows[0].A[0]
	if kcal := p.Rows[0].A[j]; kcal > 0 {
		most = min(most, p.Rows[1].Upper/kcal)
	}
	return most
}

// ConflictWords says for each lower limit in a conflict what on the shelf brings
// the nutrient, and which of the other limits stand against it.
func (p *Program) ConflictWords(rows, caps []bool) []string {
	var words, against []string
	for i, r := range p.Rows {
		if rows[i] && (r.Limit.Side == nutrients.Maximum || !r.Elastic) {
			against = append(against, p.InWords(r))
		}
	}
	for j := range caps {
		if caps[j] {
			against = append(against, fmt.Sprintf("at most %s g of %s", number.Short(p.Items[j].Cap), p.Items[j].Name))
		}
	}
	for i, r := range p.Rows {
		if !rows[i] || r.Limit.Kind == nutrients.OfDay || r.Limit.Side != nutrients.Minimum {
			continue
		}
		var bring []string
		for j := 1; j < len(p.Items); j++ {
			if r.A[j] > 0 {
				bring = append(bring, p.Items[j].Name)
			}
		}
		what := nutrients.InSentence(r.Limit.Nutrient.Info().Name)
		if r.Limit.Kind == nutrients.OfRatio {
			what = nutrients.RatioName(r.Limit.Name)
			if r.Limit.Name == "calcium-phosphorus" {
				what = "calcium without more phosphorus"
			}
		}
		switch {
		case len(bring) == 0:
			words = append(words, fmt.Sprintf("nothing on this shelf supplies %s", what))
		case len(bring) <= 4:
			words = append(words, onlyThese(bring, what))
		default:
			words = append(words, fmt.Sprintf("%d items on this shelf supply %s, and none supplies enough", len(bring), what))
		}
	}
	if len(words) > 0 && len(against) > 0 {
		words = append(words, "what prevents giving more: "+strings.Join(against, "; "))
	}
	return words
}

// onlyThese says that nothing else on the shelf supplies something.
func onlyThese(items []string, what string) string {
	last := len(items) - 1
	if last == 0 {
		return fmt.Sprintf("on this shelf only %s supplies %s", items[0], what)
	}
	return fmt.Sprintf("on this shelf only %s and %s supply %s", strings.Join(items[:last], ", "), items[last], what)
}
