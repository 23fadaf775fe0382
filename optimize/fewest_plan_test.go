package optimize

import (
	"math/rand"
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize/diet"
)

// Where limits are missed anyway, a plan with the fewest add-ons misses no more of them
// than the one with the least add-on: its few items may be what the scales weigh worst.
func TestFewestMissesNoMore(t *testing.T) {
	r := rand.New(rand.NewSource(83))
	short, replaced := 0, 0
	for short < sample.Count(12, 30) {
		h := sample.Draw(r)
		h.Kitchen.FineScaleG = []float64{0, 0.1, 0.05}[r.Intn(3)]
		pet := &h.Pets[0]
		least := solve(t, h, pet)
		if least.Pet.Status != household.Short {
			continue
		}
		short++
		pet.Prefer = household.PreferFewest
		few := solve(t, h, pet)
		p, err := diet.Formulate(h, pet)
		if err != nil {
			t.Fatal(err)
		}
		if few, least := p.Missed(gramsOf(p, few)), p.Missed(gramsOf(p, least)); few > least+diet.ViolationSliver {
			t.Errorf("%s: the fewest miss %.4g, the least add-on %.4g", pet.Name, few, least)
		}
		for _, n := range few.Pet.Notes {
			if strings.Contains(n, "fall further below the minimums") {
				replaced++
			}
		}
	}
	t.Logf("%d of %d short plans with the fewest missed more and gave way", replaced, short)
	if replaced == 0 {
		t.Error("no plan gave way: the test shows nothing")
	}
}

// gramsOf reads the amounts of a plan in the order of the items.
func gramsOf(p *diet.Program, plan *household.Plan) []float64 {
	closest := *p
	closest.Prefer = household.PreferClosest
	return closest.AmountsOf(plan)
}
