package weighing

import (
	"math"
	"slices"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/milp"
)

// oneOil is a day of 200 kcal from a base of 1 kcal/g and an oil of 9 kcal and 10 µg
// of vitamin D a gram, which comes as one helping for several days. The energy may be
// 2 kcal off on average and 22 kcal on a single day.
func oneOil(every int, mostVitamin, mostShare, capG float64) *stepProgram {
	p := &diet.Program{
		Kitchen: household.Kitchen{ScaleG: 1, FineScaleG: 0.05, EnergySlack: 0.01},
		Targets: nutrients.Targets{Energy: nutrients.EnergyNeed{Kcal: 200}},
		Items:   []diet.Item{{Cap: 300, Helping: 300}, {Cap: capG, Helping: capG, Addon: &household.Addon{Food: &nutrients.Food{ID: "oil"}}}},
		Counts:  []float64{0, 1},
		Rows: []diet.Row{
			{Limit: nutrients.EnergyOfDay, A: []float64{1, 9}, Lower: 198, Upper: 202, Size: 200},
			{Limit: nutrients.EnergyOfAddons, A: []float64{0, 9}, Lower: math.Inf(-1), Upper: mostShare, Size: 40},
			{Limit: nutrients.MaximumOf(nutrients.VitaminD), A: []float64{0, 10}, Lower: math.Inf(-1), Upper: mostVitamin, Size: 12},
			{Limit: nutrients.MinimumOf(nutrients.VitaminD), A: []float64{0, 10}, Lower: 2, Upper: math.Inf(1), Elastic: true, Size: 2},
		},
	}
	doses := []dose{{Step: 1, ServedAs: household.ServedWeighed}, {Step: 0.05 / float64(every), ServedAs: household.ServedWeighed, Every: every}}
	return NewStepProgram(p, &diet.Solution{X: []float64{195, 0.5}}, doses, true)
}

// The day of the helping keeps every limit, and the days with and without it their
// energy: in the search's check of whole steps and in its linear program, each.
func TestSearchHoldsTheDayOfTheHelping(t *testing.T) {
	loose := math.Inf(1)
	for _, c := range []struct {
		name                 string
		every                int
		base, oil            float64 // grams a day, on average
		vitamin, share, capG float64
		keeps                bool
	}{
		{"daily", 1, 195, 0.5, 12, 40, 10, true},
		{"in every limit", 2, 195, 0.5, 12, 40, 10, true},
		{"vitamin at its limit", 4, 197, 0.3, 12, 40, 10, true},
		{"vitamin over its limit", 4, 195, 0.5, 12, 40, 10, false},
		{"energy from add-ons at its limit", 4, 195, 0.5, loose, 18, 10, true},
		{"energy from add-ons over its limit", 4, 195, 0.5, loose, 17.9, 10, false},
		{"energy of the helping's day at its limit", 7, 195, 0.4, loose, loose, 10, true},
		{"energy of the helping's day over its limit", 7, 195, 0.45, loose, loose, 10, false},
		{"energy of the other days at its limit", 2, 178, 2.25, loose, loose, 10, true},
		{"energy of the other days under its limit", 2, 177, 2.4, loose, loose, 10, false},
		{"average energy over its limit", 2, 198, 0.5, loose, loose, 10, false},
		{"helping at its cap", 4, 195, 0.5, loose, loose, 2, true},
		{"helping over its cap", 4, 195, 0.5, loose, loose, 1.95, false},
	} {
		w := oneOil(c.every, c.vitamin, c.share, c.capG)
		steps := []float64{c.base, math.Round(c.oil / w.doses[1].Step)}
		if _, ok := w.Accept(slices.Clone(steps), milp.Goal{Distance: true, MaxSpent: loose}); ok != c.keeps {
			t.Errorf("%s: accepted: %v", c.name, ok)
		}
		grams := []float64{steps[0] * w.Cols[0].Step, steps[1] * w.Cols[1].Step}
		held := grams[1] <= w.Cols[1].Cap*(1+diet.LimitTol)
		for _, r := range w.Rows {
			sum := r.A[0]*grams[0] + r.A[1]*grams[1]
			held = held && sum >= r.Lower-diet.LimitTol*r.Size && sum <= r.Upper+diet.LimitTol*r.Size
		}
		if held != c.keeps {
			t.Errorf("%s: within the linear program: %v", c.name, held)
		}
	}
}

// What the search answers keeps the day of the helping where the amounts wanted do
// not: 0.5 g a day would be 20 µg on the day of a helping for four days, and 27 kcal
// more than the average on that of one for seven.
func TestSearchAnswersForTheDayOfTheHelping(t *testing.T) {
	for _, c := range []struct {
		every   int
		vitamin float64
		want    float64 // grams of oil in a helping
	}{{4, 12, 1.2}, {7, math.Inf(1), 3}} {
		w := oneOil(c.every, c.vitamin, 40, 10)
		got, err := w.Search(milp.Goal{Distance: true, MaxSpent: math.Inf(1)})
		if err != nil || got == nil {
			t.Fatalf("every %d days: %v, %v", c.every, got, err)
		}
		helping := got.Grams[1] * float64(c.every)
		if math.Abs(helping-c.want) > diet.LimitTol {
			t.Errorf("every %d days a helping of %g g, want %g g", c.every, helping, c.want)
		}
		if with := got.Grams[0] + 9*helping; with > 222*(1+diet.LimitTol) || 10*helping > c.vitamin*(1+diet.LimitTol) {
			t.Errorf("every %d days a day of %g kcal and %g µg", c.every, with, 10*helping)
		}
	}
}
