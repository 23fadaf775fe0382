package supplies

import (
	"math"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// TestPriceOfAGram adds up a pot by hand: 1 kg of carrots with a tenth of waste at 2.00
// per kg is bought as 1.1111 kg, 2.2222; half a kilogram of another pot that cost 3.00
// for its kilogram, 1.50. The pot weighs 2 kg cooked, so a gram costs 3.7222 / 2000.
func TestPriceOfAGram(t *testing.T) {
	carrot := &nutrients.Food{ID: "carrot", Name: "Carrot", Refuse: 0.1}
	bone := &nutrients.Food{ID: "bone", Name: "Bone"}
	water := &nutrients.Food{ID: "water", Name: "Water"}
	broth := &household.Batch{YieldG: 1000, Ingredients: []household.Ingredient{{Food: bone, Grams: 1000, PricePerG: 0.003}, {Food: water, Grams: 500}}}
	pot := &household.Batch{YieldG: 2000, Ingredients: []household.Ingredient{
		{Food: carrot, Grams: 1000, PricePerG: 0.002}, {Batch: broth, Grams: 500}, {Food: water, Grams: 500},
	}}
	got, unpriced := PricePerGram(pot)
	if want := (1000/0.9*0.002 + 500*0.003) / 2000; math.Abs(got-want) > 1e-12 {
		t.Errorf("a gram costs %g, by hand %g", got, want)
	}
	if len(unpriced) != 1 || unpriced[0] != "Water" {
		t.Errorf("without a price: %q, and only the water has none, once", unpriced)
	}
}

// TestCostOfADay: 200 g of that pot, 3 g of an add-on for 0.30, and a treat without a
// price, which is named.
func TestCostOfADay(t *testing.T) {
	pot := &household.Batch{YieldG: 1000, Ingredients: []household.Ingredient{{Food: &nutrients.Food{ID: "oats", Name: "Oats"}, Grams: 1000, PricePerG: 0.004}}}
	plan := &household.Plan{Pet: household.PetPlan{BaseG: 200, Addons: []household.AddonAmount{{Name: "Eggshell", G: 3, Price: 0.3}, {Name: "Kelp", G: 0.1}},
		Extras: []household.ExtraAmount{{Name: "Carrot", G: 20}}}}
	c := CostOf(paired(t, plan, pot))
	if math.Abs(c.Total()-1.1) > 1e-12 || len(c.Unpriced) != 2 {
		t.Errorf("the day costs %g without %q, by hand 0.8 + 0.3 without kelp and carrot", c.Total(), c.Unpriced)
	}
}

// TestWeighings counts four weeks by hand: three powders for 14 days are mixed twice, 6;
// the premix daily, 28; an oil every other day, 14; a capsule is not weighed.
func TestWeighings(t *testing.T) {
	p := &household.PetPlan{
		Premix: &household.Premix{Days: 14, Items: make([]household.PremixItem, 3)},
		Addons: []household.AddonAmount{{ServedAs: "premix"}, {ServedAs: "premix"}, {ServedAs: "premix"}, {ServedAs: "weighed", EveryDays: 2}, {ServedAs: "unit"}},
	}
	if got := Weighings(p); got != 6+28+14 {
		t.Errorf("%g weighings, by hand 48", got)
	}
}
