package optimize

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"bowlwright/household"
	"bowlwright/optimize/jar"
	"bowlwright/optimize/weighing"
)

// rateGrain is the grain of a rate, in grams of jar to 100 g of base.
const rateGrain = 0.001

// serve divides the pets among as few jars as serve them: one, one with a powder apart
// for one pet, or more.
func (m *mixer) serve() ([]jar.Group, string, error) {
	var all []int
	for k := range m.programs {
		all = append(all, k)
	}
	rules := jar.Rules{OneRate: m.spec.PerBase}
	mix, err := jar.Choose(m.programs, rules)
	if err == nil {
		return []jar.Group{{Pets: all, Mix: mix}}, "", nil
	}
	var none *jar.ConflictError
	if !errors.As(err, &none) {
		return nil, "", err
	}
	why := none.Error()
	if mix, err = jar.Apart(m.programs, rules, none); err == nil {
		return []jar.Group{{Pets: all, Mix: mix}}, why, nil
	}
	if !errors.As(err, &none) {
		return nil, "", err
	}
	divisions, err := jar.Merge(m.programs, rules, 2)
	if err != nil {
		return nil, "", err
	}
	return divisions[len(divisions)-1], why, nil
}

// compose mixes anew. Who is met alone and would fall short with every recipe that the
// scale can weigh keeps a premix of its own, and the others get a jar without it.
func (m *mixer) compose() error {
	m.out.New = true
	for len(m.programs) > 1 {
		out, err := m.composed()
		if err != nil || len(out) == 0 {
			return err
		}
		for _, k := range slices.Backward(out) {
			m.note("%s keeps a premix of its own: no recipe that the scale can weigh meets it with the others", m.pets[k].Name)
			m.drop(k)
		}
	}
	m.out.Jars, m.out.mixes = nil, nil
	m.count(m.alone)
	return nil
}

