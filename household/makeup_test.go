package household

import (
	"math"
	"testing"

	"bowlwright/nutrients"
)

// TestDryMatter: worked out by hand. 1000 g with 700 g of water leave 300 g; where the
// water of a part is not known, its dry matter lies between nothing and its weight.
func TestDryMatter(t *testing.T) {
	figure := func(lo, hi, coverage float64) nutrients.Figure {
		return nutrients.Figure{Lo: lo, Hi: hi, Coverage: coverage}
	}
	for _, c := range []struct {
		weight float64
		water  nutrients.Figure
		want   float64
		known  bool
	}{
		{1000, figure(700, 700, 1), 300, true},
		{1000, figure(698, 702, 1), 300, true},
		{1000, figure(600, 700, 1), 0, false},
		{1000, nutrients.Unknown, 0, false},
		// 4 g of a food whose water nobody knows leave 4 g of 304 open; 40 g too much.
		{1004, figure(700, 700, 1000.0/1004), 302, true},
		{1040, figure(700, 700, 1000.0/1040), 0, false},
		{1000, figure(630, 630, 0.9), 0, false},
	} {
		m := MakeupOf(nutrients.Dog, c.weight, func(id nutrients.ID) nutrients.Figure {
			if id == nutrients.Water {
				return c.water
			}
			return nutrients.Unknown
		})
		if (m.DryMatterG != nil) != c.known || (m.WaterG != nil) != c.known {
			t.Errorf("%g g, water %+v: %+v", c.weight, c.water, m)
		} else if c.known && (math.Abs(*m.DryMatterG-c.want) > 1e-9 || math.Abs(*m.WaterG+*m.DryMatterG-c.weight) > 1e-9) {
			t.Errorf("%g g, water %+v: %g g dry, want %g", c.weight, c.water, *m.DryMatterG, c.want)
		}
		if m.ProteinKcal != nil || m.FibreG != nil {
			t.Errorf("the unknown is %+v", m)
		}
	}
}

// TestEnergyOfTheDayBySource: by the factors 4, 9, 4 for dogs and 4, 8.5, 4 for cats
// (FEDIAF 2018/19, Annex VII).
func TestEnergyOfTheDayBySource(t *testing.T) {
	total := func(id nutrients.ID) nutrients.Figure {
		switch id {
		case nutrients.Protein, nutrients.Fat, nutrients.DigestibleCarbohydrate, nutrients.Fiber:
			return nutrients.Known(10)
		}
		return nutrients.Unknown
	}
	dog, cat := MakeupOf(nutrients.Dog, 100, total), MakeupOf(nutrients.Cat, 100, total)
	if *dog.ProteinKcal != 40 || *dog.FatKcal != 90 || *dog.CarbohydrateKcal != 40 || *cat.FatKcal != 85 || *dog.FibreG != 10 {
		t.Errorf("dog %+v, cat %+v", dog, cat)
	}
}
