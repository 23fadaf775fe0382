package verify

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

const (
	// overTol is how far, relative, a sum may be outside a limit, and sumTol how
	// far two computations of one sum may differ: the rounding of adding up.
	overTol, sumTol = 1e-9, 1e-9
)

// Verify recomputes a plan from the catalogue and the printed amounts, in code
// that shares nothing with the formulation, and returns what does not agree. The
// household must be the one that the plan was made for; Verify does not judge
// whether the plan is out of date.
func Verify(plan *household.Plan, h *household.Household, pet *household.Pet) []household.Finding {
	return Against(plan, h, pet, h.Base.Identity(), (*nutrients.Food).Digest)
}

// Against is Verify with the identity of the base and the digests of the foods
// at hand.
func Against(plan *household.Plan, h *household.Household, pet *household.Pet, base household.Identity, digest func(*nutrients.Food) string) []household.Finding {
	v := &verifier{plan: plan, h: h, pet: pet, digest: digest}
	animal := pet.Animal
	if animal.Standard == "" {
		animal.Standard = h.Standard
	}
	targets, err := nutrients.TargetsFor(animal)
	if err != nil {
		v.fault("verify-targets", "the targets cannot be worked out: %v", err)
		return v.found
	}
	v.targets = targets
	pp := &plan.Pet
	if !v.near(pp.EnergyKcal, targets.Energy.Kcal) {
		v.fault("verify-energy", "the energy need is %.2f kcal, the plan says %.2f kcal", targets.Energy.Kcal, pp.EnergyKcal)
	}
	if !pp.Born.IsZero() && pp.Born != pet.Born {
		v.fault("verify-born", "the plan says born %s, the household %s", pp.Born, cmp.Or(pet.Born.String(), "nothing"))
	}
	if pp.StandardDigest != animal.StandardDigest() {
		v.fault("verify-standard", "the plan was made by other figures of the standard %s", animal.Standard)
	}
	if len(pp.OwnLimits) != len(targets.Overrides) {
		v.fault("verify-own-limits", "the household set %d limits, the plan names %d", len(targets.Overrides), len(pp.OwnLimits))
	} else {
		for i, o := range targets.Overrides {
			if own := pp.OwnLimits[i]; !own.Same(o.OwnLimit) || own.LoosensMaximum != o.LoosensMaximum() || own.Text != o.Text() {
				v.fault("verify-own-limits", "the limit of %s is not the one that the household set", o.Nutrient.Info().Name)
			}
		}
	}
	if base.RecipeDigest != plan.Base.RecipeDigest && !h.Base.IsRecorded(plan.Base) {
		v.fault("verify-base", "the base in use is %s, the plan was made for %s", base.Code, plan.Base.Code)
	}
	if !pp.Status.Printable() {
		if pp.BaseG != 0 || len(pp.Addons) > 0 || pp.Premix != nil {
			v.fault("verify-amounts", "a plan that is %s must not hold amounts", pp.Status)
		}
		return v.found
	}
	v.addUp()
	v.energy()
	v.nutrients()
	v.ratios()
	v.amounts()
	v.premix()
	v.heaviestDay()
	v.unharmed()
	v.kitchen()
	return v.found
}

// verifier adds up a plan food by food, in stored nutrients; what a species makes
// of them is worked out on the sums.
type verifier struct {
	plan       *household.Plan
	h          *household.Household
	pet        *household.Pet
	targets    nutrients.Targets
	digest     func(*nutrients.Food) string
	lo, hi     [nutrients.Count]float64
	covered    [nutrients.Count]float64
	grams      float64
	missed     []string
	addonsKcal float64
	found      []household.Finding
}

func (v *verifier) fault(code, format string, args ...any) {
	v.found = append(v.found, household.Finding{Pet: v.pet.Name, Code: code, Severity: household.Problem,
		Message: fmt.Sprintf(format, args...), Hint: diag.Command("to update the plan, run", "plan", v.pet.Name)})
}

// near compares two computations of one sum.
func (v *verifier) near(a, b float64) bool {
	return math.Abs(a-b) <= sumTol*max(math.Abs(a), math.Abs(b))
}

// eat adds grams of figures per 100 g.
func (v *verifier) eat(g float64, figures *nutrients.Profile) {
	v.grams += g
	for i, f := range figures {
		v.lo[i] += g / 100 * f.Lo
		v.hi[i] += g / 100 * f.Hi
		v.covered[i] += g * f.Coverage
	}
}

