package supplies

import (
	"math"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// TestShoppingByHand: ten days of 100 g of a pot that weighs 1 kg cooked. In it are
// 600 g of carrots (a tenth is waste, 150 g are there, 2.00 per kg), 200 g of egg (50 g
// each, 12 % shell), and 400 g of a broth of 800 g that was cooked from 1,000 g of bone.
// Beside it 0.5 g of a powder a day in packs of 4 g at 0.25 per g, and a jar of which
// 1 g in 4 is the same powder, 2 g a day.
func TestShoppingByHand(t *testing.T) {
	carrot := &nutrients.Food{ID: "carrot", Name: "Carrot", Group: "vegetable", Refuse: 0.1}
	egg := &nutrients.Food{ID: "egg", Name: "Egg", Group: "egg", Refuse: 0.12, Measures: []nutrients.Measure{{Name: "1 large", Grams: 50}}}
	bone := &nutrients.Food{ID: "bone", Name: "Bone", Group: "beef"}
	powder := &nutrients.Food{ID: "powder", Name: "Powder", Group: "supplement", Powder: true}
	other := &nutrients.Food{ID: "other", Name: "Other powder", Group: "supplement", Powder: true}
	broth := &household.Batch{YieldG: 800, Ingredients: []household.Ingredient{{Food: bone, Grams: 1000}}}
	pot := &household.Batch{YieldG: 1000, Ingredients: []household.Ingredient{
		{Food: carrot, Grams: 600, PricePerG: 0.002, Stock: household.Stock{HaveG: 150}}, {Food: egg, Grams: 200}, {Batch: broth, Grams: 400},
	}}
	h := &household.Household{Addons: []household.Addon{{Food: powder, PricePerG: 0.25, Stock: household.Stock{PackG: 4}}, {Food: other}}}
	jar := household.Jar{Parts: []household.JarPart{{Food: "powder", G: 1}, {Food: "other", G: 3}}}
	jar.Identify()
	plan := &household.Plan{Pet: household.PetPlan{BaseG: 100, Jar: &household.JarDose{Code: jar.Code, Mix: jar},
		Addons: []household.AddonAmount{{Food: "powder", G: 0.5, ServedAs: household.ServedWeighed}, {Food: jar.Code, G: 2, ServedAs: household.ServedFromJar}}}}
	want := []struct {
		id               string
		need, buy, price float64
		packs, pieces    int
	}{
		{"bone", 500, 500, 0, 0, 0},
		{"egg", 200, 4 * 50 / 0.88, 0, 0, 4},
		{"other", 15, 15, 0, 0, 0},
		{"powder", 10, 12, 3, 3, 0},
		// 450 g to eat are 500 g to buy.
		{"carrot", 600, 500, 1, 0, 0},
	}
	got := Shopping(h, []household.Paired{paired(t, plan, pot)}, 10)
	if len(got) != len(want) {
		t.Fatalf("%d foods to buy, by hand %d: %+v", len(got), len(want), got)
	}
	for i, w := range want {
		x := got[i]
		if x.Food.ID != w.id || math.Abs(x.NeedG-w.need) > 1e-9 || math.Abs(x.BuyG-w.buy) > 1e-9 || math.Abs(x.Price-w.price) > 1e-9 || x.Packs != w.packs || x.Pieces != w.pieces {
			t.Errorf("%s: need %g, buy %g for %g in %d packs or %d pieces; by hand %+v", x.Food.ID, x.NeedG, x.BuyG, x.Price, x.Packs, x.Pieces, w)
		}
	}
}
