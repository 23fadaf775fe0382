package advice

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
)

// eaters are figures per 100 g with what each species has of a gram, worked out once.
type eaters struct {
	per100g nutrients.Profile
	known   map[nutrients.Species]nutrients.Profile
}

func bySpecies(per100g nutrients.Profile) eaters {
	return eaters{per100g, map[nutrients.Species]nutrients.Profile{}}
}

func (e *eaters) of(sp nutrients.Species) nutrients.Profile {
	if _, ok := e.known[sp]; !ok {
		e.known[sp] = diet.PerGram(&e.per100g, sp)
	}
	return e.known[sp]
}

// after works out what the changed base means for every pet that goes no further over
// what a kitchen gives than it does now. It is what the search goes by.
func (p *pot) after(changes []change) ([]outcome, error) {
	return p.onChanged(changes, (*diet.Program).OnBase)
}

// planned works out what plans on the changed base come to, caps of the kitchen and all.
func (p *pot) planned(changes []change) ([]outcome, error) {
	return p.onChanged(changes, (*diet.Program).PlannedOn)
}

func (p *pot) onChanged(changes []change, on onBase) ([]outcome, error) {
	var mix, concentrates nutrients.Mix
	mix.Add(p.cooked, &p.composition)
	concentrates.Add(p.cooked, &p.concentrates)
	weight := p.cooked
	for _, c := range changes {
		m := &p.moves[c.move]
		g := m.signed(c.g)
		mix.Add(g, &m.kept)
		if m.food.Concentrate() {
			concentrates.Add(g, &m.kept)
		}
		weight += g * m.yield
	}
	return p.eat(mix.Per100g(weight), concentrates.Per100g(weight), on)
}

// exceeded is the open of an outcome. The profile is what the concentrates in the pot
// bring in a gram of base.
func exceeded(p *diet.Program, grams []float64, inPot *nutrients.Profile) map[string]float64 {
	over := map[string]float64{}
	for _, o := range p.ElementOverdoses(grams) {
		over[fmt.Sprintf("not more than %g times the minimum of %s", o.Most, nutrients.InSentence(o.Limit.Nutrient.Info().Name))] = o.Times / o.Most
	}
	for _, o := range p.ConcentrateOverdoses(grams, inPot) {
		over[fmt.Sprintf("not more than %g times the minimum of %s from concentrates", o.Most, nutrients.InSentence(o.Limit.Nutrient.Info().Name))] = o.Times / o.Most
	}
	return over
}

// concentratesIn is what the concentrates among the ingredients of a batch bring to 100 g
// of it.
func concentratesIn(b *household.Batch) nutrients.Profile {
	var mix nutrients.Mix
	for _, in := range b.Ingredients {
		switch {
		case in.Batch != nil:
			inner := concentratesIn(in.Batch)
			mix.Add(in.Grams, &inner)
		case in.Food.Concentrate():
			kept := b.Losses(in.Food, in.Method).Kept
			mix.Add(in.Grams, &kept)
		}
	}
	return mix.Per100g(b.CookedGrams())
}

// onBase states a pet's program on another base, by its profile per gram.
type onBase func(*diet.Program, nutrients.Profile) *diet.Program

// eat works out what a base with a composition, and what concentrates bring to it, means
// for every pet.
func (p *pot) eat(composition, concentrates nutrients.Profile, on onBase) ([]outcome, error) {
	base, added := bySpecies(composition), bySpecies(concentrates)
	out := make([]outcome, len(p.pets))
	for i, one := range p.pets {
		sp := one.Pet.Animal.Species
		now := on(one, base.of(sp))
		inPot := added.of(sp)
		s, _, err := now.LeastAddon()
		switch {
		case err != nil:
			return nil, err
		case s.Farkas != nil:
			out[i] = outcome{impossible: true, staged: s}
		default:
			out[i] = outcome{missing: s.Violation, grams: s.LeastG, staged: s, overKitchen: now.OverKitchen, mayGoOver: now.MayGoOver()}
			out[i].overdoses = exceeded(now, s.X[:len(now.Items)], &inPot)
		}
	}
	return out, nil
}

// verdict adds up what a base means for all pets, worst first.
type verdict struct {
	impossible     int
	missing, grams float64
}

func verdictOf(all []outcome) (v verdict) {
	for _, o := range all {
		if o.impossible {
			v.impossible++
		}
		v.missing += o.missing
		v.grams += o.grams
	}
	return v
}

// compare says which of two verdicts is better; what is missed by a hair more or
// less counts as equal.
func (v verdict) compare(w verdict) int {
	if c := cmp.Compare(v.impossible, w.impossible); c != 0 {
		return c
	}
	if d := v.missing - w.missing; d > diet.ViolationSliver || d < -diet.ViolationSliver {
		return cmp.Compare(v.missing, w.missing)
	}
	return cmp.Compare(v.grams, w.grams)
}

// harmed returns the pets for whom more is missed than before, anything where nothing
// was, or more too much of what has no upper limit, or who would have to get more than a
// kitchen gives by more than before.
func harmed(before, after []outcome) []int {
	var worse []int
	for i := range after {
		a, b := after[i], before[i]
		switch {
		case b.impossible:
		case a.impossible, b.missing == 0 && a.missing > 0, a.missing > b.missing+diet.ViolationSliver, len(moreOverdosed(b, a)) > 0,
			furtherOver(b, a):
			worse = append(worse, i)
		}
	}
	return worse
}

// furtherOver says whether add-ons must go further over what a kitchen gives than plans
// for the base as it is let them.
func furtherOver(before, after outcome) bool {
	return after.overKitchen > before.mayGoOver+diet.ViolationSliver
}

// moreOverdosed lists what is exceeded that was not before, or by more than before.
func moreOverdosed(before, after outcome) []string {
	var more []string
	for text, times := range after.overdoses {
		if was, ok := before.overdoses[text]; !ok || times > was+diet.ViolationSliver {
			more = append(more, text)
		}
	}
	slices.Sort(more)
	return more
}

// atUpper returns the upper limits that decide the add-on, by the rows' names.
func (o outcome) atUpper(p *diet.Program) map[nutrients.LimitID]diet.Row {
	if o.impossible {
		return nil
	}
	largest := 0.0
	for i := range p.Rows {
		largest = max(largest, math.Abs(o.staged.Duals[i]))
	}
	at := map[nutrients.LimitID]diet.Row{}
	for i, r := range p.Rows {
		if r.Limit.Side == nutrients.Maximum && (r.Limit.Kind == nutrients.OfNutrient || r.Limit.Kind == nutrients.OfRatio) && math.Abs(o.staged.Duals[i]) > diet.ShadowTol*largest {
			at[r.Limit] = r
		}
	}
	return at
}
