package optimize

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/lp"
)

// Explanation says why a plan is as it is.
type Explanation struct {
	// Plan is computed anew and not recorded.
	Plan *household.Plan `json:"plan"`
	// Sources say where each nutrient of the day comes from, largest part first.
	Sources []NutrientSources `json:"sources"`
	// Limits are those that decide the add-on, dearest first.
	Limits []LimitPrice `json:"limits"`
	// Conflict is, for a pet that cannot be met, a set of limits that cannot hold
	// together and of which none can be left out; Words say it in sentences.
	Conflict []string `json:"conflict,omitempty"`
	Words    []string `json:"words,omitempty"`
	// Relaxation is the least that would have to give way, by limit.
	Relaxation []Relaxation `json:"relaxation,omitempty"`
}

// NutrientSources splits one nutrient of the day by food.
type NutrientSources struct {
	ID    nutrients.ID `json:"id"`
	Name  string       `json:"name"`
	Unit  string       `json:"unit"`
	Parts []SourcePart `json:"parts"`
}

// SourcePart is what one food brings, at the low end of what is known.
type SourcePart struct {
	Food string `json:"food"`
	Name string `json:"name"`
	// As is "base", "addon" or "extra".
	As     string  `json:"as"`
	G      float64 `json:"g"`
	Amount float64 `json:"amount"`
	// Share of the nutrient's known amount, 0 to 1.
	Share float64 `json:"share"`
	// Known is false when the food has no figure for the nutrient.
	Known bool `json:"known"`
}

// LimitPrice is what one unit of a limit costs in grams of add-on.
type LimitPrice struct {
	Limit string `json:"limit"`
	// GramsPerUnit is per canonical unit of the nutrient, per kcal, or for a
	// ratio per unit of its row.
	GramsPerUnit float64 `json:"grams_per_unit"`
	Unit         string  `json:"unit"`
	Words        string  `json:"words"`
}

// Relaxation is by how much a lower limit is missed where least is missed in all.
type Relaxation struct {
	Limit string `json:"limit"`
	// Share of the limit that is missed, 0 to 1; Words give the amount.
	Share float64 `json:"share"`
	Words string  `json:"words"`
}

// Explain computes a plan and says why it is as it is. Errors are those of Solve.
func Explain(ctx context.Context, req Request) (*Explanation, error) {
	plan, err := Solve(ctx, req)
	if err != nil {
		return nil, err
	}
	p, err := formulate(req.Household, req.Pet)
	if err != nil {
		return nil, err
	}
	out := &Explanation{Plan: plan, Sources: p.sources(plan), Limits: p.limitPrices(plan)}
	if plan.Pet.Status == household.Met || p.rows[0].a[0] <= 0 {
		return out, nil
	}
	kept, caps := p.irreducible()
	for i, r := range p.rows {
		if kept[i] {
			out.Conflict = append(out.Conflict, p.inWords(r))
		}
	}
	for j := range caps {
		if caps[j] {
			out.Conflict = append(out.Conflict, fmt.Sprintf("at most %s g of %s", short(p.items[j].cap), p.items[j].name))
		}
	}
	out.Words = p.conflictWords(kept, caps)
	p.relaxation(out)
	return out, nil
}

