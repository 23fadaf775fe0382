package household

import (
	"errors"
	"fmt"

	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

// inputFault reports what a parser of quantities found at a key.
func (t table) inputFault(key string, err error) {
	var in *diag.InputError
	if !errors.As(err, &in) {
		in = diag.BadInput("bad-value", err.Error(), "")
	}
	t.fault(key, in.Code, in.Summary, in.Advice.Text, in.Advice.Command...)
}

// quantity reads a text with parse, and helps with a number that has no quotes
// and so no unit.
func (t table) quantity(key, example string, parse func(string) (float64, error)) (float64, bool) {
	switch v := t.m[key].(type) {
	case nil:
		return 0, false
	case int64, float64:
		t.fault(key, "no-unit", fmt.Sprintf("%s is %v without a unit", key, v), fmt.Sprintf("put number and unit in quotes, like %s = %q", key, example))
		return 0, false
	}
	s, ok := t.text(key)
	if !ok {
		return 0, false
	}
	x, err := parse(s)
	if err != nil {
		t.inputFault(key, err)
		return 0, false
	}
	return x, true
}

// positive reads a quantity that must be above zero.
func (t table) positive(key, example string, parse func(string) (float64, error)) (float64, bool) {
	x, ok := t.quantity(key, example, parse)
	if ok && x <= 0 {
		t.fault(key, "not-positive", fmt.Sprintf("%s must be more than nothing", key), fmt.Sprintf("write it like %s = %q", key, example))
		return 0, false
	}
	return x, ok
}

// maxBatchG bounds one ingredient or batch: a tonne is a typing slip in any
// kitchen (common practice).
const maxBatchG = 1e6

// amount reads grams of a food: a weight, or a published measure of the food.
func (t table) amount(key string, f *nutrients.Food) (float64, bool) {
	g, ok := t.positive(key, "400 g", func(s string) (float64, error) { return foodAmount(s, f) })
	if ok && g > maxBatchG {
		t.fault(key, "absurd-amount", fmt.Sprintf("%s is more than a tonne", key), "check the unit")
		return 0, false
	}
	return g, ok
}

// method reads a cooking method.
func (t table) method(key string) string {
	m, ok := t.choice(key, nutrients.Methods()...)
	if !ok {
		return ""
	}
	return m
}

// food reads a food's id and finds it in the catalogue.
func (t table) food(key string, c *nutrients.Catalogue) (*nutrients.Food, bool) {
	id, ok := t.text(key)
	if !ok {
		if !t.has(key) {
			t.missing(key, "no "+key+" is named", "write "+key+" = \"…\" with an id from", "foods", "find", "WORDS")
		}
		return nil, false
	}
	f, ok := c.Food(id)
	if !ok {
		// A poison is named as one even when the catalogue does not hold it.
		if t.refuseHazards(&nutrients.Food{ID: id, Name: id}, "", nutrients.Dog, nutrients.Cat) {
			return nil, false
		}
		hint := "find its id with"
		if near, found := c.Nearest(id); found {
			hint = fmt.Sprintf("did you mean %q? otherwise find its id with", near)
		}
		t.fault(key, "unknown-food", fmt.Sprintf("unknown food %q", clip(id)), hint, "foods", "find", "WORDS")
		return nil, false
	}
	return f, true
}
