package optimize

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"bowlwright/household"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/jar"
)

const (
	// sticks is the share that a mix is made larger by, for what sticks to bowl and jar
	// (common practice).
	sticks = 0.03
	// mostOver is how much more add-on than a new mix a jar in use may need before a new
	// one is made.
	mostOver = 0.15
	// largerMixes are the times its days that a recipe is made for where the scale is too
	// coarse for fewer.
	largerMixes = 3
)

// recipeRooms are the shares of each limit that a recipe keeps inside, so that whole
// steps of the doses find room too; the first with which nobody falls short counts.
var recipeRooms = [...]float64{0.001, 0.003, 0.01, 0}

// MixRequest asks which jars the pets of a household eat from.
type MixRequest struct {
	Household *household.Household
	Today     household.Date
	Version   string
	// Current are the jars in use: mixed or, before that, planned. They are kept as long
	// as they suit.
	Current []household.Jar
	// Keep asks never to compose a jar anew where there is a current one, as when only
	// some of its pets are planned.
	Keep bool
}

// Mixed is what one [[jar]] came to.
type Mixed struct {
	Spec household.JarSpec
	// Jars are one jar, or more where no one jar serves all its pets; none where no
	// recipe can be weighed.
	Jars []household.Jar
	// New says that the jars are not the current ones; Why says what spoke against those.
	New bool
	Why string
	// Alone and Together are the grams of add-on a day of the pets with premixes of their
	// own and with the jars; Least what the exact programs say that no pet goes under.
	Alone, Together, Least float64
	// WeighingsAlone and WeighingsTogether count the powders weighed out for a mix.
	WeighingsAlone, WeighingsTogether int
	// Notes say what a person should know.
	Notes []string

	// doses are the shares of the composition, for its bound.
	mixes []*jar.Mix
}

// Bound proves grams that no jar for these pets goes under, by a search of at most so
// many boxes for each jar; the pets' own least where it does not search.
func (m *Mixed) Bound(most int) float64 {
	if len(m.mixes) == 0 {
		return m.Least
	}
	sum := 0.0
	for _, mix := range m.mixes {
		sum += mix.Bound(most)
	}
	return max(sum, m.Least)
}

// Mixes works out the jars of a household, one after the other.
func Mixes(ctx context.Context, req MixRequest) ([]*Mixed, error) {
	var all []*Mixed
	for _, spec := range req.Household.Jars {
		m := &mixer{ctx: ctx, req: req, spec: spec, shared: Share(req.Household), out: &Mixed{Spec: spec}}
		if err := m.run(); err != nil {
			return nil, err
		}
		all = append(all, m.out)
	}
	return all, nil
}

// mixer works out the jars of one spec.
type mixer struct {
	ctx    context.Context
	req    MixRequest
	spec   household.JarSpec
	shared *Shared
	// pets are those that can be planned at all, with their programs and what each gets
	// with a premix of its own.
	pets     []*household.Pet
	programs []jar.Pet
	alone    []*household.Plan
	// served are the pets that the one jar in use was composed for.
	served []string
	out    *Mixed
}

func (m *mixer) run() error {
	if err := m.own(); err != nil {
		return err
	}
	if len(m.pets) == 0 {
		return nil
	}
	current := m.current()
	if len(current) > 0 {
		plans, err := m.with(current)
		if err != nil {
			return err
		}
		if m.newcomers(current, plans) {
			if plans, err = m.with(current); err != nil {
				return err
			}
		}
		m.out.Jars = current
		m.count(plans)
		if m.req.Keep {
			return nil
		}
		if m.out.Why = m.unsuitable(plans); m.out.Why == "" {
			return nil
		}
	}
	return m.compose()
}

// own plans each pet with a premix of its own, and leaves out who cannot be fed at all.
func (m *mixer) own() error {
	h := m.req.Household
	for _, name := range m.spec.Pets {
		pet, ok := h.Pet(name)
		if !ok {
			panic("optimize: a jar for a pet that there is not: " + name)
		}
		plan, err := Solve(m.ctx, Request{Household: h, Pet: pet, Today: m.req.Today, Version: m.req.Version, Shared: m.shared})
		if m.ctx.Err() != nil {
			return m.ctx.Err()
		}
		if err != nil {
			// Planning the pet itself says so as an error; the others can have their jar.
			m.note("%s is left out of %s: %v", pet.Name, m.spec.Name, err)
			continue
		}
		if !plan.Pet.Status.Printable() {
			m.note("%s is left out of %s: its plan is %s", pet.Name, m.spec.Name, plan.Pet.Status)
			continue
		}
		p, err := diet.FormulateOn(h, pet, &m.shared.composition)
		if err != nil {
			return err
		}
		least, _, err := p.LeastAddon()
		if err != nil {
			return err
		}
		m.pets, m.alone = append(m.pets, pet), append(m.alone, plan)
		m.programs = append(m.programs, programOfJar(p, least))
		m.out.Alone += addonGrams(plan)
		m.out.Least += least.LeastG
		m.out.WeighingsAlone += weighings(plan)
	}
	return nil
}