// sources splits every nutrient of a plan by food.
func (p *program) sources(plan *household.Plan) []NutrientSources {
	var all []NutrientSources
	for _, l := range p.targets.Limits {
		s := NutrientSources{ID: l.Nutrient, Name: l.Nutrient.Info().Name, Unit: string(l.Nutrient.Info().Unit)}
		total := 0.0
		add := func(food, name, as string, g float64, perGram nutrients.Figure) {
			if g > 0 {
				s.Parts = append(s.Parts, SourcePart{Food: food, Name: name, As: as, G: g, Amount: perGram.Lo * g, Known: perGram.IsKnown()})
				total += perGram.Lo * g
			}
		}
		add(p.items[0].id, p.items[0].name, "base", plan.Pet.BaseG, p.items[0].per[l.Nutrient])
		for _, a := range plan.Pet.Addons {
			for j := 1; j < len(p.items); j++ {
				if p.items[j].id == a.Food {
					add(a.Food, a.Name, "addon", a.G, p.items[j].per[l.Nutrient])
				}
			}
		}
		for _, x := range p.pet.Extras {
			per := perGram(&x.Food.Per100g, p.pet.Animal.Species)
			add(x.Food.ID, x.Food.Name, "extra", x.Grams, per[l.Nutrient])
		}
		for i := range s.Parts {
			if total > 0 {
				s.Parts[i].Share = s.Parts[i].Amount / total
			}
		}
		slices.SortStableFunc(s.Parts, func(a, b SourcePart) int {
			switch {
			case a.Amount > b.Amount:
				return -1
			case a.Amount < b.Amount:
				return 1
			}
			return 0
		})
		all = append(all, s)
	}
	return all
}

// limitPrices reads the duals of a plan in the user's units, dearest first: by
// what one hundredth of the limit costs.
func (p *program) limitPrices(plan *household.Plan) []LimitPrice {
	if plan.Pet.Certificate == nil {
		return nil
	}
	type priced struct {
		LimitPrice
		hundredth float64
	}
	var all []priced
	for _, r := range p.rows {
		d, ok := plan.Pet.Certificate.Duals[r.limit]
		if !ok || r.limit == energyRow {
			continue
		}
		one := priced{LimitPrice{Limit: r.limit, GramsPerUnit: math.Abs(d), Unit: "unit of the ratio's row"}, math.Abs(d) * r.size / 100}
		one.Words = p.inWords(r) + ": " + p.price(r, d*r.size)
		if r.limit == shareRow {
			one.Unit = "kcal"
		}
		for _, l := range p.targets.Limits {
			if strings.HasPrefix(r.limit, l.Nutrient.String()+" ") {
				one.Unit = string(l.Nutrient.Info().Unit)
			}
		}
		all = append(all, one)
	}
	slices.SortStableFunc(all, func(a, b priced) int {
		switch {
		case a.hundredth > b.hundredth:
			return -1
		case a.hundredth < b.hundredth:
			return 1
		}
		return 0
	})
	out := make([]LimitPrice, len(all))
	for i := range all {
		out[i] = all[i].LimitPrice
	}
	return out
}

// irreducible finds limits and caps that cannot hold together and of which none
// can be left out, by leaving out one after the other, caps first. It returns
// nothing when everything holds together on exact amounts.
func (p *program) irreducible() (rows, caps []bool) {
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
	for i := range rows {
		rows[i] = true
	}
	for j := 1; j < n; j++ {
		// Only what the household declares is a cap that could be changed.
		caps[j] = p.items[j].cap < p.naturalCap(j)*(1-limitTol)
	}
	first := kept()
	if first.Status != lp.Infeasible {
		clear(rows)
		clear(caps)
		return rows, caps
	}
	at := 0
	for i := range rows {
		rows[i] = first.Farkas[at] != 0
		at++
	}
	if kept().Status != lp.Infeasible {
		for i := range rows {
			rows[i] = true
		}
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

// relaxation reads off the plan how much of each lower limit is missed.
func (p *program) relaxation(out *Explanation) {
	for _, n := range out.Plan.Pet.Nutrients {
		if n.Lower == nil || *n.Lower <= 0 || !out.Plan.Pet.Status.Printable() {
			continue
		}
		got := 0.0
		if n.Amount != nil {
			got = *n.Amount
		}
		if miss := *n.Lower - got; miss > limitTol**n.Lower {
			out.Relaxation = append(out.Relaxation, Relaxation{Limit: n.ID.String() + " lower", Share: miss / *n.Lower,
				Words: fmt.Sprintf("%s %s of %s are missing, %.1f %% of the lower limit", short(miss), n.Unit, lower(n.Name), 100*miss / *n.Lower)})
		}
	}
}
