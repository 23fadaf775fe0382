package advice

import (
	"math"
	"slices"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/milp"
)

const (
	// mostChanged is the share of the raw weight of a base that a change may add:
	// more is another recipe.
	mostChanged = 0.15
	// mostTaken is the share of a pot's energy that a change may take out of it.
	mostTaken = 0.5
	// mostDried is the same for dried herbs, yeast, seaweed and the like: more of
	// them nobody cooks (common practice).
	mostDried = 0.02
	// leastChanged is the least share of the raw weight that is worth a change and
	// that a spoon spreads evenly through a pot (common practice). It is also the
	// grain of the amounts.
	leastChanged = 0.001
)

// move is one way to change a base: more of a food, or less of what is in it.
type move struct {
	food   *nutrients.Food
	method string
	less   bool
	// kept is what the food brings to the pot, per 100 g of raw weight as stored,
	// yield its cooked weight per raw weight, as this pot came out.
	kept  nutrients.Profile
	yield float64
	// kcal is its energy per gram of raw weight, by the dog's factors.
	kcal float64
	// was is what of it is in the pot, most the largest change, in grams of raw weight.
	was, most float64
}

// signed is the change of grams in the pot.
func (m *move) signed(g float64) float64 {
	if m.less {
		return -g
	}
	return g
}

// pot is a base that may be changed, with the programs of everybody who eats of it.
type pot struct {
	base        *household.Batch
	composition nutrients.Profile
	// concentrates is what the concentrates in the pot bring to its composition.
	concentrates nutrients.Profile
	// raw and cooked are grams, kcal the energy of the pot by the dog's factors.
	raw, cooked, kcal float64
	// yieldRatio is the declared weight of the pot, of what the tables expect of it.
	yieldRatio float64
	// step is the grain of a change in grams.
	step  float64
	pets  []*diet.Program
	moves []move
	// before is what the base as it is means for every pet.
	before []outcome
	// statusBefore is what the plan of every pet of the household is called before.
	statusBefore []household.Status
}

// steps is the number of grains of the largest change.
func (p *pot) steps(k int) int {
	m := &p.moves[k]
	if m.less {
		return int(math.Ceil(m.most/p.step - milp.IntegralTol))
	}
	return int(m.most/p.step + milp.IntegralTol)
}

// grams is a number of grains of a move, the first of them cut so that what is then in
// the pot is a whole number of grains, whatever units the file is written in.
func (p *pot) grams(k, n int) float64 {
	m := &p.moves[k]
	if m.less {
		left := p.step * (math.Ceil(m.was/p.step-milp.IntegralTol) - float64(n))
		return min(m.most, m.was-left)
	}
	return p.step*(math.Floor(m.was/p.step+milp.IntegralTol)+float64(n)) - m.was
}

// change is grams of a move.
type change struct {
	move int
	g    float64
}

// outcome is what a base means for one pet: the least that is missed, in sums of
// limits, and the least add-on at that.
type outcome struct {
	impossible bool
	missing    float64
	grams      float64
	staged     *diet.Solution
	// overKitchen is by how much the add-ons must go over what a kitchen gives, mayGoOver by
	// how much the plan lets them, in shares.
	overKitchen, mayGoOver float64
	// overdoses holds, by what is exceeded in words, how many times as much the day holds of a
	// nutrient without an upper limit as it may: an element in all, a nutrient from the
	// concentrates of shelf and pot. What is kept is not in it.
	overdoses map[string]float64
}

// newPot takes the base in use and the pets that a base can help: not those whose
// extras alone are over a limit.
func newPot(h *household.Household) (*pot, error) {
	p := &pot{base: h.Base, raw: h.Base.RawGrams(), cooked: h.Base.CookedGrams()}
	p.yieldRatio = p.cooked / h.Base.ExpectedGrams()
	p.composition, _ = h.Base.Composition()
	p.concentrates = concentratesIn(h.Base)
	p.kcal = p.cooked * dogKcal(&p.composition)
	p.step = max(roundDown(leastChanged*p.raw), h.Kitchen.ScaleG)
	for i := range h.Pets {
		one, err := diet.FormulateOn(h, &h.Pets[i], &p.composition)
		if err != nil {
			return nil, err
		}
		if helpless(one) == "" {
			p.pets = append(p.pets, one)
		}
	}
	var err error
	if p.before, err = p.eat(p.composition, p.concentrates, (*diet.Program).PlannedOn); err != nil {
		return nil, err
	}
	p.collect(h)
	return p, nil
}

// roundDown returns the largest of 1, 2 and 5 times a power of ten that is not over x.
func roundDown(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, k := range []float64{5, 2} {
		if k*power <= x {
			return k * power
		}
	}
	return power
}

