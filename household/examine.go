package household

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/nutrients"
)

// soundTol is how far, relative, two computations of one number may differ: records
// hold every digit, so only the order of adding up is left.
const soundTol = 1e-6

// mostEnergyMissed is how far, as a share of the need, the energy of a day may be from
// it: the widest slack that a kitchen may have.
const mostEnergyMissed = maxSlack

// Examine holds the numbers of a plan against each other: the base against its own
// recipe digest, what base, add-ons and extras bring against the amount of each
// nutrient, amounts against limits and states, states against the status, the premix
// against the add-ons in it, and the energy. It needs the record alone and takes
// microseconds; whether the plan fits the household is for Check and `check --deep`.
// What does not hold is an *UnsoundError.
func Examine(plan *Plan) (Sound, error) {
	e := &examiner{plan: plan, pet: &plan.Pet}
	e.base(&plan.Base)
	if plan.Pet.Status.Printable() {
		e.amounts()
		e.premix()
		e.energy()
		e.sums()
		e.status()
	} else {
		e.hold(plan.Pet.BaseG == 0 && len(plan.Pet.Addons) == 0 && plan.Pet.Premix == nil, "it is %s and yet has amounts", plan.Pet.Status)
	}
	e.states()
	if e.why != "" {
		return Sound{}, &UnsoundError{What: "the plan of " + plan.Pet.Pet, Why: e.why, Pet: plan.Pet.Pet}
	}
	return Sound{plan}, nil
}

// examiner looks at one plan and keeps the first thing that does not hold.
type examiner struct {
	plan *Plan
	pet  *PetPlan
	why  string
}

func (e *examiner) hold(holds bool, format string, args ...any) {
	if !holds && e.why == "" {
		e.why = fmt.Sprintf(format, args...)
	}
}

// same compares two computations of a number that is of the given size.
func same(a, b, size float64) bool {
	return math.Abs(a-b) <= soundTol*max(math.Abs(a), math.Abs(b), math.Abs(size))
}

// base holds the recipe of a snapshot against its digest, its digest against its code,
// and the batches within it.
func (e *examiner) base(s *BaseSnapshot) {
	digest, ok := s.digestOfRecipe()
	e.hold(ok && digest == s.RecipeDigest && codeOf(digest) == s.Code, "the recipe of the base %s is not that of its code", s.Code)
}

func (e *examiner) amounts() {
	p := e.pet
	e.hold(p.BaseG >= 0 && p.BaseG <= maxBatchOfDay && p.Meals >= 1 && p.Meals <= maxMeals && p.WeightKg > 0, "%g g of base in %d meals for %g kg", p.BaseG, p.Meals, p.WeightKg)
	e.hold(wholeSteps(p.BaseG, p.Scales.ScaleG), "%g g of base is not a whole number of scale steps", p.BaseG)
	for _, a := range p.Addons {
		e.hold(a.G > 0 && a.Kcal >= 0, "%g g of %s", a.G, a.Name)
		helping := a.G * float64(max(1, a.EveryDays))
		switch a.ServedAs {
		case ServedPremix:
			e.hold(p.Premix != nil, "%s is in a premix that the plan does not have", a.Name)
		case ServedFromJar:
			e.hold(p.Jar != nil && p.Jar.Mix.Sound() && p.Jar.Code == p.Jar.Mix.Code && a.Food == p.Jar.Code && same(a.G, p.Jar.DoseG, 0),
				"the dose of %s is not that of the jar recorded with it", a.Name)
			e.hold(wholeSteps(helping, a.StepG), "%g g of %s is not a whole number of steps", helping, a.Name)
		case ServedWeighed, ServedByUnit:
			e.hold(wholeSteps(helping, a.StepG), "%g g of %s is not a whole number of steps", helping, a.Name)
		default:
			e.hold(false, "%s is served as %q", a.Name, a.ServedAs)
		}
	}
	for _, x := range p.Extras {
		e.hold(x.G > 0, "%g g of %s", x.G, x.Name)
	}
	if p.Makeup != nil {
		e.hold(same(p.Makeup.WeightG, e.weight(), 1), "the food weighs %g g, not the recorded %g g", e.weight(), p.Makeup.WeightG)
	}
}

// maxBatchOfDay bounds the grams of base of one day: no animal eats more than it may
// weigh (common practice).
const maxBatchOfDay = 1000 * maxDogKg

func (e *examiner) weight() float64 {
	sum := e.pet.BaseG
	for _, a := range e.pet.Addons {
		sum += a.G
	}
	for _, x := range e.pet.Extras {
		sum += x.G
	}
	return sum
}