// composed makes the jars of all pets that are left, and names by their places those whom
// the recipes leave short; then there are no jars.
func (m *mixer) composed() (out []int, err error) {
	m.out.Jars, m.out.mixes = nil, nil
	groups, why, err := m.serve()
	var unproved *jar.UnprovedError
	if errors.As(err, &unproved) {
		m.note("no jar was found that could be verified: %v", err)
		m.count(m.alone)
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var jars []household.Jar
	var mixes []*jar.Mix
	for i, g := range groups {
		if len(g.Pets) == 1 {
			continue
		}
		name := m.spec.Name
		if len(groups) > 1 {
			name = fmt.Sprintf("%s %c", name, 'A'+i)
		}
		made, short, err := m.scooped(g, name)
		if err == nil && made == nil {
			made, short, err = m.recipe(g, name, 0)
		}
		if err != nil {
			return nil, err
		}
		if made == nil {
			m.note("the scale of %g g is too coarse for %s: its pets keep premixes of their own", m.step(), name)
			continue
		}
		out = append(out, short...)
		jars, mixes = append(jars, *made), append(mixes, g.Mix)
	}
	if len(out) > 0 {
		slices.Sort(out)
		return out, nil
	}
	if len(groups) > 1 {
		m.note("%s: they get %d jars or premixes", why, len(groups))
	}
	for i := range jars {
		for pet, food := range jars[i].Apart {
			m.note("%s; %s gets %s beside the jar", why, pet, food)
		}
	}
	m.out.Jars, m.out.mixes = jars, mixes
	plans, err := m.with(jars)
	if err != nil {
		return nil, err
	}
	m.count(plans)
	return nil, nil
}

func (m *mixer) step() float64 { return StepOf(m.req.Household, m.spec) }

// scooped makes a jar whose doses are whole scoops, where they are asked for and nobody
// falls short with them; else it is nil, and says so.
func (m *mixer) scooped(g jar.Group, name string) (*household.Jar, []int, error) {
	if m.spec.ScoopG <= 0 {
		return nil, nil, nil
	}
	var pets []jar.Pet
	for _, k := range g.Pets {
		pets = append(pets, m.programs[k])
	}
	mix, err := jar.Scooped(pets, jar.Rules{Apart: g.Mix.Rules.Apart}, m.spec.ScoopG)
	var none *jar.ConflictError
	if err != nil && !errors.As(err, &none) {
		return nil, nil, err
	}
	if err == nil {
		made, short, err := m.recipe(jar.Group{Pets: g.Pets, Mix: mix}, name, m.spec.ScoopG)
		if err != nil {
			return nil, nil, err
		}
		if made != nil && len(short) == 0 {
			return made, nil, nil
		}
	}
	m.note("no whole scoops of %g g meet all pets of %s: their doses are weighed", m.spec.ScoopG, name)
	return nil, nil, nil
}

// recipe makes a jar of whole steps with which nobody is short who is not short alone; if
// there is none, the one with which fewest are, and who. It is nil where the scale is too
// coarse.
func (m *mixer) recipe(g jar.Group, name string, scoop float64) (*household.Jar, []int, error) {
	grams := 0.0
	for _, dose := range g.Mix.Dose {
		grams += m.forDays(dose)
	}
	var best *household.Jar
	var shortest []int
	for times := 1; times <= largerMixes && (best == nil || len(shortest) > 0); times++ {
		for _, room := range recipeRooms {
			made, short, taken, err := m.tryRecipe(g, name, scoop, room, times, grams)
			if err != nil {
				return nil, nil, err
			}
			if made == nil {
				continue
			}
			if best == nil || len(short) < len(shortest) {
				best, shortest = made, short
			}
			if len(short) == 0 {
				// The doses as planned may take less than those of the composition did.
				again, short, _, err := m.tryRecipe(g, name, scoop, room, times, m.forDays(taken))
				if err == nil && again != nil && len(short) == 0 {
					best = again
				}
				break
			}
		}
	}
	if best != nil && best.Days > m.spec.Days {
		m.note("%s is mixed for %d days, not for %d: for fewer the scale of %g g is too coarse", name, best.Days, m.spec.Days, m.step())
	}
	return best, shortest, nil
}

// forDays is what a dose takes in the days of the jar, with what sticks.
func (m *mixer) forDays(dose float64) float64 { return dose * float64(m.spec.Days) * (1 + sticks) }

// tryRecipe makes a recipe of so many grams times over, nil where there is none, and names
// by their places the pets of the group that it leaves short and a premix would not; taken
// is their doses of a day.
func (m *mixer) tryRecipe(g jar.Group, name string, scoop, room float64, times int, grams float64) (made *household.Jar, short []int, taken float64, err error) {
	r, err := g.Mix.Recipe(m.step(), grams*float64(times), room)
	if errors.Is(err, jar.ErrTooFine) {
		return nil, nil, 0, nil
	}
	if err != nil {
		return nil, nil, 0, err
	}
	out := m.jar(g, name, r, m.spec.Days*times)
	out.ScoopG = scoop
	h, unusable := m.req.Household.WithJars([]household.Jar{out})
	if len(unusable) > 0 {
		return nil, nil, 0, errors.New(unusable[0])
	}
	shared := Share(h)
	for _, k := range g.Pets {
		plan, err := Solve(m.ctx, Request{Household: h, Pet: m.pets[k], Today: m.req.Today, Version: m.req.Version, Shared: shared})
		if err != nil {
			return nil, nil, 0, fmt.Errorf("%s: %w", m.pets[k].Name, err)
		}
		if plan.Pet.Status != household.Met && m.alone[k].Pet.Status == household.Met {
			short = append(short, k)
		}
		if plan.Pet.Jar != nil {
			taken += plan.Pet.Jar.DoseG
		}
	}
	return &out, short, taken, nil
}

// jar writes a recipe down.
func (m *mixer) jar(g jar.Group, name string, r *jar.Recipe, days int) household.Jar {
	out := household.Jar{Of: m.spec.Name, Name: name, Days: days, StepG: r.StepG, Replaces: r.Mix.Parts}
	for at, k := range g.Pets {
		out.Pets = append(out.Pets, m.pets[k].Name)
		if apart := r.Mix.Rules.Apart[at]; len(apart) > 0 {
			out.Apart = map[string]string{m.pets[k].Name: apart[0]}
		}
	}
	for _, a := range m.req.Household.Addons {
		k := slices.Index(r.Mix.Parts, a.Food.ID)
		if k < 0 || r.Steps[k] == 0 {
			continue
		}
		out.Parts = append(out.Parts, jarPart(a.Food, weighing.Clean(float64(r.Steps[k])*r.StepG), m.shared.digests))
	}
	out.Identify()
	if m.spec.PerBase {
		out.RateG = math.Round(100*r.Mix.Dose[0]/r.Mix.Day[0][0]/rateGrain) * rateGrain
	}
	return out
}
