package advice

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/parallel"
	"bowlwright/nutrients"
	"bowlwright/optimize"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/milp"
)

const (
	// mostImprovements bounds the list, mostOfAGroup how many single changes with
	// one group of foods it holds: the tenth liver says nothing new.
	mostImprovements = 6
	mostOfAGroup     = 2
	// usefulSaving is the share of all add-on, or of what is missed, that a
	// change has to save.
	usefulSaving = 0.02
)

// Improvement is a change of the base that brings everybody who eats of it nearer
// to the targets, or to them with less add-on. Amounts are exact, not yet rounded
// to what scales can weigh of the add-ons.
type Improvement struct {
	Changes []BaseChange `json:"changes"`
	// Base is the identity of the changed base. CodeSettled is false where the
	// base declares its yield: then the code follows from what the new pot weighs.
	Base        household.Identity `json:"base"`
	CodeSettled bool               `json:"code_settled"`
	// BeforeG and AfterG are the least add-on of all pets a day.
	BeforeG float64     `json:"addon_g_before"`
	AfterG  float64     `json:"addon_g_after"`
	Pets    []PetEffect `json:"pets"`
	// Ceiling says how far the change may go, nil where it could go on.
	Ceiling *Ceiling `json:"ceiling,omitempty"`
}

// BaseChange is grams more, or where negative less, of one food in the pot as it
// is declared, raw weight.
type BaseChange struct {
	Food   string  `json:"food"`
	Name   string  `json:"name"`
	Method string  `json:"method,omitempty"`
	G      float64 `json:"g"`
	// WasG is what of it is in the pot now.
	WasG float64 `json:"was_g"`
	// StirredIn is true for powders from the shelf, which go in when the pot is
	// cooked.
	StirredIn bool `json:"stirred_in,omitempty"`
	// Cautions are what to mind with the food.
	Cautions []string `json:"cautions,omitempty"`
}

// PetEffect is what a change means for one pet. Missing is the sum of what is
// missed of all limits, each in units of its limit; Impossible that nothing keeps
// the upper limits and the energy.
type PetEffect struct {
	Pet              string  `json:"pet"`
	BeforeG          float64 `json:"addon_g_before"`
	AfterG           float64 `json:"addon_g_after"`
	BeforeMissing    float64 `json:"missing_before"`
	AfterMissing     float64 `json:"missing_after"`
	BeforeImpossible bool    `json:"impossible_before,omitempty"`
	AfterImpossible  bool    `json:"impossible_after,omitempty"`
	// NotNeeded are add-ons that the least add-on holds no more.
	NotNeeded []string `json:"not_needed,omitempty"`
	// AtLimit are upper limits at which the pet then stands, and did not before.
	AtLimit []string `json:"at_limit,omitempty"`
}

// Ceiling is the change, in grams of its first food, from which on a pet would be
// worse off than now, and the limits that it would miss.
type Ceiling struct {
	G      float64  `json:"g"`
	Pet    string   `json:"pet"`
	Limits []string `json:"limits"`
}

// Improve looks for changes of the base in use by which all pets together
// miss least and need the least add-on: single ones, and up to three together. No
// change leaves a pet with more missed than before. The best comes first; an empty
// list means that nothing in the catalogue is worth another base. Pets whose extras
// alone are over a limit are left out: no base helps them. Errors are those of Solve.
func Improve(ctx context.Context, h *household.Household) ([]Improvement, error) {
	p, err := newPot(h)
	if err != nil {
		return nil, err
	}
	if len(p.pets) == 0 {
		return nil, nil
	}
	singles, err := p.singles(ctx)
	if err != nil {
		return nil, err
	}
	if singles, err = p.asPlanned(singles); err != nil {
		return nil, err
	}
	together, err := p.severalChanges(ctx, singles)
	if err != nil {
		return nil, err
	}
	all := singles
	if together != nil && (len(all) == 0 || better(verdictOf(all[0].after), verdictOf(together.after), anotherFood)) {
		all = slices.Insert(slices.Clone(all), 0, *together)
	}
	if p.statusBefore, err = statuses(ctx, h, h.Base); err != nil {
		return nil, err
	}
	out := make([]Improvement, 0, mostImprovements)
	groups := map[string]int{}
	for _, t := range all {
		group, single := p.moves[t.changes[0].move].food.Group, len(t.changes) == 1
		if single && groups[group] == mostOfAGroup {
			continue
		}
		one, err := p.improvement(ctx, h, t)
		if err != nil {
			return nil, err
		}
		if one == nil {
			continue
		}
		if single {
			groups[group]++
		}
		if out = append(out, *one); len(out) == mostImprovements {
			break
		}
	}
	return out, nil
}