// collect lists what may be done to the pot: more of any food that nobody at the
// table must avoid, of the powders that stand on the shelf, and less of what is in.
// A new food of which something harmful is known, in seaweed say how its iodine
// differs, is for people to choose and never proposed.
func (p *pot) collect(h *household.Household) {
	in := map[string]bool{}
	more := func(f *nutrients.Food, method string, most float64) {
		for i := range h.Pets { // who is not counted eats of the pot, too
			if household.Avoids(&h.Pets[i], f) {
				return
			}
		}
		for _, sp := range []nutrients.Species{nutrients.Dog, nutrients.Cat} {
			if _, blocked := nutrients.Blocked(f, sp, method); blocked || !in[f.ID] && slices.ContainsFunc(nutrients.HazardsCooked(f, sp, method), func(h nutrients.Hazard) bool { return !h.Minor }) {
				return
			}
		}
		p.add(move{food: f, method: method, most: min(most, mostChanged*p.raw, p.room(f))})
	}
	for i, x := range p.base.Ingredients {
		earlier := slices.ContainsFunc(p.base.Ingredients[:i], func(y household.Ingredient) bool { return y.Food == x.Food && y.Method == x.Method })
		if x.Food == nil || earlier {
			continue
		}
		in[x.Food.ID] = true
		most := math.Inf(1)
		if x.Food.Supplement() {
			most = p.wanted(x.Food)
		}
		more(x.Food, x.Method, most)
		p.add(move{food: x.Food, method: x.Method, less: true, most: p.has(x.Food, x.Method)})
	}
	for _, a := range h.Addons {
		if f := a.Food; f.Supplement() && f.Powder && f.PerUnit == nil && !in[f.ID] {
			in[f.ID] = true
			more(f, "", p.wanted(f))
		}
	}
	for _, f := range h.Catalogue.All() {
		if f.Supplement() || f.PerUnit != nil || in[f.ID] || f.State == "cooked" {
			continue
		}
		most := math.Inf(1)
		if f.State == "dried" && (f.Group == "other" || f.Group == "seaweed" || f.Group == "vegetable") {
			most = mostDried * p.raw
		}
		more(f, potMethod(f), most)
	}
}

// has is the grams of a food in the pot by a cooking method.
func (p *pot) has(f *nutrients.Food, method string) float64 {
	g := 0.0
	for _, in := range p.base.Ingredients {
		if in.Food == f && in.Method == method {
			g += in.Grams
		}
	}
	return g
}

// room is how much more of a concentrate the pot may hold: not every nutrient has an
// upper limit, so no bowl gets more of one than an add-on may be.
func (p *pot) room(f *nutrients.Food) float64 {
	room := math.Inf(1)
	for _, one := range p.pets {
		per := diet.PerGram(&f.Per100g, one.Pet.Animal.Species)
		daily, _ := diet.ConcentrateCap(f, &per, one.Targets.Limits)
		room = min(room, daily/one.Items[0].Cap*p.cooked)
	}
	for _, in := range p.base.Ingredients {
		if in.Food == f {
			room -= in.Grams
		}
	}
	return room
}

// wanted is the most of a supplement that the pot can use: as much in each bowl as
// the pet gets that wants most of it for its portion. Not every nutrient has an
// upper limit in every standard, so what nobody wants must not go in.
func (p *pot) wanted(f *nutrients.Food) float64 {
	most := 0.0
	for i, one := range p.pets {
		o := p.before[i]
		for j := 1; j < len(one.Items); j++ {
			if !o.impossible && one.Items[j].Id == f.ID && o.staged.X[0] > 0 {
				most = max(most, o.staged.X[j]/o.staged.X[0]*p.cooked)
			}
		}
	}
	return most
}

func (p *pot) add(m move) {
	m.was = p.has(m.food, m.method)
	cooked := p.base.Losses(m.food, m.method)
	m.kept, m.yield, m.kcal = cooked.Kept, cooked.YieldShare*p.yieldRatio, dogKcal(&cooked.Kept)
	if energy := mostTaken * p.kcal / m.kcal; m.less && m.kcal > 0 && m.most > energy {
		m.most = p.step * math.Floor(energy/p.step)
	}
	if m.most >= p.step {
		p.moves = append(p.moves, m)
	}
}

func dogKcal(per100g *nutrients.Profile) float64 {
	per := diet.PerGram(per100g, nutrients.Dog)
	return per[nutrients.Energy].Lo
}

// cookedFirst says whether a food is not fed as it is: raw meat, offal, fish and egg,
// dry grain and legumes, raw roots, and whatever else, a household's own mince say,
// holds a hazard for a species that cooking takes away.
func cookedFirst(f *nutrients.Food, sp nutrients.Species) bool {
	switch potMethod(f) {
	case "simmered":
		return true
	case "boiled":
		if f.Group == "grain" || f.Group == "legume" || f.Group == "starch-root" {
			return true
		}
	}
	return len(nutrients.Hazards(f, sp)) > len(nutrients.HazardsCooked(f, sp, "simmered"))
}

// potMethod is how a food of the catalogue is cooked in a pot; empty for what goes
// in as it is.
func potMethod(f *nutrients.Food) string {
	switch f.Group {
	case "poultry", "beef", "pork", "lamb", "veal", "game", "organ", "fish", "shellfish", "egg":
		if f.State == "raw" {
			return "simmered"
		}
	case "vegetable", "starch-root", "legume", "seaweed", "grain":
		if f.State == "raw" || f.State == "dry" {
			return "boiled"
		}
	}
	return ""
}
