package optimize

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// item is one unknown: the base or an add-on. Its profile is per gram, as the
// species uses it.
type item struct {
	id, name string
	addon    *household.Addon // nil for the base
	per      nutrients.Profile
	// cap is the most grams a day, helping the most at once.
	cap, helping float64
	// place is where an add-on stands on the household's shelf.
	place int
}

// row is one limit in canonical units, what the extras bring already taken off.
type row struct {
	limit        string
	a            []float64
	lower, upper float64
	// elastic rows may be missed, at the price of a plan that is short.
	elastic bool
	// size is the limit itself: violations are measured in it.
	size float64
	// atOnce is the most of a single day where helpings for several days may bring more
	// than upper, which is then the most on average; 0 where upper holds for each day.
	atOnce float64
	// of is what a gram of something with a profile adds to the row; nil where
	// the base adds nothing.
	of func(*nutrients.Profile) float64
}

// program is the linear program of one pet.
type program struct {
	pet     *household.Pet
	kitchen household.Kitchen
	targets nutrients.Targets
	items   []item
	rows    []row
	extras  nutrients.Profile // totals, not per gram
	// prefer is the pet's, or "least" when its own cannot be weighed.
	prefer string
	// spends is what a gram of each item counts for in the least add-on: one, or for
	// the cheapest its price in units of the dearest; nothing for the base.
	spends []float64
	notes  []string
}

// The names of the rows that are no nutrient's.
const (
	energyRow = "energy"
	shareRow  = "energy from add-ons"
)

// formulate states the program of a pet.
func formulate(h *household.Household, pet *household.Pet) (*program, error) {
	composition, _ := h.Base.Composition()
	return formulateOn(h, pet, &composition)
}

// formulateOn is formulate with the composition of the base at hand.
func formulateOn(h *household.Household, pet *household.Pet, composition *nutrients.Profile) (*program, error) {
	t, err := nutrients.TargetsFor(animalOf(h, pet))
	if err != nil {
		return nil, err
	}
	p := &program{pet: pet, kitchen: h.KitchenFor(pet), targets: t, prefer: pet.Prefer}
	sp := pet.Animal.Species
	p.items = []item{{id: h.Base.File, name: h.Base.Name, per: perGram(composition, sp)}}
	for place, a := range household.Offered(h, pet) {
		if a.Food.PerUnit != nil && a.Food.UnitGrams <= 0 {
			p.notes = append(p.notes, fmt.Sprintf("%s is not used: the weight of one %s is not known", a.Food.Name, a.Food.UnitName))
			continue
		}
		p.items = append(p.items, item{id: a.Food.ID, name: a.Food.Name, addon: &a, per: perGram(&a.Food.Per100g, sp), place: place})
	}
	// The order of the file must not decide between amounts that are equally good.
	slices.SortFunc(p.items[1:], func(a, b item) int { return cmp.Or(strings.Compare(a.id, b.id), cmp.Compare(a.place, b.place)) })
	for _, a := range h.Addons {
		if household.Avoids(pet, a.Food) {
			p.notes = append(p.notes, fmt.Sprintf("%s is not used: %s avoids it", a.Food.Name, pet.Name))
		}
	}
	var mix nutrients.Mix
	for _, x := range pet.Extras {
		mix.Add(x.Grams, &x.Food.Per100g)
	}
	if mix.Grams() > 0 {
		total := mix.Per100g(100)
		p.extras = total.For(sp)
	}
	p.spends = make([]float64, len(p.items))
	for j := 1; j < len(p.items); j++ {
		p.spends[j] = 1
	}
	p.addEnergy()
	for _, l := range t.Limits {
		p.addLimit(l)
	}
	for _, r := range t.Ratios {
		p.addRatio(r)
	}
	p.addTogether()
	p.setCaps()
	return p, nil
}

// animalOf fills in the household's standard where the pet names none.
func animalOf(h *household.Household, pet *household.Pet) nutrients.Animal {
	a := pet.Animal
	if a.Standard == "" {
		a.Standard = h.Standard
	}
	return a
}

// spent is what amounts count for in the least add-on.
func (p *program) spent(x []float64) float64 {
	sum := 0.0
	for j, s := range p.spends {
		sum += s * x[j]
	}
	return sum
}

func perGram(per100g *nutrients.Profile, sp nutrients.Species) nutrients.Profile {
	p := per100g.For(sp)
	for i := range p {
		p[i] = p[i].Scale(0.01)
	}
	return p
}

// asOnShelf returns the indices of the add-ons in the order of the household's shelf.
func (p *program) asOnShelf() []int {
	order := make([]int, 0, len(p.items))
	for j := 1; j < len(p.items); j++ {
		order = append(order, j)
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(p.items[a].place, p.items[b].place) })
	return order
}

func (p *program) addEnergy() {
	target := p.targets.Energy.Kcal
	kcal := func(per *nutrients.Profile) float64 { return per[nutrients.Energy].Lo }
	left := target - kcal(&p.extras)
	p.add(row{limit: energyRow, lower: left, upper: left, size: target, of: kcal})
	share := slices.Clone(p.rows[0].a)
	share[0] = 0
	most := p.kitchen.AddonEnergyShare * target
	p.rows = append(p.rows, row{limit: shareRow, a: share, lower: math.Inf(-1), upper: most, size: max(most, target/1000)})
}

