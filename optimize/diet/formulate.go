package diet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// Item is one unknown: the base or an add-on. Its profile is per gram, as the
// species uses it.
type Item struct {
	Id, Name string
	Addon    *household.Addon // nil for the base
	Per      nutrients.Profile
	// Cap is the most grams a day, helping the most at once.
	Cap, Helping float64
	// Kitchen is what a kitchen gives of it in a day, infinite where there is no such
	// cap; a cap above it was raised because less would miss more.
	Kitchen float64
	// place is where an add-on stands on the household's shelf.
	place int
}

// Row is one limit in canonical units, what the extras bring already taken off.
type Row struct {
	Limit        nutrients.LimitID
	A            []float64
	Lower, Upper float64
	// Elastic rows may be missed, at the price of a plan that is short.
	Elastic bool
	// Size is the limit itself: violations are measured in it.
	Size float64
	// AtOnce is the most of a single day where helpings for several days may bring more
	// than upper, which is then the most on average; 0 where upper holds for each day.
	AtOnce float64
	// Of is what a gram of something with a profile adds to the row; nil where
	// the base adds nothing.
	Of func(*nutrients.Profile) float64
}

// Program is the linear program of one pet.
type Program struct {
	Pet     *household.Pet
	Kitchen household.Kitchen
	Targets nutrients.Targets
	Items   []Item
	Rows    []Row
	extras  nutrients.Profile // totals, not per gram
	// EnergyLeft is the kcal that the extras leave for base and add-ons, EnergySlack how
	// far those may be from it.
	EnergyLeft, EnergySlack float64
	// Prefer is the pet's, or the least when its own cannot be weighed.
	Prefer household.Preference
	// Counts is what a gram of each item counts for in the least add-on: one, or for
	// the cheapest its price in units of the dearest; nothing for the base.
	Counts []float64
	// OverKitchen is the least that the add-ons go over the caps of the kitchen, summed in
	// shares of each; 0 where they hold, infinite where no least was found.
	OverKitchen float64
	Notes       []string
}

// Formulate states the program of a pet.
func Formulate(h *household.Household, pet *household.Pet) (*Program, error) {
	composition, _ := h.Base.Composition()
	return FormulateOn(h, pet, &composition)
}

