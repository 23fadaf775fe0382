package household

import (
	"testing"

	"bowlwright/nutrients"
)

// TestUnsure counts by hand: of five limits that decide, the minimum of zinc is recalled
// and its maximum is not; copper is known for 79 % of the food and iron for 80 %; a ratio
// is as well known as the worse of its two.
func TestUnsure(t *testing.T) {
	from := func(recalled bool) nutrients.Source { return nutrients.Source{Recalled: recalled} }
	targets := nutrients.Targets{Limits: []nutrients.Limit{
		{Nutrient: nutrients.Zinc, LowerSource: from(true), UpperSource: from(false)},
		{Nutrient: nutrients.Copper, LowerSource: from(false)}, {Nutrient: nutrients.Iron, LowerSource: from(true)}},
		Ratios: []nutrients.Ratio{{Key: "calcium-phosphorus", Numerator: []nutrients.ID{nutrients.Calcium}, Denominator: []nutrients.ID{nutrients.Phosphorus}, Source: from(false)}}}
	pet := &PetPlan{Nutrients: []NutrientLine{{ID: nutrients.Zinc, Coverage: 1}, {ID: nutrients.Copper, Coverage: 0.79}, {ID: nutrients.Iron, Coverage: 0.8},
		{ID: nutrients.Calcium, Coverage: 1}, {ID: nutrients.Phosphorus, Coverage: 0.09}}}
	for _, c := range []struct {
		limit                 nutrients.LimitID
		recalled, thinlyKnown int
	}{
		{nutrients.MinimumOf(nutrients.Zinc), 1, 0}, {nutrients.MaximumOf(nutrients.Zinc), 0, 0}, {nutrients.MinimumOf(nutrients.Copper), 0, 1},
		{nutrients.MostConcentrated(nutrients.Iron), 1, 0}, {nutrients.RatioLimit("calcium-phosphorus", nutrients.Minimum), 0, 1}, {nutrients.EnergyOfAddons, 0, 0},
	} {
		pet.Binding = []Binding{{Limit: c.limit}}
		if got := UnsureOf(pet, targets); got != (Unsure{1, c.recalled, c.thinlyKnown}) {
			t.Errorf("%s: %+v", c.limit, got)
		}
	}
	if got := (Unsure{8, 5, 2}).Text(); got != "How sure: 8 limits that set the size of the add-on; 5 quoted from memory, 2 known for less than 80 % of the food." {
		t.Error(got)
	}
}