// add takes a row whose coefficients follow from the profiles of the items.
func (p *program) add(r row) {
	r.a = make([]float64, len(p.items))
	for j := range p.items {
		r.a[j] = r.of(&p.items[j].per)
	}
	p.rows = append(p.rows, r)
}

func (p *program) addLimit(l nutrients.Limit) {
	id := l.Nutrient
	if l.Lower != nil && *l.Lower > 0 {
		p.add(row{limit: id.String() + " lower", lower: *l.Lower - p.extras[id].Lo, upper: math.Inf(1), elastic: true, size: *l.Lower,
			of: func(per *nutrients.Profile) float64 { return per[id].Lo }})
	}
	if l.Upper != nil {
		if *l.Upper <= 0 {
			panic("optimize: an upper limit of nothing")
		}
		p.add(row{limit: id.String() + " upper", lower: math.Inf(-1), upper: *l.Upper - p.extras[id].Hi, size: *l.Upper,
			of: func(per *nutrients.Profile) float64 { return per[id].Hi }})
	}
}

// addRatio states a quotient as linear rows. A ratio may be missed like a lower
// limit: it is a measure of balance, not of harm.
func (p *program) addRatio(r nutrients.Ratio) {
	state := func(side string, k float64, upper bool) {
		of := func(per *nutrients.Profile) float64 { return ratioTerm(per, r, k, upper) }
		p.add(row{limit: r.Key + " " + side, lower: -of(&p.extras), upper: math.Inf(1), elastic: true, size: p.ratioSize(r, k), of: of})
	}
	if r.Lower != nil {
		state("lower", *r.Lower, false)
	}
	if r.Upper != nil {
		state("upper", *r.Upper, true)
	}
}

// ratioTerm returns what must not be negative: numerator less k denominator, or
// the other way round, each at its unfavourable end.
func ratioTerm(p *nutrients.Profile, r nutrients.Ratio, k float64, upper bool) float64 {
	sum := 0.0
	for _, id := range r.Numerator {
		if upper {
			sum -= p[id].Hi
		} else {
			sum += p[id].Lo
		}
	}
	for _, id := range r.Denominator {
		if upper {
			sum += k * p[id].Lo
		} else {
			sum -= k * p[id].Hi
		}
	}
	return sum
}

// ratioSize measures a ratio's violation by what the numerator's lower limits ask
// for, or by k times the denominator's; by one canonical unit when neither has one.
func (p *program) ratioSize(r nutrients.Ratio, k float64) float64 {
	num, den := 0.0, 0.0
	for _, l := range p.targets.Limits {
		if l.Lower == nil {
			continue
		}
		if slices.Contains(r.Numerator, l.Nutrient) {
			num += *l.Lower
		}
		if slices.Contains(r.Denominator, l.Nutrient) {
			den += k * *l.Lower
		}
	}
	switch {
	case num > 0:
		return num
	case den > 0:
		return den
	}
	return 1
}

// onBase is the program with a base of another profile per gram.
func (p *program) onBase(per nutrients.Profile) *program {
	out := *p
	out.items, out.rows = slices.Clone(p.items), slices.Clone(p.rows)
	out.items[0].per = per
	for i := range out.rows {
		if of := out.rows[i].of; of != nil {
			out.rows[i].a = slices.Clone(out.rows[i].a)
			out.rows[i].a[0] = of(&per)
		}
	}
	out.setCaps()
	return &out
}

// setCaps gives every unknown a finite cap: what the energy allows, what the
// household declares, what the ceiling of concentrates allows, and no add-on heavier
// than the whole portion of base.
func (p *program) setCaps() {
	kcal := p.rows[0].a
	if kcal[0] <= 0 {
		return
	}
	portion := max(0, p.rows[0].upper/kcal[0])
	p.items[0].cap = portion * (1 + p.kitchen.EnergySlack)
	p.items[0].helping = p.items[0].cap
	for j := 1; j < len(p.items); j++ {
		x := &p.items[j]
		x.cap = portion
		if kcal[j] > 0 {
			x.cap = min(x.cap, p.rows[1].upper/kcal[j])
		}
		x.cap = min(x.cap, declaredCap(x.addon, p.pet))
		daily, atOnce := ceiling(x.addon.Food, &x.per, p.targets.Limits)
		x.cap, x.helping = min(x.cap, daily), min(x.cap, atOnce)
	}
}

// declaredCap is the most grams a day that the household allows; a cap under one
// step is one step.
func declaredCap(a *household.Addon, pet *household.Pet) float64 {
	most := math.Inf(1)
	if a.MaxG > 0 {
		most = a.MaxG
	}
	if a.MaxGPerKg > 0 {
		most = min(most, a.MaxGPerKg*pet.Animal.WeightKg)
	}
	return max(most, a.StepG)
}

// missed sums the violation of the elastic rows, each in units of its limit.
func (p *program) missed(x []float64) float64 {
	total := 0.0
	for _, r := range p.rows {
		if !r.elastic {
			continue
		}
		sum := 0.0
		for j := range x {
			sum += r.a[j] * x[j]
		}
		if short := (r.lower - sum) / r.size; short > limitTol/2 {
			total += short
		}
	}
	return total
}

// mayGet says whether a pet may have a food as it is: it does not avoid it, and its
// species is not harmed by it.
func mayGet(pet *household.Pet, f *nutrients.Food) bool {
	_, blocked := nutrients.Blocked(f, pet.Animal.Species, "")
	return !blocked && !household.Avoids(pet, f)
}
