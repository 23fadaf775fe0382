package optimize

import (
	"slices"
	"testing"
)

// A helping for two days may bring at once what two days may have, and no more than one
// day's on average.
func TestTogetherOnAverageAndAtOnce(t *testing.T) {
	h := withFoods(t, swapped(t, "potassium-chloride", "potassium-iodide"), "potassium-iodate")
	p, err := formulate(h, petNamed(t, h, "Pip"))
	if err != nil {
		t.Fatal(err)
	}
	s := drawnStages(t, p)
	doses := dosesFor(p, s.x)
	iodide := slices.IndexFunc(p.items, func(x item) bool { return x.id == "potassium-iodide" })
	r := p.rows[slices.IndexFunc(p.rows, func(r row) bool { return r.limit == "iodine"+fromConcentrates })]
	for _, c := range []struct {
		every int
		share float64
		want  bool
	}{{1, 0.9, true}, {1, 1.1, false}, {2, 0.9, true}, {2, 1.1, false}, {3, 0.6, true}, {3, 0.7, false}} {
		doses[iodide] = dose{step: 1e-6, least: 1e-6, servedAs: weighed, every: c.every}
		w := newWeighing(p, s, doses, true)
		at := slices.Index(w.used, iodide)
		kept := true
		for _, x := range w.rows {
			if x.name == r.limit {
				kept = kept && x.a[at]*c.share*r.upper/r.a[iodide] <= x.upper
			}
		}
		if kept != c.want {
			t.Errorf("%g of what a day may have, every %d days: kept is %v", c.share, c.every, kept)
		}
	}
}

func TestSparseDoses(t *testing.T) {
	doses := []dose{{step: 1, servedAs: weighed}, {step: 0.01, least: 0.2, servedAs: weighed}, {step: 0.5, least: 0.5, servedAs: byUnit},
		{step: 0.01 / 28, least: 0.2 / 28, servedAs: inPremix}, {step: 0.01, least: 0.2, servedAs: weighed}, {step: 0.01, least: 0.2, servedAs: weighed}}
	p := &program{items: make([]item, len(doses))}
	for j := range p.items {
		p.items[j].cap, p.items[j].helping = 10, 10
	}
	got, much := sparse(p, doses, []float64{100, 0.11, 0.2, 0.001, 0.3, 0.01})
	for j, want := range []int{0, 2, 3, 0, 0, 0} {
		if got[j].every != want {
			t.Errorf("item %d every %d days, want %d", j, got[j].every, want)
		}
	}
	if !much {
		t.Error("0.5 g where 0.2 g are wanted is not much")
	}
	if _, much := sparse(p, doses, []float64{100, 0.11, 0, 0, 0, 0}); much {
		t.Error("0.2 g where 0.11 g are wanted is much")
	}
	if d, _ := sparse(p, doses, []float64{100, 0.3, 1, 1, 0.3, 0}); d != nil {
		t.Error("helpings for several days where none are needed")
	}
	p.items[1].helping = 0.15
	if d, _ := sparse(p, doses, []float64{100, 0.11, 0, 0, 0, 0}); d != nil {
		t.Error("a helping over what is allowed in a day")
	}
}
