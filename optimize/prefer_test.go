package optimize

import (
	"context"
	"math"
	"math/rand"
	"slices"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/lp"
	"bowlwright/optimize/milp"
	"bowlwright/optimize/weighing"
)

// priced draws a household with a price on every add-on, some a hundred times as dear
// as others.
func priced(r *rand.Rand) *household.Household {
	h := sample.DrawStocked(r)
	for i := range h.Addons {
		h.Addons[i].PricePerG = math.Pow(10, -3+3*r.Float64())
	}
	h.Kitchen.FineScaleG = 0.001
	return h
}

// The cheapest plan, with exact amounts and with those printed, is near the least price
// and not only near the grams that the least price needs.
func TestCheapestIsCheap(t *testing.T) {
	r := rand.New(rand.NewSource(77))
	met, coarse := 0, 0
	for met < sample.Count(10, 60) {
		h := priced(r)
		pet := &h.Pets[0]
		pet.Prefer = household.PreferCheapest
		p, err := diet.Formulate(h, pet)
		if err != nil || p.Rows[0].A[0] <= 0 {
			continue
		}
		s, solver, err := p.LeastAddon()
		if err != nil {
			t.Fatal(err)
		}
		if s.Farkas != nil || s.Violation > 0 {
			continue
		}
		q := s.Problem
		for j := 1; j < len(p.Items); j++ {
			q.Cost[j] = p.Items[j].Addon.PricePerG
		}
		solver.SetCost(q.Cost)
		energy := p.Rows[0]
		solver.SetRow(0, p.EnergyLeft/energy.Size, p.EnergyLeft/energy.Size)
		cheap := solver.Solve()
		if cheap.Status != lp.Optimal {
			solver.SetRow(0, energy.Lower/energy.Size, energy.Upper/energy.Size)
			cheap = solver.Solve()
		}
		best := cheap.Objective
		q2, err := diet.Formulate(h, pet)
		if err != nil {
			t.Fatal(err)
		}
		exact, err := q2.Solve(context.Background(), nil)
		if err != nil {
			t.Fatal(err)
		}
		price, dearest := 0.0, 0.0
		for j := 1; j < len(p.Items); j++ {
			dearest = max(dearest, p.Items[j].Addon.PricePerG)
			price += p.Items[j].Addon.PricePerG * exact.X[j]
		}
		if price > p.NearLeast()*best*1.0001 {
			t.Errorf("exact amounts for %.4g, the least price is %.4g", price, best)
		}
		plan := solve(t, h, pet)
		if plan.Pet.Status != household.Met {
			continue
		}
		met++
		paid := 0.0
		for _, a := range plan.Pet.Addons {
			paid += a.Price
		}
		if paid > weighing.NearLeastWeighable*best*1.0001 {
			// Where no weighable amounts are that near, the least price of those that
			// can be weighed is the measure.
			coarse++
			w := weighing.NewStepProgram(q2, exact, weighing.DosesFor(q2, exact.X), true)
			least, err := w.Search(milp.Goal{Least: true, MaxSpent: math.Inf(1)})
			if err != nil || least == nil {
				t.Errorf("printed amounts for %.4g, the least price is %.4g, of weighable amounts none: %v", paid, best, err)
			} else if spent := q2.Spent(least.Grams) * dearest; paid > p.NearLeast()*spent*1.0001 {
				t.Errorf("printed amounts for %.4g, the least price is %.4g, of weighable amounts %.4g", paid, best, spent)
			}
		}
	}
	t.Logf("%d plans, for %d of them the scales are too coarse", met, coarse)
	if coarse > met/4+1 {
		t.Errorf("for %d of %d plans the scales are too coarse", coarse, met)
	}
}

// With prices that lie far apart an answer is found as well: the program goes on from
// the one for the least grams, and where that way leads nowhere starts anew.
func TestCheapestIsAlwaysFound(t *testing.T) {
	r := rand.New(rand.NewSource(78))
	for range sample.Count(40, 300) {
		h := priced(r)
		p, err := diet.Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 {
			continue
		}
		p.Prefer = household.PreferCheapest
		if _, err := p.Solve(context.Background(), nil); err != nil {
			t.Error(err)
		}
	}
}