// statuses makes everybody's plan on a base, whole steps of the scales and all, and
// returns what each is called.
func statuses(ctx context.Context, h *household.Household, base *household.Batch) ([]household.Status, error) {
	changed := *h
	changed.Base = base
	shared := optimize.Share(&changed)
	out, errs := make([]household.Status, len(h.Pets)), make([]error, len(h.Pets))
	parallel.OnAllProcessors(len(h.Pets), func(i int) {
		plan, err := optimize.Solve(ctx, optimize.Request{Household: &changed, Pet: &h.Pets[i], Shared: shared})
		if errs[i] = err; err == nil {
			out[i] = plan.Pet.Status
		}
	})
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// anyWorse says whether a plan that was met is not, or one with amounts has none: exact
// amounts may do where the scales do not.
func anyWorse(was, is []household.Status) bool {
	for i := range is {
		if was[i] == household.Met && is[i] != household.Met || was[i].Printable() && !is[i].Printable() {
			return true
		}
	}
	return false
}

// NotHelped returns for each pet that no base helps, so that Improve leaves it out, what
// is in the way: its extras alone are over a limit, or nothing is known of the energy of
// the base.
func NotHelped(h *household.Household) (map[string]string, error) {
	composition, _ := h.Base.Composition()
	why := map[string]string{}
	for i := range h.Pets {
		one, err := diet.FormulateOn(h, &h.Pets[i], &composition)
		if err != nil {
			return nil, err
		}
		if reason := helpless(one); reason != "" {
			why[one.Pet.Name] = reason
		}
	}
	return why, nil
}

// helpless says why no change of the base helps a pet, nothing where one may.
func helpless(p *diet.Program) string {
	if over := p.ExtrasOver(); len(over) > 0 {
		return strings.Join(over, "; ")
	}
	if p.Rows[0].A[0] <= 0 {
		return "the base has no known energy"
	}
	return ""
}

// trial is a change and what it means for every pet.
type trial struct {
	changes []change
	after   []outcome
}

// better says whether a verdict saves a share of another: of what is missed, or
// where no less is missed of the add-on.
func better(before, after verdict, share float64) bool {
	switch {
	case after.impossible != before.impossible:
		return after.impossible < before.impossible
	case after.missing < before.missing-diet.ViolationSliver:
		return after.missing < before.missing*(1-share)
	}
	return after.missing <= before.missing+diet.ViolationSliver && after.grams < before.grams*(1-share)
}

// improvement describes a trial, worked out anew from the changed recipe; nil when
// somebody would be worse off by that, or a plan would be called worse.
func (p *pot) improvement(ctx context.Context, h *household.Household, t trial) (*Improvement, error) {
	out := &Improvement{CodeSettled: p.base.YieldG == 0}
	var changes []household.Change
	for _, c := range t.changes {
		m := &p.moves[c.move]
		g := m.signed(c.g)
		one := BaseChange{Food: m.food.ID, Name: m.food.Name, Method: m.method, G: g, WasG: m.was, StirredIn: g > 0 && m.food.Supplement()}
		if g > 0 {
			one.Cautions = p.cautions(m)
		}
		out.Changes = append(out.Changes, one)
		changes = append(changes, household.Change{Food: m.food, Method: m.method, Grams: g})
	}
	base := p.base.With(changes...)
	out.Base = base.Identity()
	composition, _ := base.Composition()
	after, err := p.eat(composition, concentratesIn(base), (*diet.Program).PlannedOn)
	if err != nil {
		return nil, err
	}
	if len(harmed(p.before, after)) > 0 {
		return nil, nil
	}
	called, err := statuses(ctx, h, base)
	if err != nil || anyWorse(p.statusBefore, called) {
		return nil, err
	}
	out.BeforeG, out.AfterG = verdictOf(p.before).grams, verdictOf(after).grams
	for i, one := range p.pets {
		b, a := p.before[i], after[i]
		effect := PetEffect{Pet: one.Pet.Name, BeforeG: b.grams, AfterG: a.grams, BeforeMissing: b.missing, AfterMissing: a.missing,
			BeforeImpossible: b.impossible, AfterImpossible: a.impossible}
		if !b.impossible && !a.impossible {
			for _, j := range one.AsOnShelf() {
				if b.staged.X[j] > diet.CleanGrain && a.staged.X[j] <= diet.CleanGrain {
					effect.NotNeeded = append(effect.NotNeeded, one.Items[j].Name)
				}
			}
		}
		was := b.atUpper(one)
		now := a.atUpper(one)
		for _, r := range one.Rows {
			if _, stood := was[r.Limit]; now[r.Limit].Of != nil && !stood {
				effect.AtLimit = append(effect.AtLimit, one.InWords(r))
			}
		}
		out.Pets = append(out.Pets, effect)
	}
	out.Ceiling, err = p.howFar(t)
	return out, err
}

// cautions are what is to be minded with a food, for everybody at the table.
func (p *pot) cautions(m *move) []string {
	var all []string
	alone := &household.Batch{Ingredients: []household.Ingredient{{Food: m.food, Method: m.method}}}
	for _, one := range p.pets {
		pet := *one.Pet
		pet.Extras = nil
		for _, text := range household.FoodCautions(&pet, alone, nil) {
			if !slices.Contains(all, text) {
				all = append(all, text)
			}
		}
	}
	return all
}

// howFar looks for the change, up to twice what a change may be, from which on a
// pet is worse off; only single changes have one.
func (p *pot) howFar(t trial) (*Ceiling, error) {
	if len(t.changes) != 1 {
		return nil, nil
	}
	k := t.changes[0].move
	m := &p.moves[k]
	good, bad := int(t.changes[0].g/p.step+milp.IntegralTol), 2*p.steps(k)
	if m.less {
		bad = p.steps(k)
	}
	var worst []outcome
	at := func(n int) (bool, error) {
		after, err := p.planned([]change{{k, p.grams(k, n)}})
		if err != nil || len(harmed(p.before, after)) == 0 {
			return false, err
		}
		worst = after
		return true, nil
	}
	if harm, err := at(bad); err != nil || !harm || bad <= good {
		return nil, err
	}
	for bad-good > 1 {
		middle := (good + bad) / 2
		harm, err := at(middle)
		if err != nil {
			return nil, err
		}
		if harm {
			bad = middle
		} else {
			good = middle
		}
	}
	if _, err := at(bad); err != nil {
		return nil, err
	}
	i := harmed(p.before, worst)[0]
	return &Ceiling{G: m.signed(p.grams(k, bad)), Pet: p.pets[i].Pet.Name, Limits: p.missedBy(i, k, p.grams(k, bad), worst[i])}, nil
}

// missedBy names the limits that a pet misses with a change, or misses by more than
// without it.
func (p *pot) missedBy(i, move int, g float64, o outcome) []string {
	one := p.pets[i]
	if !o.impossible {
		return worse(one, p.before[i], o)
	}
	m := &p.moves[move]
	composition, _ := p.base.With(household.Change{Food: m.food, Method: m.method, Grams: m.signed(g)}).Composition()
	changed := one.PlannedOn(diet.PerGram(&composition, one.Pet.Animal.Species))
	if over := changed.BaseOver(); len(over) > 0 {
		return over
	}
	rows, caps := changed.Irreducible(false)
	return changed.Listed(rows, caps)
}

// worse names the limits that are missed by more than before; where many are by a hair
// each, those by the most.
func worse(p *diet.Program, before, after outcome) []string {
	var rows []diet.Row
	var more []float64
	for _, r := range p.Rows {
		if r.Elastic {
			at := len(p.Items) + len(rows)
			rows, more = append(rows, r), append(more, after.staged.X[at]-before.staged.X[at])
		}
	}
	counts := diet.ViolationSliver / 2
	if most := slices.Max(more); most > 0 {
		counts = min(counts, most/2)
	}
	var missed []string
	for i, r := range rows {
		if more[i] > counts {
			missed = append(missed, p.InWords(r))
		}
	}
	missed = append(missed, moreOverdosed(before, after)...)
	if !furtherOver(before, after) {
		return missed
	}
	for _, j := range p.AsOnShelf() {
		x := &p.Items[j]
		was, name := before.staged.X[j], nutrients.InSentence(x.Name)
		switch now := after.staged.X[j]; {
		case now <= max(x.Kitchen, was)+diet.CleanGrain:
		case was > x.Kitchen:
			missed = append(missed, fmt.Sprintf("not more than %.3g g of %s, as now: a kitchen gives %.3g g", was, name, x.Kitchen))
		default:
			missed = append(missed, fmt.Sprintf("not more than %.3g g of %s: a kitchen gives no more", x.Kitchen, name))
		}
	}
	return missed
}

// String names a move for people who debug.
func (m *move) String() string {
	if m.less {
		return fmt.Sprintf("less %s", m.food.ID)
	}
	return fmt.Sprintf("more %s (%s)", m.food.ID, m.method)
}