// eatBatch adds grams of a cooked batch, ingredient by ingredient. Coverage goes
// by weight, in which the ingredients of a batch count by their weight before
// cooking: weight is what the whole batch counts with.
func (v *verifier) eatBatch(g, weight float64, b *household.Batch) {
	raw, cooked := 0.0, 0.0
	cook := nutrients.Cook
	if b.KeepsLiquid {
		cook = nutrients.CookKeepingLiquid
	}
	for _, in := range b.Ingredients {
		raw += in.Grams
		share := 1.0
		if in.Batch == nil {
			if c, err := cook(in.Food, in.Method); err == nil {
				share = c.YieldShare
			} else {
				v.fault("verify-base", "%s: %v", in.Food.ID, err)
			}
		}
		cooked += in.Grams * share
	}
	if b.YieldG > 0 {
		cooked = b.YieldG
	}
	for _, in := range b.Ingredients {
		part, counts := in.Grams*g/cooked, in.Grams*weight/raw
		if in.Batch != nil {
			v.eatBatch(part, counts, in.Batch)
			continue
		}
		c, err := cook(in.Food, in.Method)
		if err != nil {
			continue
		}
		before := v.grams
		v.eat(part, &c.Kept)
		v.grams = before + counts
		for i, f := range c.Kept {
			v.covered[i] += (counts - part) * f.Coverage
		}
	}
}

func (v *verifier) addUp() {
	pp := &v.plan.Pet
	v.eatBatch(pp.BaseG, pp.BaseG, v.h.Base)
	for _, a := range pp.Addons {
		on := slices.IndexFunc(v.h.Addons, func(x household.Addon) bool { return x.Food.ID == a.Food })
		if on < 0 {
			v.fault("verify-addon", "%s is not on the shelf", a.Food)
			continue
		}
		f := v.h.Addons[on].Food
		if v.digest(f) != a.Digest {
			v.fault("verify-figures", "the figures of %s are not those of the plan", a.Food)
		}
		for _, part := range f.Opened() {
			v.eat(a.G*part.Share, &part.Food.Per100g)
		}
		v.addonsKcal += v.kcalOf(&f.Per100g) * a.G / 100
	}
	if len(pp.Extras) != len(v.pet.Extras) {
		v.fault("verify-extras", "the plan has %d extras, the household %d", len(pp.Extras), len(v.pet.Extras))
	}
	for _, x := range v.pet.Extras {
		v.eat(x.Grams, &x.Food.Per100g)
	}
}

// kcalOf is the energy of 100 g by the factors of the species.
func (v *verifier) kcalOf(p *nutrients.Profile) float64 {
	k := nutrients.Atwater(v.pet.Animal.Species)
	return k.Protein*p[nutrients.Protein].Lo + k.Fat*p[nutrients.Fat].Lo + k.Carbohydrate*p[nutrients.DigestibleCarbohydrate].Lo
}

// total is what the day holds of a nutrient as the species uses it.
func (v *verifier) total(id nutrients.ID) nutrients.Figure {
	var p nutrients.Profile
	for i := range p {
		p[i] = nutrients.Figure{Lo: v.lo[i], Hi: v.hi[i], Coverage: min(1, v.covered[i]/v.grams)}
	}
	used := p.For(v.pet.Animal.Species)
	return used[id]
}

func (v *verifier) energy() {
	pp := &v.plan.Pet
	got := v.total(nutrients.Energy).Lo
	if !v.near(got, pp.PlannedKcal) {
		v.fault("verify-energy", "the day holds %.3f kcal, the plan says %.3f kcal", got, pp.PlannedKcal)
	}
	if slack := v.h.Kitchen.EnergySlack * pp.EnergyKcal; math.Abs(got-pp.EnergyKcal) > slack*(1+overTol)+overTol*pp.EnergyKcal {
		v.fault("verify-energy", "the day holds %.1f kcal, and %.1f kcal are needed", got, pp.EnergyKcal)
	}
	if most := v.h.Kitchen.AddonEnergyShare * pp.EnergyKcal; v.addonsKcal > most*(1+overTol) {
		v.fault("verify-share", "add-ons bring %.1f kcal, more than %.1f kcal", v.addonsKcal, most)
	}
}

// sameLimit compares two limits that may be absent.
func (v *verifier) sameLimit(a, b *float64) bool {
	if a == nil || b == nil {
		return a == b
	}
	return v.near(*a, *b)
}

