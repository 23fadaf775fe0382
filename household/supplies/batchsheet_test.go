package supplies

import (
	"errors"
	"math"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// sheetBase is an invented batch of foods from the catalogue.
func sheetBase(t testing.TB) *household.Batch {
	t.Helper()
	b := &household.Batch{File: "turkey-oats", Name: "Turkey and oats", YieldG: 5200, Days: 4}
	for i, id := range []string{"turkey-thigh-skinless-raw", "oats-rolled-dry", "kale-raw"} {
		f, ok := nutrients.Default().Food(id)
		if !ok {
			t.Fatalf("the catalogue has no %s", id)
		}
		b.Ingredients = append(b.Ingredients, household.Ingredient{Food: f, Grams: 2000 + 500*float64(i), PricePerG: 0.008})
	}
	return b
}

// sheetPairs are invented plans of twelve pets for the base.
func sheetPairs(t *testing.T, base *household.Batch) []household.Paired {
	t.Helper()
	var ps []household.Paired
	for i := range 12 {
		plan := &household.Plan{Date: household.NewDate(2026, 11, 25), Base: base.Snapshot()}
		plan.Pet = household.PetPlan{Pet: strings.Repeat("x", i+1), Status: household.Met, BaseG: 813 + 10*float64(i), Meals: 2, Scales: household.ScalesUsed{ScaleG: 1}}
		p, err := household.Pair(household.Unexamined(t, plan), base)
		if err != nil {
			t.Fatal(err)
		}
		ps = append(ps, p)
	}
	return ps
}

func TestBatchAddsUp(t *testing.T) {
	base := sheetBase(t)
	ps := sheetPairs(t, base)
	for _, o := range []BatchOrder{{Days: 8}, {YieldG: 20000}, {}, {Days: 1}} {
		o.Date = ps[0].Plan().Date
		b, err := NewBatchSheet(base, ps, o)
		if err != nil {
			t.Fatal(err)
		}
		raw, inContainers := 0.0, 0.0
		for _, l := range b.Ingredients {
			raw += l.G
		}
		for _, c := range b.Containers {
			inContainers += float64(c.Count) * c.G
			if c.Days > FridgeDays {
				t.Errorf("a container for %d days", c.Days)
			}
		}
		if math.Abs(raw-b.RawG) > 1e-6 {
			t.Errorf("%+v: the ingredients weigh %g, the pot %g", o, raw, b.RawG)
		}
		if math.Abs(inContainers+b.LeftG-b.CookedG) > 1e-6 {
			t.Errorf("%+v: %g g in containers and %g left of %g", o, inContainers, b.LeftG, b.CookedG)
		}
		if o.YieldG > 0 && math.Abs(b.CookedG-o.YieldG) > 1e-6 {
			t.Errorf("asked for %g, got %g", o.YieldG, b.CookedG)
		}
		if o.Days > 0 && math.Abs(inContainers-float64(o.Days)*b.DailyG) > 1e-6 {
			t.Errorf("%d days: %g g in containers, %g a day", o.Days, inContainers, b.DailyG)
		}
	}
}

// What is bought, less what is thrown away, is at least what goes into the pot,
// and no more than one step above.
func TestShoppingCoversThePot(t *testing.T) {
	base := sheetBase(t)
	refuse := *base.Ingredients[0].Food
	refuse.Refuse = 0.2
	base.Ingredients[0].Food = &refuse
	base.Ingredients = append(base.Ingredients, household.Ingredient{Food: &refuse, Grams: 333})
	b, err := NewBatchSheet(base, sheetPairs(t, base), BatchOrder{Days: 3})
	if err != nil {
		t.Fatal(err)
	}
	pot, shop := map[string]float64{}, 0
	for _, l := range b.Ingredients {
		pot[l.Name] += l.G
	}
	for _, g := range b.Shopping {
		for _, l := range g.Lines {
			shop++
			if over := l.BuyG - l.RefuseG - pot[l.Name]; over < -1e-6 || over >= ShoppingStepG {
				t.Errorf("%s: bought %g of which %g is refuse, into the pot %g", l.Name, l.BuyG, l.RefuseG, pot[l.Name])
			}
			if want := pot[l.Name] / 0.8 * 0.2; l.Name == refuse.Name && math.Abs(l.RefuseG-want) > 1e-6 {
				t.Errorf("refuse %g, want %g", l.RefuseG, want)
			}
		}
	}
	if shop != len(pot) {
		t.Errorf("%d lines for %d foods", shop, len(pot))
	}
}

func TestBatchRefuses(t *testing.T) {
	base, other := sheetBase(t), sheetBase(t)
	other.Ingredients[0].Grams *= 2
	ps := sheetPairs(t, base)
	if _, err := NewBatchSheet(other, ps, BatchOrder{Days: 1}); err == nil || !strings.Contains(err.Error(), "was made for base") {
		t.Errorf("another base: %v", err)
	}
	plan := *ps[0].Plan()
	plan.Pet.Status = household.Over
	over := paired(t, &plan, base)
	var refused *household.NotPrintableError
	if _, err := NewBatchSheet(base, append(ps, over), BatchOrder{}); !errors.As(err, &refused) {
		t.Errorf("a plan that is over: %v", err)
	}
	if _, err := NewBatchSheet(base, ps, BatchOrder{Days: 1, YieldG: 1}); err == nil {
		t.Error("days and yield together were taken")
	}
	if _, err := NewBatchSheet(base, nil, BatchOrder{}); err == nil {
		t.Error("a batch for nobody was taken")
	}
}

// TestEggsAreCounted by the published weight of one: 803 g of hard-boiled eggs at 50 g
// (SR28, "1 large") are about 16; nothing else is counted.
func TestEggsAreCounted(t *testing.T) {
	egg, _ := nutrients.Default().Food("egg-whole-hard-boiled")
	thigh, _ := nutrients.Default().Food("turkey-thigh-skinless-raw")
	if got := pieces(egg, 803); math.Abs(got-16.06) > 1e-9 || pieces(thigh, 803) != 0 || pieces(nil, 1) != 0 {
		t.Errorf("%g eggs", got)
	}
}
