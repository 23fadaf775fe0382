package optimize

import (
	"math"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// Who is not counted because of its extras still eats from the pot: what it must avoid
// stays out of it.
func TestImproveMindsWhoIsNotCounted(t *testing.T) {
	h := demo(t)
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
	found := improve(t, demo(t))
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
	p, err := newPot(demo(t))
	if err != nil {
		t.Fatal(err)
	}
	one, before := p.pets[0], p.before[0]
	x := append([]float64(nil), before.staged.x...)
	for j := len(one.items); j < len(one.items)+4; j++ {
		x[j] += 0.4 * violationSliver
	}
	after := before
	after.missing, after.staged = before.missing+1.6*violationSliver, &staged{x: x}
	if missed := p.missedBy(0, 0, p.step, after); len(missed) != 4 {
		t.Errorf("missed: %q", missed)
	}
}

// No bowl gets more of a concentrate from the pot than an add-on may be: a tonic of the
// household's own with much iron and thiamin, of which no upper limit is printed.
func TestConcentratesInThePotHaveACeiling(t *testing.T) {
	h := demo(t)
	tonic := &nutrients.Food{ID: "own-tonic", Name: "Own tonic", Group: "other", State: "own"}
	tonic.Per100g[nutrients.Iron], tonic.Per100g[nutrients.Thiamin] = nutrients.Known(900), nutrients.Known(90)
	h.Catalogue = h.Catalogue.With(tonic)
	p, err := newPot(h)
	if err != nil {
		t.Fatal(err)
	}
	checked, offered := 0, false
	for _, m := range p.moves {
		if m.less || !concentrate(m.food) {
			continue
		}
		offered = offered || m.food == tonic
		for _, one := range p.pets {
			per := perGram(&m.food.Per100g, one.pet.Animal.Species)
			portion := one.rows[0].upper / one.rows[0].a[0]
			for _, l := range one.targets.Limits {
				times, _ := openTimes(l.Nutrient)
				if times == 0 || l.Lower == nil || l.Upper != nil {
					continue
				}
				checked++
				if most := m.most / p.cooked * portion * per[l.Nutrient].Hi; most > times**l.Lower*(1+limitTol) {
					t.Errorf("up to %g g of %s: %s gets %g times the lower limit of %s", m.most, m.food.ID, one.pet.Name, most / *l.Lower, l.Nutrient)
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
		h := demo(t)
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