func (v *verifier) nutrients() {
	pp := &v.plan.Pet
	if len(pp.Nutrients) != len(v.targets.Limits) {
		v.fault("verify-nutrients", "the plan shows %d nutrients, the standard has %d", len(pp.Nutrients), len(v.targets.Limits))
		return
	}
	for i, l := range v.targets.Limits {
		line := pp.Nutrients[i]
		name := l.Nutrient.Info().Name
		if line.ID != l.Nutrient || line.Unit != string(l.Nutrient.Info().Unit) {
			v.fault("verify-nutrients", "the plan shows %s in %s in place of %s", line.ID, line.Unit, l.Nutrient)
			continue
		}
		least := v.risen(l)
		if !v.sameLimit(line.Lower, least) || !v.sameLimit(line.Upper, l.Upper) || !v.sameLimit(line.NoHarm, l.NoHarm) {
			v.fault("verify-limit", "%s: the limits are not those of the standard", name)
		}
		grows := slices.ContainsFunc(v.targets.Rises, func(r nutrients.Risen) bool { return r.Nutrient == l.Nutrient })
		if base := line.LowerBase; grows != (base != nil) || grows && !v.sameLimit(base, l.Lower) {
			v.fault("verify-limit", "%s: the minimum before anything was added to it is not the standard's", name)
		}
		got := v.total(l.Nutrient)
		known := got.Coverage > 0
		if known != (line.Amount != nil) || known && !v.near(*line.Amount, got.Lo) || math.Abs(line.Coverage-got.Coverage) > sumTol {
			v.fault("verify-sum", "%s: recomputed %.6g %s, the plan says otherwise", name, got.Lo, line.Unit)
		}
		over := l.Upper != nil && got.Hi > *l.Upper+*l.Upper*overTol
		under := least != nil && got.Lo < *least-*least*overTol
		want := household.StateMet
		switch {
		case over:
			want = household.StateHigh
			v.fault("verify-upper", "%s: %.6g %s are above the maximum of %.6g %s", name, got.Hi, line.Unit, *l.Upper, line.Unit)
		case !known:
			want = household.StateUnknown
		case under:
			want = household.StateLow
		}
		if line.State != want {
			v.fault("verify-state", "%s is %s, the plan says %s", name, want, line.State)
		}
		if under {
			v.missed = append(v.missed, name)
		}
	}
}

// ratios recomputes each quotient; then the status must say what is missed.
func (v *verifier) ratios() {
	for i, r := range v.targets.Ratios {
		var numLo, numHi, denLo, denHi, numKnown, denKnown float64
		for _, id := range r.Numerator {
			f := v.total(id)
			numLo, numHi, numKnown = numLo+f.Lo, numHi+f.Hi, numKnown+f.Coverage
		}
		for _, id := range r.Denominator {
			f := v.total(id)
			denLo, denHi, denKnown = denLo+f.Lo, denHi+f.Hi, denKnown+f.Coverage
		}
		if i >= len(v.plan.Pet.Ratios) || v.plan.Pet.Ratios[i].ID != r.Key {
			v.fault("verify-ratio", "the plan does not show the ratio %s", r.Key)
			continue
		}
		line := v.plan.Pet.Ratios[i]
		if line.Amount != nil && !v.near(*line.Amount, numLo/denLo) {
			v.fault("verify-ratio", "%s: recomputed %.4g, the plan says %.4g", r.Key, numLo/denLo, *line.Amount)
		}
		want := household.StateMet
		switch {
		case numKnown == 0 || denKnown == 0:
			want = household.StateUnknown
		case r.Upper != nil && numHi > *r.Upper*denLo*(1+overTol):
			want = household.StateHigh
		case r.Lower != nil && numLo < *r.Lower*denHi*(1-overTol):
			want = household.StateLow
		}
		if line.State != want {
			v.fault("verify-ratio", "%s is %s, the plan says %s", r.Key, want, line.State)
		}
		if want != household.StateMet {
			v.missed = append(v.missed, r.Key)
		}
	}
	if v.plan.Pet.ButForScale && (v.plan.Pet.Status != household.Short || v.farthest() >= scaleMiss) {
		v.fault("verify-scale", "the plan says that only the scale keeps it from its targets, and it misses one by %.3g %%", 100*v.farthest())
	}
	if short := v.plan.Pet.Status == household.Short; short != (len(v.missed) > 0) {
		v.fault("verify-status", "the plan is called %s, and it misses %d limits (%s)", v.plan.Pet.Status, len(v.missed), strings.Join(v.missed, ", "))
	}
}

// scaleMiss is the share of a limit from which on a shortfall is more than the scale's.
const scaleMiss = 0.005

// farthest is the largest share of a limit by which the day misses it.
func (v *verifier) farthest() float64 {
	worst := 0.0
	for _, l := range v.targets.Limits {
		if l.Lower != nil && *l.Lower > 0 {
			worst = math.Max(worst, 1 - v.total(l.Nutrient).Lo / *l.Lower)
		}
	}
	for _, r := range v.targets.Ratios {
		over, under := 0.0, 0.0
		for _, id := range r.Numerator {
			over += v.total(id).Lo
		}
		for _, id := range r.Denominator {
			under += v.total(id).Lo
		}
		if r.Lower != nil {
			worst = math.Max(worst, 1 - over/under / *r.Lower)
		}
		if r.Upper != nil {
			worst = math.Max(worst, over/under / *r.Upper - 1)
		}
	}
	return worst
}
