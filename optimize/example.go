package optimize

import (
	"path/filepath"
	"testing"
	"time"

	"bowlwright/fixtures"
	"bowlwright/household"
	"bowlwright/nutrients"
)

var demoDay = time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)

// demo loads the example household.
func demo(t testing.TB) *household.Household {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "quince-lane")
	if err := fixtures.WriteDemo(dir, demoDay); err != nil {
		t.Fatal(err)
	}
	h, diags, err := household.Load(dir, household.DateOf(demoDay))
	if err != nil || h == nil {
		t.Fatal(diags, err)
	}
	return h
}

func petNamed(t testing.TB, h *household.Household, name string) *household.Pet {
	t.Helper()
	p, ok := h.Pet(name)
	if !ok {
		t.Fatalf("no pet %s", name)
	}
	return p
}

// swapped is the example with one food of the shelf in place of another.
func swapped(t *testing.T, pairs ...string) *household.Household {
	t.Helper()
	h := demo(t)
	for i := 0; i < len(pairs); i += 2 {
		for k := range h.Addons {
			if h.Addons[k].Food.ID == pairs[i] {
				f, ok := nutrients.Default().Food(pairs[i+1])
				if !ok {
					t.Fatalf("no food %s", pairs[i+1])
				}
				h.Addons[k] = household.Addon{Food: f}
			}
		}
	}
	return h
}

// withFoods puts foods of the catalogue on the shelf as well.
func withFoods(t *testing.T, h *household.Household, ids ...string) *household.Household {
	t.Helper()
	for _, id := range ids {
		f, ok := nutrients.Default().Food(id)
		if !ok {
			t.Fatalf("no food %s", id)
		}
		h.Addons = append(h.Addons, household.Addon{Food: f})
	}
	return h
}

// iodineOf is the lower limit of a pet's iodine.
func iodineOf(t *testing.T, h *household.Household, pet *household.Pet) float64 {
	t.Helper()
	for _, l := range targetsOf(t, h, pet).Limits {
		if l.Nutrient == nutrients.Iodine {
			return *l.Lower
		}
	}
	t.Fatal("no iodine")
	return 0
}

// targetsOf works out the limits of a pet.
func targetsOf(t *testing.T, h *household.Household, pet *household.Pet) nutrients.Targets {
	t.Helper()
	animal := pet.Animal
	if animal.Standard == "" {
		animal.Standard = h.Standard
	}
	targets, err := nutrients.TargetsFor(animal)
	if err != nil {
		t.Fatal(err)
	}
	return targets
}
