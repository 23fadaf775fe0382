package foodfile

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// maxBatchG bounds one ingredient or batch: a tonne is a typing slip in any
// kitchen (common practice).
const maxBatchG = 1e6

// Amount reads grams of a food: a weight, or a published measure of the food.
func Amount(t tomldoc.Table, key string, f *nutrients.Food) (float64, bool) {
	g, ok := t.Positive(key, "400 g", func(s string) (float64, error) { return foodAmount(s, f) })
	if ok && g > maxBatchG {
		t.Fault(key, "absurd-amount", fmt.Sprintf("%s is more than a tonne", key), "check the unit")
		return 0, false
	}
	return g, ok
}

// Named reads a food's id and finds it in the catalogue.
func Named(t tomldoc.Table, key string, c *nutrients.Catalogue) (*nutrients.Food, bool) {
	id, ok := t.Text(key)
	if !ok {
		if !t.Has(key) {
			t.Missing(key, "no "+key+" is named", "write "+key+" = \"…\" with an id from", "foods", "find", "WORDS")
		}
		return nil, false
	}
	f, ok := c.Food(id)
	if !ok {
		// A poison is named as one even when the catalogue does not hold it; of what
		// harms only raw, the id is what is wrong.
		poison := &nutrients.Food{ID: id, Name: id}
		if RefuseHazards(t, poison, wellCooked, nutrients.Dog, nutrients.Cat) {
			return nil, false
		}
		hint := "find its id with"
		if near, found := c.Nearest(id); found {
			hint = fmt.Sprintf("did you mean %q? otherwise find its id with", near)
		}
		t.Fault(key, "unknown-food", fmt.Sprintf("unknown food %q", diag.Clip(id)), hint, "foods", "find", "WORDS")
		return nil, false
	}
	return f, true
}

// RefuseHazards reports a food that is poison for a species, and says whether it
// did.
func RefuseHazards(t tomldoc.Table, f *nutrients.Food, method string, species ...nutrients.Species) bool {
	for _, sp := range species {
		if h, blocked := nutrients.Blocked(f, sp, method); blocked {
			way := wayAround(t, f, method, species)
			t.Fault("food", "harmful-food", fmt.Sprintf("%s harms a %s: %s", f.ID, sp, h.Text), way.Text, way.Command...)
			return true
		}
	}
	return false
}

// wayAround says what to do about a food that is poison: what harms only raw can be
// cooked.
func wayAround(t tomldoc.Table, f *nutrients.Food, method string, species []nutrients.Species) diag.Hint {
	if method != "" || blockedFor(f, wellCooked, species) {
		return diag.Hint{Text: "leave it out"}
	}
	if strings.HasPrefix(t.Path, "ingredient") {
		return diag.Hint{Text: fmt.Sprintf("give it a cooking method, such as method = %q, or leave it out", wellCooked)}
	}
	return diag.Command("leave it out, cook it in the base, or name it as cooked; find its id with", "foods", "find", "WORDS")
}

// wellCooked is a way of cooking that makes harmless what harms only raw.
const wellCooked = "simmered"

func blockedFor(f *nutrients.Food, method string, species []nutrients.Species) bool {
	return slices.ContainsFunc(species, func(sp nutrients.Species) bool {
		_, blocked := nutrients.Blocked(f, sp, method)
		return blocked
	})
}
