package advice

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
)

// Who is not counted because of its extras still eats from the pot: what it must avoid
// stays out of it.
func TestImproveMindsWhoIsNotCounted(t *testing.T) {
	h := sample.QuinceLane(t)
	liver, _ := h.Catalogue.Food("beef-liver-raw")
	merle := h.Pets[0]
	merle.Name, merle.Avoid, merle.Extras = "Merle", []string{"beef"}, []household.Portion{{Food: liver, Grams: 900}}
	h.Pets = append(h.Pets, merle)
	p, err := newPot(h)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.pets) != len(h.Pets)-1 {
		t.Fatalf("%d of %d pets count", len(p.pets), len(h.Pets))
	}
	for _, m := range p.moves {
		if !m.less && household.Avoids(&merle, m.food) {
			t.Errorf("%s is avoided", m.food.ID)
		}
	}
}

// The list holds no more than it says, also with a change of several foods.
func TestImprovementsAreFew(t *testing.T) {
	found := improve(t, sample.QuinceLane(t))
	several := 0
	for _, one := range found {
		if len(one.Changes) > 1 {
			several++
		}
	}
	if len(found) > mostImprovements || several == 0 {
		t.Errorf("%d improvements, %d of several foods", len(found), several)
	}
}

// A pet that misses many limits by a hair more each is told which, too.
func TestMissedByAHair(t *testing.T) {
	p, err := newPot(sample.QuinceLane(t))
	if err != nil {
		t.Fatal(err)
	}
	one, before := p.pets[0], p.before[0]
	x := append([]float64(nil), before.staged.X...)
	for j := len(one.Items); j < len(one.Items)+4; j++ {
		x[j] += 0.4 * diet.ViolationSliver
	}
	after := before
	after.missing, after.staged = before.missing+1.6*diet.ViolationSliver, &diet.Solution{X: x}
	if missed := p.missedBy(0, 0, p.step, after); len(missed) != 4 {
		t.Errorf("missed: %q", missed)
	}
}

// No bowl gets more of a concentrate from the pot than an add-on may be: a tonic of the
// household's own with much iron and thiamin, of which no upper limit is printed.
func TestConcentratesInThePotHaveACeiling(t *testing.T) {
	h := sample.QuinceLane(t)
	tonic := &nutrients.Food{ID: "own-tonic", Name: "Own tonic", Group: "other", State: "own"}
	tonic.Per100g[nutrients.Iron], tonic.Per100g[nutrients.Thiamin] = nutrients.Known(900), nutrients.Known(90)
	h.Catalogue = h.Catalogue.With(tonic)
	p, err := newPot(h)
	if err != nil {
		t.Fatal(err)
	}
	checked, offered := 0, false
	for _, m := range p.moves {
		if m.less || !m.food.Concentrate() {
			continue
		}
		offered = offered || m.food == tonic
		for _, one := range p.pets {
			per := diet.PerGram(&m.food.Per100g, one.Pet.Animal.Species)
			portion := one.EnergyLeft / one.Rows[0].A[0]
			for _, l := range one.Targets.Limits {
				times, _ := nutrients.MostFromConcentrates(l.Nutrient)
				if times == 0 || l.Lower == nil || l.Upper != nil {
					continue
				}
				checked++
				if most := m.most / p.cooked * portion * per[l.Nutrient].Hi; most > times**l.Lower*(1+diet.LimitTol) {
					t.Errorf("up to %g g of %s: %s gets %g times the minimum of %s", m.most, m.food.ID, one.Pet.Name, most / *l.Lower, l.Nutrient)
				}
			}
		}
	}
	if checked < 20 || !offered {
		t.Errorf("%d checked, the tonic among them: %v", checked, offered)
	}
}

// Whatever units a file is written in, what is proposed to be in the pot is a whole
// number of grains, every number of them once, and of what can be taken out nothing is
// left over.
func TestProposedAmountsAreRound(t *testing.T) {
	for _, unit := range []float64{453.59237, 28.349523125, 1.1, 0.1} {
		h := sample.QuinceLane(t)
		base := *h.Base
		base.Ingredients = append([]household.Ingredient(nil), base.Ingredients...)
		for i := range base.Ingredients {
			base.Ingredients[i].Grams = unit * float64(2*i+17)
		}
		h.Base, h.Kitchen.ScaleG = &base, 0.1
		p, err := newPot(h)
		if err != nil {
			t.Fatal(err)
		}
		whole := 0
		for k := range p.moves {
			m := &p.moves[k]
			in := m.was
			for n := 1; n <= p.steps(k); n++ {
				g := p.grams(k, n)
				next := m.was + m.signed(g)
				grains := next / p.step
				if math.Abs(grains-math.Round(grains)) > 1e-6 && (!m.less || g < m.most) || next < -1e-9 || g > m.most+1e-9 {
					t.Fatalf("%s, %d: %g grains in the pot", m, n, grains)
				}
				if moved := math.Abs(next - in); moved < 1e-9 || moved > p.step*(1+1e-9) {
					t.Fatalf("%s, %d: from %g g to %g g", m, n, in, next)
				}
				in = next
			}
			if m.less && m.most == m.was {
				whole++
				if math.Abs(in) > 1e-9 {
					t.Errorf("%s: %g g of %g g are left over", m, in, m.was)
				}
			}
		}
		if whole < 5 {
			t.Errorf("only %d foods can be taken out whole", whole)
		}
	}
}

