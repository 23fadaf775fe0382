package advice

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"math/rand"
	"runtime"
	"slices"
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
)

func improve(t testing.TB, h *household.Household) []Improvement {
	t.Helper()
	found, err := Improve(context.Background(), h)
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// changed is the household with the pot of an improvement, as somebody would write it.
func changed(t testing.TB, h *household.Household, one Improvement) *household.Household {
	t.Helper()
	out := *h
	var changes []household.Change
	for _, ch := range one.Changes {
		f, ok := h.Catalogue.Food(ch.Food)
		if !ok {
			t.Fatalf("%s is in no catalogue", ch.Food)
		}
		changes = append(changes, household.Change{Food: f, Method: ch.Method, Grams: ch.G})
	}
	out.Base = h.Base.With(changes...)
	return &out
}

// hair is how much more than before may be missed: nothing where nothing was.
func hair(before float64) float64 {
	if before == 0 {
		return 0
	}
	return diet.ViolationSliver
}

// manyPets draws a household of two to four pets on one base.
func manyPets(r *rand.Rand) *household.Household {
	h := sample.DrawStocked(r)
	for range 1 + r.Intn(3) {
		h.Pets = append(h.Pets, sample.DrawPet(r))
	}
	for i := range h.Pets {
		h.Pets[i].Name += string(rune('a' + i))
	}
	return h
}

// What an improvement claims is what planning on the changed base finds, and
// nobody misses more than before.
func TestImprovementsHoldWhatTheyPromise(t *testing.T) {
	homes := []*household.Household{sample.QuinceLane(t)}
	for seed := range int64(sample.Count(2, 12)) {
		homes = append(homes, manyPets(rand.New(rand.NewSource(seed))))
	}
	promised := 0
	for k, h := range homes {
		for n, one := range improve(t, h) {
			h2 := changed(t, h, one)
			if got := h2.Base.Identity(); got != one.Base {
				t.Errorf("household %d, %d: the base is %v, promised %v", k, n, got, one.Base)
			}
			after := 0.0
			for _, e := range one.Pets {
				pet := sample.PetNamed(t, h2, e.Pet)
				p, err := diet.Formulate(h2, pet)
				if err != nil {
					t.Fatal(err)
				}
				s, _, err := p.LeastAddon()
				if err != nil {
					t.Fatal(err)
				}
				promised++
				if impossible := s.Farkas != nil; impossible != e.AfterImpossible {
					t.Errorf("household %d, %d: %s impossible: %v", k, n, e.Pet, impossible)
				} else if !impossible && (math.Abs(s.LeastG-e.AfterG) > 1e-6*(1+e.AfterG) || math.Abs(s.Violation-e.AfterMissing) > 1e-6) {
					t.Errorf("household %d, %d: %s needs %g g and misses %g, promised %g g and %g", k, n, e.Pet, s.LeastG, s.Violation, e.AfterG, e.AfterMissing)
				}
				after += s.LeastG
				was, err := diet.Formulate(h, sample.PetNamed(t, h, e.Pet))
				if err != nil {
					t.Fatal(err)
				}
				if !e.BeforeImpossible && p.OverKitchen > was.MayGoOver()+diet.ViolationSliver {
					t.Errorf("household %d, %d: %s goes over the kitchen's caps by %g shares, before up to %g", k, n, e.Pet, p.OverKitchen, was.MayGoOver())
				}
				tooMuch(t, h, e.Pet, p, s)
				if e.AfterImpossible && !e.BeforeImpossible || !e.BeforeImpossible && e.AfterMissing > e.BeforeMissing+1.01*hair(e.BeforeMissing) {
					t.Errorf("household %d, %d: %s is worse off: %+v", k, n, e.Pet, e)
				}
			}
			if math.Abs(after-one.AfterG) > 1e-6*(1+after) {
				t.Errorf("household %d, %d: %g g in all, promised %g g", k, n, after, one.AfterG)
			}
			if c := one.Ceiling; c != nil {
				h2 := changed(t, h, Improvement{Changes: []BaseChange{{Food: one.Changes[0].Food, Method: one.Changes[0].Method, G: c.G}}})
				p, err := diet.Formulate(h2, sample.PetNamed(t, h2, c.Pet))
				if err != nil {
					t.Fatal(err)
				}
				s, _, err := p.LeastAddon()
				if err != nil {
					t.Fatal(err)
				}
				was := slices.IndexFunc(one.Pets, func(e PetEffect) bool { return e.Pet == c.Pet })
				open := len(c.Limits) > 0 && strings.HasPrefix(c.Limits[len(c.Limits)-1], "not more than")
				if open && strings.Contains(c.Limits[len(c.Limits)-1], "a kitchen gives") {
					now, err := diet.Formulate(h, sample.PetNamed(t, h, c.Pet))
					if err != nil {
						t.Fatal(err)
					}
					open = p.OverKitchen > now.MayGoOver()
				}
				if s.Farkas == nil && s.Violation <= one.Pets[was].BeforeMissing+hair(one.Pets[was].BeforeMissing) && !open || len(c.Limits) == 0 {
					t.Errorf("household %d, %d: beyond the ceiling %s is no worse: %+v", k, n, c.Pet, c)
				}
			}
		}
	}
	t.Logf("%d promises checked", promised)
	if promised < sample.Count(20, 100) {
		t.Errorf("only %d promises to check", promised)
	}
}

// The same household gives the same advice to the last byte, however many processors
// there are: one pot of one food, the example, and drawn households.
func TestImproveIsDeterministic(t *testing.T) {
	lean := *sample.QuinceLane(t)
	turkey, _ := lean.Catalogue.Food("turkey-thigh-skinless-raw")
	lean.Base = &household.Batch{File: "pot", Name: "Pot", Ingredients: []household.Ingredient{{Food: turkey, Grams: 1000, Method: "simmered"}}}
	homes := []*household.Household{sample.QuinceLane(t), &lean}
	for seed := range int64(3) {
		homes = append(homes, manyPets(rand.New(rand.NewSource(30+seed))))
	}
	for k, h := range homes[:sample.Count(1, 5)] {
		var first []byte
		for _, procs := range []int{1, 8} {
			before := runtime.GOMAXPROCS(procs)
			found := improve(t, h)
			runtime.GOMAXPROCS(before)
			text, err := json.Marshal(found)
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = text
			}
			if !bytes.Equal(text, first) {
				t.Errorf("household %d on %d processors: other advice", k, procs)
			}
		}
	}
}