// programOfJar is a pet's program as package jar reads it.
func programOfJar(p *diet.Program, least *diet.Solution) jar.Pet {
	out := jar.Pet{Name: p.Pet.Name, Missed: least.Violation, Least: least.LeastG}
	for _, x := range p.Items {
		powder := x.Addon != nil && x.Addon.Food.Powder && x.Addon.Unit == "" && x.Addon.StepG == 0
		out.Items = append(out.Items, jar.Item{ID: x.Id, Powder: powder, Cap: x.Cap})
	}
	for _, r := range p.Rows {
		out.Rows = append(out.Rows, jar.Row{A: r.A, Lower: r.Lower, Upper: r.Upper, Size: r.Size, Elastic: r.Elastic})
	}
	return out
}

// current are the jars in use of this spec, nil unless they serve all its pets.
func (m *mixer) current() []household.Jar {
	var jars []household.Jar
	for _, j := range m.req.Current {
		if j.Of == m.spec.Name {
			jars = append(jars, j)
		}
	}
	// A new pet gets its dose from the jar there is, where that is one.
	if len(jars) == 1 {
		m.served = jars[0].Pets
		jars[0].Pets = m.spec.Pets
	}
	for _, pet := range m.pets {
		if !slices.ContainsFunc(jars, func(j household.Jar) bool { return j.Serves(pet.Name) }) {
			return nil
		}
	}
	if _, unusable := m.req.Household.WithJars(jars); len(unusable) > 0 {
		m.note("%s", unusable[0])
		return nil
	}
	return jars
}

// newcomers leaves out of the jar in use who was not among its pets when it was composed
// and would fall short with it: its own premix meets it, and the jar goes on for the others.
func (m *mixer) newcomers(jars []household.Jar, plans []*household.Plan) (some bool) {
	for k, plan := range slices.Backward(plans) {
		if len(jars) != 1 || slices.Contains(m.served, plan.Pet.Pet) || plan.Pet.Status == household.Met || m.alone[k].Pet.Status != household.Met {
			continue
		}
		m.note("%s keeps a premix of its own: the %s in use does not meet it", plan.Pet.Pet, m.spec.Name)
		jars[0].Pets = slices.DeleteFunc(slices.Clone(jars[0].Pets), func(n string) bool { return n == plan.Pet.Pet })
		m.drop(k)
		some = true
	}
	return some
}

// drop leaves a pet out of the jars.
func (m *mixer) drop(k int) {
	m.out.Alone -= addonGrams(m.alone[k])
	m.out.WeighingsAlone -= weighings(m.alone[k])
	m.out.Least -= m.programs[k].Least
	m.pets, m.programs, m.alone = slices.Delete(m.pets, k, k+1), slices.Delete(m.programs, k, k+1), slices.Delete(m.alone, k, k+1)
}

// with plans the pets with jars.
func (m *mixer) with(jars []household.Jar) ([]*household.Plan, error) {
	h, unusable := m.req.Household.WithJars(jars)
	if len(unusable) > 0 {
		return nil, errors.New(unusable[0])
	}
	shared := Share(h)
	var plans []*household.Plan
	for _, pet := range m.pets {
		plan, err := Solve(m.ctx, Request{Household: h, Pet: pet, Today: m.req.Today, Version: m.req.Version, Shared: shared})
		if err != nil {
			return nil, fmt.Errorf("%s: %w", pet.Name, err)
		}
		plans = append(plans, plan)
	}
	return plans, nil
}

// count sums what the plans with jars need.
func (m *mixer) count(plans []*household.Plan) {
	m.out.Together, m.out.WeighingsTogether = 0, 0
	for _, plan := range plans {
		m.out.Together += addonGrams(plan)
		m.out.WeighingsTogether += weighings(plan)
	}
	for _, j := range m.out.Jars {
		m.out.WeighingsTogether += len(j.Parts)
	}
}

// unsuitable says what speaks against the jars in use: somebody who could be met is not,
// or a new mix would need much less. "" where nothing does.
func (m *mixer) unsuitable(plans []*household.Plan) string {
	for i, plan := range plans {
		if plan.Pet.Status != household.Met && m.alone[i].Pet.Status == household.Met {
			return fmt.Sprintf("with it %s would be below a minimum", plan.Pet.Pet)
		}
	}
	// A new mix is not lighter than one without margins, which is quickly composed.
	if plain, err := jar.Compose(m.programs, jar.Rules{OneRate: m.spec.PerBase}); err == nil && m.out.Together <= (1+mostOver)*plain.Total() {
		return ""
	}
	groups, _, err := m.serve()
	if err != nil {
		return ""
	}
	if fresh := jar.Total(groups); m.out.Together > (1+mostOver)*fresh {
		return fmt.Sprintf("a new mix would need %.3g g a day in place of %.3g g", fresh, m.out.Together)
	}
	return ""
}

func (m *mixer) note(format string, args ...any) {
	m.out.Notes = append(m.out.Notes, sentence(fmt.Sprintf(format, args...)))
}

func addonGrams(plan *household.Plan) float64 {
	sum := 0.0
	for _, a := range plan.Pet.Addons {
		sum += a.G
	}
	return sum
}

// weighings counts the powders weighed out for a pet's own premix.
func weighings(plan *household.Plan) int {
	if plan.Pet.Premix == nil {
		return 0
	}
	return len(plan.Pet.Premix.Items)
}