// Three changes that fill what a change may add stay within it when they are rounded to
// whole grains, and when a lean pot lets them grow.
func TestTogetherWithinWhatAChangeMayAdd(t *testing.T) {
	h := sample.QuinceLane(t)
	p, err := newPot(h)
	if err != nil {
		t.Fatal(err)
	}
	var moves []int
	for k := range p.moves {
		if m := &p.moves[k]; !m.less && m.most >= 0.1*p.raw && len(moves) < mostTogether {
			moves = append(moves, k)
		}
	}
	// A pet that misses everything before, so that no amount harms it.
	for i := range p.before {
		p.before[i].impossible = true
	}
	third := p.step * math.Floor(mostChanged*p.raw/mostTogether/p.step)
	trials, err := p.rounded([]change{{moves[0], third + 0.4*p.step}, {moves[1], third + 0.4*p.step}, {moves[2], third - 0.9*p.step}})
	if err != nil || len(trials) == 0 {
		t.Fatal(trials, err)
	}
	most := mostChanged * p.raw * (1 + diet.LimitTol)
	for _, x := range trials {
		if got := p.added(x.changes); got > most {
			t.Errorf("%g g are added to %g g", got, p.raw)
		}
	}
	large := p.within([]change{{moves[0], 0.1 * p.raw}, {moves[1], 0.1 * p.raw}, {moves[2], 0.05 * p.raw}})
	if got := p.added(large); got > most || got < 0.999*most {
		t.Errorf("%g g are left of a quarter of %g g", got, p.raw)
	}
	if large[0].g != large[1].g || math.Abs(large[1].g-2*large[2].g) > diet.LimitTol*large[1].g {
		t.Errorf("not shrunk alike: %v", large)
	}
}

