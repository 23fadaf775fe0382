package optimize

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"bowlwright/fixtures"
	"bowlwright/household"
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

func solve(t testing.TB, h *household.Household, pet *household.Pet) *household.Plan {
	t.Helper()
	plan, err := Solve(context.Background(), Request{Household: h, Pet: pet, Today: household.DateOf(demoDay), Version: "test"})
	if err != nil {
		t.Fatalf("%s: %v", pet.Name, err)
	}
	return plan
}

func petNamed(t testing.TB, h *household.Household, name string) *household.Pet {
	t.Helper()
	p, ok := h.Pet(name)
	if !ok {
		t.Fatalf("no pet %s", name)
	}
	return p
}
