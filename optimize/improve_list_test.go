package optimize

import (
	"testing"

	"bowlwright/household"
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