// In a pot with hardly any energy of its own the changes together bring more than all of
// it: their amounts are bounded then as always.
func TestJointMovesInALeanPot(t *testing.T) {
	h := sample.QuinceLane(t)
	p, err := newPot(h)
	if err != nil {
		t.Fatal(err)
	}
	singles, err := p.singles(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	var moves []int
	for _, s := range singles {
		if k := s.changes[0].move; !p.moves[k].less && p.moves[k].kcal > 0 && len(moves) < mostJoined {
			moves = append(moves, k)
		}
	}
	for _, k := range moves {
		p.moves[k].most = 0.005 * p.raw
	}
	j, err := p.newJoint(moves, p.portions(p.before, nil))
	if err != nil {
		t.Fatal(err)
	}
	for k := range moves {
		j.grams[j.first+k] = -1 // as much of each as harms nobody
	}
	_, before, ok := j.with(moves)
	if !ok {
		t.Fatal("no optimum")
	}
	p.kcal = 1e-3
	_, after, ok := j.with(moves)
	if !ok || len(after) != len(before) {
		t.Fatalf("%v, %v", after, ok)
	}
	for i, c := range after {
		if math.IsNaN(c.g) || c.g < 0 || c.g > p.moves[c.move].most*(1+diet.LimitTol) || before[i].g > p.step && c.g == 0 {
			t.Errorf("%s: %g g, up to %g g may be; %g g in a usual pot", &p.moves[c.move], c.g, p.moves[c.move].most, before[i].g)
		}
	}
}

// Who was met is harmed by the least that is missed, who was not by more than a hair.
func TestMetStaysMet(t *testing.T) {
	for _, c := range []struct {
		before, after float64
		harm          bool
	}{{0, 0, false}, {0, diet.ViolationSliver / 2, true}, {0, 2 * diet.FeasibleTol, true}, {0.1, 0.1 + diet.ViolationSliver/2, false}, {0.1, 0.1 + 2*diet.ViolationSliver, true}} {
		if got := len(harmed([]outcome{{missing: c.before}}, []outcome{{missing: c.after}})) > 0; got != c.harm {
			t.Errorf("%g missing before, %g after: harm is %v", c.before, c.after, got)
		}
	}
	m, s, o := household.Met, household.Short, household.Impossible
	for _, c := range []struct {
		was, is []household.Status
		worse   bool
	}{{[]household.Status{m, s}, []household.Status{m, s}, false}, {[]household.Status{m, s}, []household.Status{s, m}, true},
		{[]household.Status{s}, []household.Status{m}, false}, {[]household.Status{s}, []household.Status{o}, true}, {[]household.Status{o}, []household.Status{s}, false}} {
		if anyWorse(c.was, c.is) != c.worse {
			t.Errorf("%v before, %v after: worse is %v", c.was, c.is, !c.worse)
		}
	}
}

// Who would have to go further over what a kitchen gives than plans let it now is harmed.
func TestFurtherOverTheKitchenHarms(t *testing.T) {
	for _, c := range []struct {
		may, must float64
		harm      bool
	}{{0, 0, false}, {0, 0.1, true}, {0.6, 0.5, false}, {0.6, 0.7, true}} {
		if got := len(harmed([]outcome{{mayGoOver: c.may}}, []outcome{{overKitchen: c.must}})) > 0; got != c.harm {
			t.Errorf("may go over by %g, must by %g: harm is %v", c.may, c.must, got)
		}
	}
}

// Each advice, cooked and planned, leaves everybody at least what the plan called it
// before. With a coarse scale and hardly any slack some of what exact amounts promise
// leaves a pet without a plan.
func TestAdviceKeepsWhatPlansAreCalled(t *testing.T) {
	coarse := sample.QuinceLane(t)
	coarse.Kitchen.FineScaleG, coarse.Kitchen.ScaleG, coarse.Kitchen.EnergySlack = 0, 2, 0.003
	r := rand.New(rand.NewSource(91))
	for n, h := range []*household.Household{coarse, sample.DrawStocked(r), sample.QuinceLane(t), sample.DrawStocked(r)}[:sample.Count(2, 4)] {
		was, err := statuses(t.Context(), h, h.Base)
		if err != nil {
			t.Fatal(err)
		}
		given := improve(t, h)
		if len(given) == 0 {
			t.Errorf("%d: no advice", n)
		}
		for _, one := range given {
			raw, added := h.Base.RawGrams(), 0.0
			for _, c := range one.Changes {
				added += max(0, c.G)
			}
			if added > mostChanged*raw*(1+diet.LimitTol) {
				t.Errorf("%d: %g g are added to %g g", n, added, raw)
			}
			is, err := statuses(t.Context(), h, changed(t, h, one).Base)
			if err != nil {
				t.Fatal(err)
			}
			if anyWorse(was, is) {
				t.Errorf("%d: %v before, %v with %v", n, was, is, one.Changes)
			}
		}
	}
}

// tooMuch reports an element without an upper limit of which the changed pot brings a
// pet more than five times the lower limit where the pot as it was
// brought less: worked out from the rows of the program.
func tooMuch(t *testing.T, h *household.Household, pet string, p *diet.Program, s *diet.Solution) {
	t.Helper()
	if s.Farkas != nil {
		return
	}
	was, err := diet.Formulate(h, sample.PetNamed(t, h, pet))
	if err != nil {
		t.Fatal(err)
	}
	before, _, err := was.LeastAddon()
	if err != nil || before.Farkas != nil {
		return
	}
	upper := map[nutrients.ID]bool{}
	for _, r := range p.Rows {
		if r.Limit.Kind == nutrients.OfNutrient && r.Limit.Side == nutrients.Maximum {
			upper[r.Limit.Nutrient] = true
		}
	}
	times := func(p *diet.Program, s *diet.Solution, i int) float64 {
		sum := p.Rows[i].Size - p.Rows[i].Lower // what the extras bring
		for j := range p.Items {
			sum += p.Rows[i].A[j] * s.X[j]
		}
		return sum / p.Rows[i].Size
	}
	for i, r := range p.Rows {
		id := r.Limit.Nutrient
		if r.Limit != nutrients.MinimumOf(id) || upper[id] ||
			!slices.Contains([]nutrients.ID{nutrients.Iron, nutrients.Copper, nutrients.Zinc, nutrients.Iodine, nutrients.Selenium}, id) {
			continue
		}
		if now, then := times(p, s, i), times(was, before, i); now > 5.01 && now > 1.01*then {
			t.Errorf("%s gets %.3g times the minimum of %s, before %.3g times", pet, now, id, then)
		}
	}
}