// The search for the best amount of one move against all amounts, one by one.
func TestBestAmountAgainstAll(t *testing.T) {
	p, err := newPot(sample.QuinceLane(t))
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewSource(5))
	for range 12 {
		k := r.Intn(len(p.moves))
		got, err := p.best(k)
		if err != nil {
			t.Fatal(err)
		}
		best := verdictOf(p.before)
		for n := 1; n <= p.steps(k); n++ {
			after, err := p.after([]change{{k, p.grams(k, n)}})
			if err != nil {
				t.Fatal(err)
			}
			if v := verdictOf(after); len(harmed(p.before, after)) == 0 && v.compare(best) < 0 {
				best = v
			}
		}
		v := verdictOf(p.before)
		if got != nil && verdictOf(got.after).compare(v) < 0 {
			v = verdictOf(got.after)
		}
		if v.grams > best.grams+1e-6*best.grams {
			t.Errorf("%s: %g g, with the best of all amounts %g g", &p.moves[k], v.grams, best.grams)
		}
	}
}

// The slope by the duals is that of the optimum: a little of a move changes the
// grams by as much, or by less where the optimum bends at once.
func TestSlopesOfMoves(t *testing.T) {
	p, err := newPot(sample.QuinceLane(t))
	if err != nil {
		t.Fatal(err)
	}
	const little = 1e-5
	compared := 0
	for k := range p.moves {
		after, err := p.after([]change{{k, little * p.moves[k].most}})
		if err != nil {
			t.Fatal(err)
		}
		rise := (verdictOf(after).grams - verdictOf(p.before).grams) / little
		if s := p.slope(k).grams; rise < s-1e-2*(1+math.Abs(s)) {
			t.Errorf("%s: the optimum falls by %g, the duals allow %g", &p.moves[k], rise, s)
		} else if math.Abs(rise-s) < 1e-2*(1+math.Abs(s)) {
			compared++
		}
	}
	t.Logf("%d of %d slopes are the duals' to a hundredth", compared, len(p.moves))
	if compared < len(p.moves)/2 {
		t.Errorf("only %d of %d slopes are the duals'", compared, len(p.moves))
	}
}

