package optimize

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
	"bowlwright/optimize/diet"
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
	Limit nutrients.LimitID `json:"limit"`
	// GramsPerUnit is per canonical unit of the nutrient, per kcal, or for a
	// ratio per unit of its row.
	GramsPerUnit float64 `json:"grams_per_unit"`
	Unit         string  `json:"unit"`
	Words        string  `json:"words"`
}

// Relaxation is by how much a lower limit is missed where least is missed in all.
type Relaxation struct {
	Limit nutrients.LimitID `json:"limit"`
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
	p, err := diet.Formulate(req.Household, req.Pet)
	if err != nil {
		return nil, err
	}
	out := &Explanation{Plan: plan, Sources: sources(p, plan), Limits: limitPrices(p, plan)}
	if plan.Pet.Status == household.Met || p.Rows[0].A[0] <= 0 {
		return out, nil
	}
	kept, caps := p.Irreducible(plan.Pet.Status == household.Short)
	out.Conflict = p.Listed(kept, caps)
	out.Words = p.ConflictWords(kept, caps)
	relaxation(out)
	return out, nil
}

// sources splits every nutrient of a plan by food.
func sources(p *diet.Program, plan *household.Plan) []NutrientSources {
	var all []NutrientSources
	for _, l := range p.Targets.Limits {
		s := NutrientSources{ID: l.Nutrient, Name: l.Nutrient.Info().Name, Unit: string(l.Nutrient.Info().Unit)}
		total := 0.0
		add := func(food, name, as string, g float64, perGram nutrients.Figure) {
			if g > 0 {
				s.Parts = append(s.Parts, SourcePart{Food: food, Name: name, As: as, G: g, Amount: perGram.Lo * g, Known: perGram.IsKnown()})
				total += perGram.Lo * g
			}
		}
		add(p.Items[0].Id, p.Items[0].Name, "base", plan.Pet.BaseG, p.Items[0].Per[l.Nutrient])
		for _, a := range plan.Pet.Addons {
			for j := 1; j < len(p.Items); j++ {
				if p.Items[j].Id != a.Food {
					continue
				}
				if a.ServedAs != household.ServedFromJar {
					add(a.Food, a.Name, "addon", a.G, p.Items[j].Per[l.Nutrient])
					continue
				}
				// A jar is opened: what its parts bring says more than the sum.
				for _, part := range p.Items[j].Addon.Food.Opened() {
					per := diet.PerGram(&part.Food.Per100g, p.Pet.Animal.Species)
					add(part.Food.ID, part.Food.Name+" in "+a.Name, "jar", a.G*part.Share, per[l.Nutrient])
				}
			}
		}
		for _, x := range p.Pet.Extras {
			per := diet.PerGram(&x.Food.Per100g, p.Pet.Animal.Species)
			add(x.Food.ID, x.Food.Name, "extra", x.Grams, per[l.Nutrient])
		}
		for i := range s.Parts {
			if total > 0 {
				s.Parts[i].Share = s.Parts[i].Amount / total
			}
		}
		slices.SortStableFunc(s.Parts, func(a, b SourcePart) int { return cmp.Compare(b.Amount, a.Amount) })
		all = append(all, s)
	}
	return all
}

// limitPrices reads the duals of a plan in the user's units, dearest first: by
// what one hundredth of the limit costs.
func limitPrices(p *diet.Program, plan *household.Plan) []LimitPrice {
	if plan.Pet.Certificate == nil {
		return nil
	}
	type priced struct {
		LimitPrice
		hundredth float64
	}
	var all []priced
	for _, r := range p.Rows {
		d, ok := plan.Pet.Certificate.Duals[r.Limit]
		if !ok || r.Limit == nutrients.EnergyOfDay {
			continue
		}
		one := priced{LimitPrice{Limit: r.Limit, GramsPerUnit: math.Abs(d), Unit: "unit of the ratio's row"}, math.Abs(d) * r.Size / 100}
		one.Words = p.InWords(r) + ": " + p.Price(r, d*r.Size)
		switch r.Limit.Kind {
		case nutrients.OfDay:
			one.Unit = "kcal"
		case nutrients.OfNutrient, nutrients.OfConcentrates, nutrients.OfUnharmed, nutrients.OfRisen:
			one.Unit = string(r.Limit.Nutrient.Info().Unit)
		}
		all = append(all, one)
	}
	slices.SortStableFunc(all, func(a, b priced) int { return cmp.Compare(b.hundredth, a.hundredth) })
	out := make([]LimitPrice, len(all))
	for i := range all {
		out[i] = all[i].LimitPrice
	}
	return out
}

// relaxation reads off the plan how much of each lower limit is missed.
func relaxation(out *Explanation) {
	for _, n := range out.Plan.Pet.Nutrients {
		if n.Lower == nil || *n.Lower <= 0 || !out.Plan.Pet.Status.Printable() {
			continue
		}
		got := 0.0
		if n.Amount != nil {
			got = *n.Amount
		}
		if miss := *n.Lower - got; miss > diet.LimitTol**n.Lower {
			out.Relaxation = append(out.Relaxation, Relaxation{Limit: nutrients.MinimumOf(n.ID), Share: miss / *n.Lower,
				Words: fmt.Sprintf("%s %s of %s missing, %.1f %% of the minimum", number.Short(miss), n.Unit, nutrients.InSentence(n.Name), 100*miss / *n.Lower)})
		}
	}
}