// FormulateOn is formulate with the composition of the base at hand.
func FormulateOn(h *household.Household, pet *household.Pet, composition *nutrients.Profile) (*Program, error) {
	t, err := nutrients.TargetsFor(AnimalOf(h, pet))
	if err != nil {
		return nil, err
	}
	p := &Program{Pet: pet, Kitchen: h.KitchenFor(pet), Targets: t, Prefer: pet.Prefer}
	sp := pet.Animal.Species
	p.Items = []Item{{Id: h.Base.File, Name: h.Base.Name, Per: PerGram(composition, sp)}}
	for place, a := range household.Offered(h, pet) {
		if a.Food.PerUnit != nil && a.Food.UnitGrams <= 0 {
			p.Notes = append(p.Notes, fmt.Sprintf("%s is not used: the weight of one %s is not known", a.Food.Name, a.Food.UnitName))
			continue
		}
		p.Items = append(p.Items, Item{Id: a.Food.ID, Name: a.Food.Name, Addon: &a, Per: PerGram(&a.Food.Per100g, sp), place: place})
	}
	// The order of the file must not decide between amounts that are equally good.
	slices.SortFunc(p.Items[1:], func(a, b Item) int { return cmp.Or(strings.Compare(a.Id, b.Id), cmp.Compare(a.place, b.place)) })
	for _, a := range h.Addons {
		if household.Avoids(pet, a.Food) {
			p.Notes = append(p.Notes, fmt.Sprintf("%s is not used: %s avoids it", a.Food.Name, pet.Name))
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
	p.Counts = make([]float64, len(p.Items))
	for j := 1; j < len(p.Items); j++ {
		p.Counts[j] = 1
	}
	p.addEnergy()
	for _, l := range t.Limits {
		p.addLimit(l)
	}
	for _, r := range t.Rises {
		p.addRisen(r)
	}
	for _, r := range t.Ratios {
		p.addRatio(r)
	}
	p.addConcentrates()
	p.setCaps()
	p.addOneRate()
	return p, nil
}

// AnimalOf fills in the household's standard where the pet names none.
func AnimalOf(h *household.Household, pet *household.Pet) nutrients.Animal {
	a := pet.Animal
	if a.Standard == "" {
		a.Standard = h.Standard
	}
	return a
}

// Spent is what amounts count for in the least add-on.
func (p *Program) Spent(x []float64) float64 {
	sum := 0.0
	for j, s := range p.Counts {
		sum += s * x[j]
	}
	return sum
}

func PerGram(per100g *nutrients.Profile, sp nutrients.Species) nutrients.Profile {
	p := per100g.For(sp)
	for i := range p {
		p[i] = p[i].Scale(0.01)
	}
	return p
}

// AsOnShelf returns the indices of the add-ons in the order of the household's shelf.
func (p *Program) AsOnShelf() []int {
	order := make([]int, 0, len(p.Items))
	for j := 1; j < len(p.Items); j++ {
		order = append(order, j)
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(p.Items[a].place, p.Items[b].place) })
	return order
}

func (p *Program) addEnergy() {
	target := p.Targets.Energy.Kcal
	kcal := func(per *nutrients.Profile) float64 { return per[nutrients.Energy].Lo }
	p.EnergyLeft, p.EnergySlack = target-kcal(&p.extras), p.Kitchen.EnergySlack*target
	p.add(Row{Limit: nutrients.EnergyOfDay, Lower: p.EnergyLeft - p.EnergySlack, Upper: p.EnergyLeft + p.EnergySlack, Size: target, Of: kcal})
	share := slices.Clone(p.Rows[0].A)
	share[0] = 0
	most := p.Kitchen.AddonEnergyShare * target
	p.Rows = append(p.Rows, Row{Limit: nutrients.EnergyOfAddons, A: share, Lower: math.Inf(-1), Upper: most, Size: max(most, target/1000)})
}

// add takes a row whose coefficients follow from the profiles of the items.
func (p *Program) add(r Row) {
	r.A = make([]float64, len(p.Items))
	for j := range p.Items {
		r.A[j] = r.Of(&p.Items[j].Per)
	}
	p.Rows = append(p.Rows, r)
}

func (p *Program) addLimit(l nutrients.Limit) {
	id := l.Nutrient
	if l.Lower != nil && *l.Lower > 0 {
		p.add(Row{Limit: nutrients.MinimumOf(id), Lower: *l.Lower - p.extras[id].Lo, Upper: math.Inf(1), Elastic: true, Size: *l.Lower,
			Of: func(per *nutrients.Profile) float64 { return per[id].Lo }})
	}
	if l.Upper != nil {
		if *l.Upper <= 0 {
			panic("diet: a maximum of zero")
		}
		p.add(Row{Limit: nutrients.MaximumOf(id), Lower: math.Inf(-1), Upper: *l.Upper - p.extras[id].Hi, Size: *l.Upper,
			Of: func(per *nutrients.Profile) float64 { return per[id].Hi }})
	}
	if l.NoHarm != nil {
		most := p.unharmed(l)
		p.add(Row{Limit: nutrients.MostUnharmed(id), Lower: math.Inf(-1), Upper: most - p.extras[id].Hi, Size: most,
			Of: func(per *nutrients.Profile) float64 { return per[id].Hi }})
	}
}

// unharmed is how much of a nutrient a day may hold whose add-ons bring some: the amount
// up to which no harm was seen, or what base and extras bring without them, at the most
// base that the energy allows.
func (p *Program) unharmed(l nutrients.Limit) float64 {
	kcal := p.Rows[0].A[0]
	if kcal <= 0 {
		return *l.NoHarm
	}
	portion := max(0, p.Rows[0].Upper) / kcal
	return max(*l.NoHarm, p.extras[l.Nutrient].Hi+portion*p.Items[0].Per[l.Nutrient].Hi)
}

// addRisen states a minimum that grows with another nutrient, as a linear row beside the
// plain minimum.
func (p *Program) addRisen(r nutrients.Risen) {
	of := func(per *nutrients.Profile) float64 { return per[r.Nutrient].Lo - r.PerUnit*per[r.With].Hi }
	p.add(Row{Limit: nutrients.RisenMinimum(r.Nutrient), Lower: r.Base - r.PerUnit*r.Above - of(&p.extras), Upper: math.Inf(1), Elastic: true, Size: r.Base, Of: of})
}

// addRatio states a quotient as linear rows. A ratio may be missed like a lower
// limit: it is a measure of balance, not of harm.
func (p *Program) addRatio(r nutrients.Ratio) {
	state := func(side nutrients.Side, k float64, upper bool) {
		of := func(per *nutrients.Profile) float64 { return ratioTerm(per, r, k, upper) }
		p.add(Row{Limit: nutrients.RatioLimit(r.Key, side), Lower: -of(&p.extras), Upper: math.Inf(1), Elastic: true, Size: p.ratioSize(r, k), Of: of})
	}
	if r.Lower != nil {
		state(nutrients.Minimum, *r.Lower, false)
	}
	if r.Upper != nil {
		state(nutrients.Maximum, *r.Upper, true)
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
func (p *Program) ratioSize(r nutrients.Ratio, k float64) float64 {
	num, den := 0.0, 0.0
	for _, l := range p.Targets.Limits {
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

// OnBase is the program with a base of another profile per gram.
func (p *Program) OnBase(per nutrients.Profile) *Program {
	out := *p
	out.Items, out.Rows = slices.Clone(p.Items), slices.Clone(p.Rows)
	out.Items[0].Per = per
	for i := range out.Rows {
		if of := out.Rows[i].Of; of != nil {
			out.Rows[i].A = slices.Clone(out.Rows[i].A)
			out.Rows[i].A[0] = of(&per)
		}
	}
	for i := range out.Rows {
		if r := &out.Rows[i]; r.Limit.Kind == nutrients.OfUnharmed {
			l := out.limitOf(*r)
			r.Size = out.unharmed(l)
			r.Upper = r.Size - out.extras[l.Nutrient].Hi
		}
	}
	if out.Rows[0].A[0] > 0 {
		out.hardCaps()
		for j := range out.Items {
			// What goes over a cap of the kitchen is found for a base that is taken up, not
			// for each of the thousands that are tried.
			if x := &out.Items[j]; x.Kitchen < x.Cap {
				x.Cap = min(x.Cap, max(p.Items[j].Cap, x.Kitchen))
			}
		}
	}
	return &out
}

// PlannedOn is onBase with the caps that a plan on that base has: what goes over those of
// the kitchen is found anew.
func (p *Program) PlannedOn(per nutrients.Profile) *Program {
	out := p.OnBase(per)
	// As in formulate, one rate is no matter of the caps.
	all := out.Rows
	out.Rows = slices.DeleteFunc(slices.Clone(all), func(r Row) bool { return r.Limit == nutrients.OneRate })
	out.setCaps()
	out.Rows = all
	return out
}

// setCaps gives every unknown a finite cap, and lowers it to what a kitchen gives.
func (p *Program) setCaps() {
	if p.Rows[0].A[0] > 0 {
		p.hardCaps()
		p.keepKitchen()
	}
}

// hardCaps gives every unknown a finite cap: what the energy allows, what the
// household declares, what the ceiling of concentrates allows, and no add-on heavier
// than the whole portion of base.
func (p *Program) hardCaps() {
	kcal := p.Rows[0].A
	portion := max(0, p.EnergyLeft/kcal[0])
	p.Items[0].Cap = max(0, p.Rows[0].Upper/kcal[0])
	p.Items[0].Helping = p.Items[0].Cap
	for j := 1; j < len(p.Items); j++ {
		x := &p.Items[j]
		x.Cap = portion
		if kcal[j] > 0 {
			x.Cap = min(x.Cap, p.Rows[1].Upper/kcal[j])
		}
		x.Cap = min(x.Cap, declaredCap(x.Addon, p.Pet))
		daily, atOnce := ConcentrateCap(x.Addon.Food, &x.Per, p.Targets.Limits)
		x.Cap, x.Helping = min(x.Cap, daily), min(x.Cap, atOnce)
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

// Missed sums the violation of the elastic rows, each in units of its limit.
func (p *Program) Missed(x []float64) float64 {
	total := 0.0
	for _, r := range p.Rows {
		if !r.Elastic {
			continue
		}
		sum := 0.0
		for j := range x {
			sum += r.A[j] * x[j]
		}
		if short := (r.Lower - sum) / r.Size; short > LimitTol/2 {
			total += short
		}
	}
	return total
}

// MayGet says whether a pet may have a food as it is: it does not avoid it, and its
// species is not harmed by it.
func MayGet(pet *household.Pet, f *nutrients.Food) bool {
	_, blocked := nutrients.Blocked(f, pet.Animal.Species, "")
	return !blocked && !household.Avoids(pet, f)
}