// wholeSteps allows for the rounding of a product; without a step any amount will do.
func wholeSteps(g, step float64) bool {
	return step <= 0 || math.Abs(g-math.Round(g/step)*step) <= soundTol*max(step, g)
}

func (e *examiner) premix() {
	mix := e.pet.Premix
	if mix == nil {
		return
	}
	total, within := 0.0, map[string]float64{}
	for _, item := range mix.Items {
		total += item.G
		within[item.Food] += item.G
		e.hold(item.G > 0, "%g g of %s in the premix", item.G, item.Name)
	}
	e.hold(mix.Days >= 1 && same(total, mix.TotalG, 0) && same(mix.ServeG*float64(mix.Days), mix.TotalG, 0),
		"a premix of %g g for %d days, %g g a day, does not add up to its powders", mix.TotalG, mix.Days, mix.ServeG)
	for _, a := range e.pet.Addons {
		if a.ServedAs == ServedPremix {
			e.hold(same(a.G*float64(mix.Days), within[a.Food], 0), "%s: %g g a day is not what the premix holds", a.Name, a.G)
			delete(within, a.Food)
		}
	}
	e.hold(len(within) == 0, "the premix holds what is not given")
}

func (e *examiner) energy() {
	p := e.pet
	sum := p.BaseG * p.BaseKcalPerG
	for _, a := range p.Addons {
		sum += a.Kcal
	}
	for _, x := range p.Extras {
		sum += x.Kcal
	}
	e.hold(same(sum, p.PlannedKcal, 0), "base, add-ons and extras bring %.1f kcal, not the planned %.1f kcal", sum, p.PlannedKcal)
	e.hold(math.Abs(p.PlannedKcal-p.EnergyKcal) <= (mostEnergyMissed+soundTol)*p.EnergyKcal, "%.1f kcal are planned and %.1f kcal are needed", p.PlannedKcal, p.EnergyKcal)
	perGram := e.plan.Base.EnergyKcalPerG
	if p.Species == nutrients.Cat {
		perGram = e.plan.Base.EnergyKcalPerGCat
	}
	e.hold(same(p.BaseKcalPerG, perGram, 0), "a gram of base has %g kcal, not %g kcal", perGram, p.BaseKcalPerG)
}

// sums holds the amount of each nutrient against what it comes from: the base by its
// recorded composition, the add-ons by the figures in the recorded program.
func (e *examiner) sums() {
	var per100g nutrients.Profile
	for id, f := range e.plan.Base.Composition {
		per100g[id] = f
	}
	base := per100g.For(e.pet.Species)
	given := map[string]float64{}
	for _, a := range e.pet.Addons {
		given[a.Food] += a.G
	}
	brought := e.broughtByAddons(given)
	for i := range e.pet.Nutrients {
		n := &e.pet.Nutrients[i]
		amount := 0.0
		if n.Amount != nil {
			amount = *n.Amount
		}
		e.hold(same(n.From.Base+n.From.Addons+n.From.Extras, amount, 0), "%s: base, add-ons and extras do not add up to the amount", n.Name)
		e.hold(same(n.From.Base, base[n.ID].Lo*e.pet.BaseG/100, 0), "%s: %g g of base do not bring %g %s", n.Name, e.pet.BaseG, n.From.Base, n.Unit)
		if sum, known := brought[n.ID]; known {
			e.hold(same(n.From.Addons, sum, amount), "%s: the add-ons do not bring %g %s", n.Name, n.From.Addons, n.Unit)
		}
	}
}

// broughtByAddons adds up, by the rows of the recorded program, what the add-ons bring
// of each nutrient that has a minimum.
func (e *examiner) broughtByAddons(given map[string]float64) map[nutrients.ID]float64 {
	brought := map[nutrients.ID]float64{}
	if e.pet.Certificate == nil || e.pet.Certificate.Program == nil {
		return brought
	}
	prog := e.pet.Certificate.Program
	for _, row := range prog.Rows {
		if row.Limit == nutrients.EnergyOfDay {
			e.energyOfAddons(&row)
		}
		if row.Limit != nutrients.MinimumOf(row.Limit.Nutrient) {
			continue
		}
		seen := map[string]bool{}
		for _, t := range row.A.Terms {
			e.hold(t.Column < len(prog.Columns), "the recorded program has a term without a column")
			if t.Column == 0 || t.Column >= len(prog.Columns) {
				continue
			}
			// Of a food that is on the shelf twice the first column stands for both.
			if food := prog.Columns[t.Column].Food; !seen[food] {
				seen[food] = true
				brought[row.Limit.Nutrient] += t.Value * given[food]
			}
		}
	}
	return brought
}

