package report

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/report/internal/sample"
)

// The shares are worked out by hand: the base and the extra bring 218 mg of the
// 1310 mg of calcium, 3 g of a powder at 364 mg each close the gap of 1092 mg, which
// is 83 % of the limit; of zinc the powder brings 2.4 mg of 20, of iron, which lacks
// only a tenth, 6 mg of 10.
func TestWhatEachAddonIsFor(t *testing.T) {
	pet := &household.PetPlan{
		Addons: []household.AddonAmount{{Food: "powder", Name: "Powder", G: 3}, {Food: "oil", Name: "Oil", G: 2}, {Food: "gone", Name: "Gone", G: 1}},
		Nutrients: []household.NutrientLine{
			{ID: nutrients.Calcium, Name: "Calcium", Lower: sample.Known(1310), From: household.Contribution{Base: 210, Extras: 8}},
			{ID: nutrients.Protein, Name: "Protein", Lower: sample.Known(60), From: household.Contribution{Base: 90}},
			{ID: nutrients.Zinc, Name: "Zinc", Lower: sample.Known(20), From: household.Contribution{Base: 10}},
			{ID: nutrients.Iron, Name: "Iron", Lower: sample.Known(10), From: household.Contribution{Base: 9}},
			{ID: nutrients.Iodine, Name: "Iodine", Upper: sample.Known(20)},
		},
		Certificate: &household.Certificate{Program: &household.Program{
			Columns: []household.ProgramColumn{{Food: "base"}, {Food: "powder"}, {Food: "oil"}},
			Rows: []household.ProgramRow{{Limit: nutrients.ParseLimitID("calcium lower"), A: household.CoefficientsOf([]float64{0.2, 364, 0})}, {Limit: nutrients.ParseLimitID("protein lower"), A: household.CoefficientsOf([]float64{0.1, 50, 50})},
				{Limit: nutrients.ParseLimitID("zinc lower"), A: household.CoefficientsOf([]float64{0, 0.8, 0.95})}, {Limit: nutrients.ParseLimitID("iron lower"), A: household.CoefficientsOf([]float64{0, 2, 0})}, {Limit: nutrients.ParseLimitID("iodine upper"), A: household.CoefficientsOf([]float64{1, 1, 1})}},
		}},
	}
	want := []Item{
		{"3 g", "Powder", "Calcium 83 %, Zinc 12 %, Iron 60 %"},
		{"2 g", "Oil", "balances the others within their limits"},
	}
	if d := cmp.Diff(want, Purposes(pet), cmp.AllowUnexported(Item{})); d != "" {
		t.Error(d)
	}
	pet.Certificate = nil
	if got := Purposes(pet); got != nil {
		t.Errorf("without a program: %v", got)
	}
}

// TestDecidingSaysTheLimit in words with its figure, and leaves one that the record
// does not hold as it is.
func TestDecidingSaysTheLimit(t *testing.T) {
	base := sample.Base(t)
	pet := &sample.Plan("Marlow", base).Pet
	pet.Binding = []household.Binding{{Limit: nutrients.ParseLimitID("iodine lower"), Costs: "0.5 g of add-on per ug"}, {Limit: nutrients.ParseLimitID("iodine upper"), Costs: "1 g of add-on per ug"},
		{Limit: nutrients.ParseLimitID("calcium-phosphorus lower"), Costs: "0.1 g of add-on per 1 % of the ratio's limit"}, {Limit: nutrients.ParseLimitID("energy from add-ons"), Costs: "2 g of add-on per kcal"}}
	want := []string{"iodine (at least 394 µg): each further µg costs 0.5 g of add-on", "iodine (at most 1310 µg): each further µg costs 1 g of add-on",
		"calcium : phosphorus (at least 1): each further 1" + NoBreak + "% costs 0.1 g of add-on", "the share of the energy that add-ons may bring: each further kcal costs 2 g of add-on"}
	if d := cmp.Diff(want, Slopes(pet)); d != "" {
		t.Error(d)
	}
	pet.Nutrients[1].From = household.Contribution{Base: 100}
	want = []string{"Iodine: the base alone brings 25 % of what Marlow needs.", "Iodine: it may not go above its maximum.",
		"Calcium : phosphorus (at least 1).", "The share of the energy that add-ons may bring."}
	if d := cmp.Diff(want, Deciding(pet)); d != "" {
		t.Error(d)
	}
}
