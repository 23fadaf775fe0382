package weighing

import (
	"context"
	"slices"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
)

// A helping for two days may bring at once what two days may have, and no more than one
// day's on average.
func TestTogetherOnAverageAndAtOnce(t *testing.T) {
	h := sample.WithFoods(t, sample.Swapped(t, "potassium-chloride", "potassium-iodide"), "potassium-iodate")
	p, err := diet.Formulate(h, sample.PetNamed(t, h, "Pip"))
	if err != nil {
		t.Fatal(err)
	}
	s, err := p.Solve(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	doses := DosesFor(p, s.X)
	iodide := slices.IndexFunc(p.Items, func(x diet.Item) bool { return x.Id == "potassium-iodide" })
	r := p.Rows[slices.IndexFunc(p.Rows, func(r diet.Row) bool { return r.Limit == nutrients.MostConcentrated(nutrients.Iodine) })]
	for _, c := range []struct {
		every int
		share float64
		want  bool
	}{{1, 0.9, true}, {1, 1.1, false}, {2, 0.9, true}, {2, 1.1, false}, {3, 0.6, true}, {3, 0.7, false}} {
		doses[iodide] = dose{Step: 1e-6, Least: 1e-6, ServedAs: household.ServedWeighed, Every: c.every}
		w := NewStepProgram(p, s, doses, true)
		at := slices.Index(w.used, iodide)
		kept := true
		for _, x := range w.Rows {
			if x.Name == r.Limit.String() {
				kept = kept && x.A[at]*c.share*r.Upper/r.A[iodide] <= x.Upper
			}
		}
		if kept != c.want {
			t.Errorf("%g of what a day may have, every %d days: kept is %v", c.share, c.every, kept)
		}
	}
}

func TestSparseDoses(t *testing.T) {
	doses := []dose{{Step: 1, ServedAs: household.ServedWeighed}, {Step: 0.01, Least: 0.2, ServedAs: household.ServedWeighed}, {Step: 0.5, Least: 0.5, ServedAs: household.ServedByUnit},
		{Step: 0.01 / 28, Least: 0.2 / 28, ServedAs: household.ServedPremix}, {Step: 0.01, Least: 0.2, ServedAs: household.ServedWeighed}, {Step: 0.01, Least: 0.2, ServedAs: household.ServedWeighed}}
	p := &diet.Program{Items: make([]diet.Item, len(doses))}
	for j := range p.Items {
		p.Items[j].Cap, p.Items[j].Helping = 10, 10
	}
	got, much := spreadOut(p, doses, []float64{100, 0.11, 0.2, 0.001, 0.3, 0.01})
	for j, want := range []int{0, 2, 3, 0, 0, 0} {
		if got[j].Every != want {
			t.Errorf("item %d every %d days, want %d", j, got[j].Every, want)
		}
	}
	if !much {
		t.Error("0.5 g where 0.2 g are wanted is not much")
	}
	if _, much := spreadOut(p, doses, []float64{100, 0.11, 0, 0, 0, 0}); much {
		t.Error("0.2 g where 0.11 g are wanted is much")
	}
	if d, _ := spreadOut(p, doses, []float64{100, 0.3, 1, 1, 0.3, 0}); d != nil {
		t.Error("helpings for several days where none are needed")
	}
	p.Items[1].Helping = 0.15
	if d, _ := spreadOut(p, doses, []float64{100, 0.11, 0, 0, 0, 0}); d != nil {
		t.Error("a helping over what is allowed in a day")
	}
}