// energyOfAddons holds the energy of each add-on against that of a gram in the recorded
// program.
func (e *examiner) energyOfAddons(row *ProgramRow) {
	columns := e.pet.Certificate.Program.Columns
	for _, a := range e.pet.Addons {
		j := slices.IndexFunc(columns, func(c ProgramColumn) bool { return c.Food == a.Food })
		e.hold(j > 0, "%s is not in the recorded program", a.Name)
		e.hold(same(row.A.At(j)*a.G, a.Kcal, 0), "%g g of %s do not have %g kcal", a.G, a.Name, a.Kcal)
	}
}

// limitTol is how far, relative, a recorded sum may be outside a limit and still be
// within it.
const limitTol = 1e-8

// states holds each state against the amount and the limits beside it.
func (e *examiner) states() {
	for i := range e.pet.Nutrients {
		n := &e.pet.Nutrients[i]
		want := StateMet
		high := n.High
		if high == nil {
			high = n.Amount
		}
		switch {
		case n.Upper != nil && high != nil && *high > *n.Upper*(1+limitTol):
			want = StateHigh
		case n.Amount == nil:
			want = StateUnknown
		case n.Lower != nil && *n.Amount < *n.Lower*(1-limitTol):
			want = StateLow
		}
		e.hold(n.State == want, "%s is recorded as %s, and its amount and limits make it %s", n.Name, n.State, want)
	}
	for _, r := range e.pet.Ratios {
		if r.Amount == nil {
			continue
		}
		outside := r.Lower != nil && *r.Amount < *r.Lower*(1-limitTol) || r.Upper != nil && *r.Amount > *r.Upper*(1+limitTol)
		e.hold(!outside || r.State != StateMet, "the ratio %s is recorded as met, and it is not", r.ID)
		e.ratioOfLines(&r)
	}
}

// ratioOfLines holds a ratio of two nutrients that are listed against their amounts.
func (e *examiner) ratioOfLines(r *RatioLine) {
	above, below, _ := strings.Cut(r.ID, "-")
	amount := func(key string) float64 {
		i := slices.IndexFunc(e.pet.Nutrients, func(n NutrientLine) bool { return n.ID.String() == key && n.Amount != nil })
		if i < 0 {
			return 0
		}
		return *e.pet.Nutrients[i].Amount
	}
	if a, b := amount(above), amount(below); a > 0 && b > 0 {
		e.hold(same(a/b, *r.Amount, 0), "the ratio %s is recorded as %g, and the amounts give %g", r.ID, *r.Amount, a/b)
	}
}

// status holds the status against the states.
func (e *examiner) status() {
	missed := false
	for _, n := range e.pet.Nutrients {
		missed = missed || n.State == StateLow || n.State == StateUnknown && n.Lower != nil
		e.hold(n.State != StateHigh, "%s is above its maximum, and the plan is %s", n.Name, e.pet.Status)
	}
	for _, r := range e.pet.Ratios {
		missed = missed || r.State != StateMet
	}
	e.hold(missed == (e.pet.Status == Short), "the plan is recorded as %s, and its nutrients say otherwise", e.pet.Status)
}

// digestOfRecipe works out the recipe digest of a base from its ingredients as
// recorded. ok is false when weights, shares or inner batches contradict each other.
func (s *BaseSnapshot) digestOfRecipe() (digest string, ok bool) {
	b, ok := s.batch(maxBatchDepth)
	if !ok {
		return "", false
	}
	return b.RecipeDigest(), true
}

// batch is the recorded recipe as a batch, without figures, at most so many batches
// deep.
func (s *BaseSnapshot) batch(depth int) (*Batch, bool) {
	b := &Batch{File: s.File, Name: s.Name, KeepsLiquid: s.KeepsLiquid, Ingredients: make([]Ingredient, 0, len(s.Ingredients))}
	if s.YieldDeclared {
		b.YieldG = s.CookedG
	}
	raw := 0.0
	for _, in := range s.Ingredients {
		raw += in.Grams
		one := Ingredient{Grams: in.Grams, Method: in.Method, Food: &nutrients.Food{ID: in.Food}, recorded: true}
		if in.Own {
			one.recordedContent = in.Digest
		}
		if in.Of != nil {
			if depth == 0 {
				return nil, false
			}
			inner, ok := in.Of.batch(depth - 1)
			if !ok || inner.RecipeDigest() != in.Of.RecipeDigest || in.Digest != in.Of.RecipeDigest {
				return nil, false
			}
			one.Food, one.Batch = nil, inner
		}
		if !(in.Grams > 0) || !same(in.Share*s.RawG, in.Grams, 0) {
			return nil, false
		}
		b.Ingredients = append(b.Ingredients, one)
	}
	return b, raw > 0 && same(raw, s.RawG, 0) && s.CookedG > 0
}