// A plan with the fewest add-ons is met where that with the least is, holds no more of
// them, and no more grams than it may.
func TestFewestIsPrinted(t *testing.T) {
	r := rand.New(rand.NewSource(79))
	met, fewer := 0, 0
	for met < sample.Count(6, 25) {
		h := sample.DrawStocked(r)
		pet := &h.Pets[0]
		least := solve(t, h, pet)
		if least.Pet.Status != household.Met {
			continue
		}
		met++
		pet.Prefer = household.PreferFewest
		few := solve(t, h, pet)
		if few.Pet.Status != household.Met {
			t.Errorf("the fewest are %s, the least add-on is met", few.Pet.Status)
		}
		if a, b := len(few.Pet.Addons), len(least.Pet.Addons); a > b {
			t.Errorf("%d add-ons, with the least add-on %d", a, b)
		} else if a < b {
			fewer++
		}
		if a, b, c := addonG(few), h.Kitchen.FewestWithin*few.Pet.Certificate.LeastAddonG, addonG(least); a > max(b, c)*(1+1e-9) {
			t.Errorf("%g g with the fewest add-ons, %g g may be", a, max(b, c))
		}
		t.Log(len(least.Pet.Addons), addonG(least), len(few.Pet.Addons), addonG(few), few.Pet.Notes)
	}
	t.Logf("%d of %d plans have fewer add-ons than that with the least", fewer, met)
	if fewer < met/6 {
		t.Errorf("only %d of %d plans have fewer add-ons", fewer, met)
	}
}

func addonG(plan *household.Plan) float64 {
	sum := 0.0
	for _, a := range plan.Pet.Addons {
		sum += a.G
	}
	return sum
}

// A plan close to the one in use moves less than one made from nothing when the animal
// needs a little more, does not move at all when nothing changed, and stays within its
// share of the least add-on.
func TestClosestOfDrawnHouseholds(t *testing.T) {
	r := rand.New(rand.NewSource(80))
	met, farther, same := 0, 0, 0
	for met < sample.Count(12, 30) {
		h := sample.DrawStocked(r)
		pet := &h.Pets[0]
		pet.Prefer = household.PreferClosest
		before := solve(t, h, pet)
		if before.Pet.Status != household.Met {
			continue
		}
		again, err := Solve(context.Background(), Request{Household: h, Pet: pet, Today: household.DateOf(sample.Day), Previous: before})
		if err != nil {
			t.Fatal(err)
		}
		if moved(before, again) < 0.01 {
			same++
		}
		pet.Animal.WeightKg *= 1.02
		free := solve(t, h, pet)
		near, err := Solve(context.Background(), Request{Household: h, Pet: pet, Today: household.DateOf(sample.Day), Previous: before})
		if err != nil {
			t.Fatal(err)
		}
		if near.Pet.Status != household.Met || free.Pet.Status != household.Met {
			continue
		}
		met++
		if moved(before, near) > moved(before, free)+0.01 {
			farther++
			t.Logf("moved by %.3f near the plan in use, by %.3f without it", moved(before, near), moved(before, free))
		}
	}
	t.Logf("%d plans, %d the same when nothing changed, %d farther", met, same, farther)
	if farther > met/10 || same < met*8/10 {
		t.Errorf("of %d plans %d moved farther than from nothing, %d stayed when nothing changed", met, farther, same)
	}
}

// The order of the shelf and the prices of items that are not offered decide nothing.
func TestCheapestOrder(t *testing.T) {
	r := rand.New(rand.NewSource(78))
	for range sample.Count(2, 8) {
		h := priced(r)
		pet := &h.Pets[0]
		pet.Prefer = household.PreferCheapest
		a := solve(t, h, pet)
		slices.Reverse(h.Addons)
		b := solve(t, h, pet)
		if a.Pet.Status != b.Pet.Status || math.Abs(a.Pet.BaseG-b.Pet.BaseG) > 0 || len(a.Pet.Addons) != len(b.Pet.Addons) {
			t.Errorf("%g g of base and %d add-ons, the other way round %g g and %d", a.Pet.BaseG, len(a.Pet.Addons), b.Pet.BaseG, len(b.Pet.Addons))
		}
	}
}
