package optimize

import (
	"context"
	"math"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
)

var growthDay = household.DateOf(sample.Day)

func growthOfExample(t *testing.T, weeks int, change func(*household.Household)) (*household.Household, *GrowthTable, error) {
	t.Helper()
	h := sample.QuinceLane(t)
	if change != nil {
		change(h)
	}
	pet, _ := h.Pet("Juno")
	table, err := Growth(context.Background(), GrowthRequest{Household: h, Pet: pet, Today: growthDay, Version: "test", Weeks: weeks})
	return h, table, err
}

// TestGrowthTable: rows from today's weight to what the curve expects, close enough that
// one is always near, each with all limits met, and one premix for all of them.
func TestGrowthTable(t *testing.T) {
	h, table, err := growthOfExample(t, 6, nil)
	if err != nil {
		t.Fatal(err)
	}
	pet, _ := h.Pet("Juno")
	now := pet.Animal.WeightKg
	first, last := table.Rows[0].WeightKg, table.Rows[len(table.Rows)-1].WeightKg
	// A dog of 22 kg grows by about 0.6 kg a week at 19 weeks (half grown at 4 to 5 months).
	if first > now || last < now+2 || last > now+6 {
		t.Errorf("rows from %g to %g kg for a puppy of %g kg", first, last, now)
	}
	if table.Jar == nil {
		t.Fatalf("no premix for all rows: %s", table.Note)
	}
	if days := table.JarDays(); days < 42 || days > 42*2 {
		t.Errorf("the premix is enough for %d days", days)
	}
	for i, r := range table.Rows {
		plan := r.Plan.Pet
		if i > 0 {
			if step := r.WeightKg/table.Rows[i-1].WeightKg - 1; step <= 0 || step > 0.05 {
				t.Errorf("a step of %.1f %% to %g kg", 100*step, r.WeightKg)
			}
		}
		if plan.Status != household.Met || plan.WeightKg != r.WeightKg || plan.Jar == nil || plan.Jar.Code != table.Jar.Code {
			t.Errorf("%g kg: %s, made for %g kg, jar %v", r.WeightKg, plan.Status, plan.WeightKg, plan.Jar)
			continue
		}
		// The energy of the row is that of the equation at its weight, not of another row.
		a := pet.Animal
		a.WeightKg = r.WeightKg
		need, err := nutrients.EnergyFor(a)
		if err != nil || math.Abs(plan.PlannedKcal/need.Kcal-1) > h.Kitchen.EnergySlack+1e-9 {
			t.Errorf("%g kg: %.0f kcal planned, the equation says %.0f (%v)", r.WeightKg, plan.PlannedKcal, need.Kcal, err)
		}
	}
}

// TestGrowthTableRowsStandAlone: each row, taken for a plan of the animal at that weight,
// passes the deep check, which knows nothing of the table.
func TestGrowthTableRowsStandAlone(t *testing.T) {
	h, table, err := growthOfExample(t, 3, nil)
	if err != nil {
		t.Fatal(err)
	}
	pet, _ := h.Pet("Juno")
	for _, r := range table.Rows {
		at := growthHousehold(GrowthRequest{Household: h, Pet: pet, Today: growthDay, Weeks: 3}, &GrowthTable{Until: table.Until, Rows: []GrowthRow{r}})
		with, unusable := at.WithJars([]household.Jar{*table.Jar})
		if len(unusable) > 0 {
			t.Fatal(unusable)
		}
		for _, f := range Deep(r.Plan, Share(with), &with.Pets[0]) {
			t.Errorf("%g kg: %s", r.WeightKg, f.Message)
		}
	}
}

func TestGrowthTableWithoutAPuppy(t *testing.T) {
	h := sample.QuinceLane(t)
	pet, _ := h.Pet("Pip")
	if _, err := Growth(context.Background(), GrowthRequest{Household: h, Pet: pet, Today: growthDay, Weeks: 6}); err == nil {
		t.Error("a table for an adult cat")
	}
	if _, _, err := growthOfExample(t, 6, func(h *household.Household) {
		p, _ := h.Pet("Juno")
		p.Born = household.Date{}
	}); err == nil {
		t.Error("a table without a birthday")
	}
	// Where some row cannot be met the table does not hold it.
	_, table, err := growthOfExample(t, 6, func(h *household.Household) { h.Addons = h.Addons[:2] })
	if err != nil {
		t.Fatal(err)
	}
	if len(table.Rows) > 0 || table.Note == "" {
		t.Errorf("%d rows on a bare shelf, %q", len(table.Rows), table.Note)
	}
}