// The joint program with one move open finds what the search for one move finds,
// when it is stated anew with the portions that it led to.
func TestJointProgramAgreesWithSingleMoves(t *testing.T) {
	h := *sample.QuinceLane(t)
	rice, _ := h.Catalogue.Food("rice-white-long-unenriched-raw")
	h.Base = h.Base.With(household.Change{Food: rice, Method: "boiled", Grams: 500})
	p, err := newPot(&h)
	if err != nil {
		t.Fatal(err)
	}
	singles, err := p.singles(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	more, less, compared := 0, 0, 0
	for _, s := range singles {
		m := s.changes[0].move
		if p.moves[m].less {
			less++
		} else if more++; more > 6 {
			continue
		}
		portions := p.portions(p.before, nil)
		var got verdict
		tooOpen := false
		for range 2 * relinearised {
			j, err := p.newJoint([]int{m}, portions)
			if err != nil {
				t.Fatal(err)
			}
			v, changes, ok := j.with([]int{m})
			if !ok {
				t.Fatalf("%s: no optimum", &p.moves[m])
			}
			after, err := p.after(changes)
			if err != nil {
				t.Fatal(err)
			}
			got, portions = v, p.portions(after, changes)
			for i := range after {
				tooOpen = tooOpen || len(moreOverdosed(p.before[i], after[i])) > 0
			}
		}
		if tooOpen {
			continue // what has no upper limit is no row of the program
		}
		compared++
		want, was := verdictOf(s.after), verdictOf(p.before)
		if saved := was.grams - want.grams; math.Abs(got.grams-want.grams) > 0.05*saved || math.Abs(got.missing-want.missing) > diet.ViolationSliver {
			t.Errorf("%s: %v, of now %v, the search finds %v", &p.moves[m], got, was, want)
		}
	}
	if less == 0 || more < 6 || compared < 6 {
		t.Errorf("%d moves that take out, %d that add, %d compared", less, more, compared)
	}
}

// A pot with far too much liver puts everybody over the limit of vitamin A: the
// first thing to do is to take liver out.
func TestTooMuchLiver(t *testing.T) {
	h := *sample.QuinceLane(t)
	liver, _ := h.Catalogue.Food("beef-liver-raw")
	h.Base = h.Base.With(household.Change{Food: liver, Method: "simmered", Grams: 3000})
	found := improve(t, &h)
	if len(found) == 0 {
		t.Fatal("nothing helps")
	}
	first := found[0]
	if !slices.ContainsFunc(first.Changes, func(ch BaseChange) bool { return ch.Food == liver.ID && ch.G < 0 }) {
		t.Errorf("first: %+v", first.Changes)
	}
	better := 0
	for _, e := range first.Pets {
		if e.BeforeImpossible && !e.AfterImpossible {
			better++
		}
	}
	if better == 0 {
		t.Errorf("nobody is better off: %+v", first.Pets)
	}
}

// Nothing is proposed that somebody at the table avoids, that harms a species, or
// that needs a warning.
func TestNothingAvoidedIsProposed(t *testing.T) {
	h := sample.QuinceLane(t)
	h.Pets[2].Avoid = append(h.Pets[2].Avoid, "beef", "oyster")
	for _, one := range improve(t, h) {
		for _, ch := range one.Changes {
			f, _ := h.Catalogue.Food(ch.Food)
			if household.Avoids(&h.Pets[2], f) && ch.G > 0 {
				t.Errorf("%s is avoided", f.ID)
			}
			for _, sp := range []nutrients.Species{nutrients.Dog, nutrients.Cat} {
				if found := nutrients.HazardsCooked(f, sp, ch.Method); len(found) > 0 && ch.WasG == 0 {
					t.Errorf("%s: %s", f.ID, found[0].Text)
				}
			}
		}
	}
}

// Of a supplement no more goes into the pot than the pet gets that wants most of it.
func TestSupplementsAsWanted(t *testing.T) {
	h := sample.QuinceLane(t)
	p, err := newPot(h)
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, m := range p.moves {
		if !m.food.Supplement() || m.less {
			continue
		}
		checked++
		most := 0.0
		for i := range h.Pets {
			plan := solve(t, h, &h.Pets[i])
			for _, a := range plan.Pet.Addons {
				if a.Food == m.food.ID {
					most = max(most, a.G/plan.Pet.BaseG)
				}
			}
		}
		// Plans lie up to a tenth, and whole scale steps, over the least add-on.
		if in := m.most / h.Base.CookedGrams(); in > 1.5*most+0.001 {
			t.Errorf("%s: up to %g g per gram of base, the plans have %g", m.food.ID, in, most)
		}
	}
	if checked < 3 {
		t.Errorf("only %d supplements to check", checked)
	}
}
