package household

import (
	"os"
	"path/filepath"
	"testing"

	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

var testDay = NewDate(2026, 11, 25)

const (
	goodHousehold = "name = \"H\"\nbase = \"pot\"\n[[pet]]\nname = \"Marlow\"\nspecies = \"dog\"\nweight = \"31.5 kg\"\n"
	goodBase      = "[[ingredient]]\nfood = \"beef-heart-raw\"\namount = \"400 g\"\nmethod = \"simmered\"\n"
)

// folder writes a household; files override the good ones.
func folder(t testing.TB, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	all := map[string]string{"household.toml": goodHousehold, "bases/pot.toml": goodBase}
	for name, text := range files {
		all[name] = text
	}
	for name, text := range all {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// LoadForTests is the reader of households, which imports this package and so cannot be
// imported by its tests; the tests beside it put it in.
var LoadForTests func(dir string, today Date) (*Household, diag.List, error)

func mustLoad(t testing.TB, dir string) *Household {
	t.Helper()
	h, list, err := LoadForTests(dir, testDay)
	if err != nil || h == nil {
		t.Fatalf("load: %v\n%s", err, list.Text(0, false, diag.Plain))
	}
	return h
}

// testPlan is a plan with enough in it to be kept and compared.
func testPlan(h *Household, pet string, baseG float64) *Plan {
	p, ok := h.Pet(pet)
	if !ok {
		panic("no pet " + pet)
	}
	base := h.Base.Snapshot()
	perGram := base.EnergyKcalPerG
	if p.Animal.Species == nutrients.Cat {
		perGram = base.EnergyKcalPerGCat
	}
	return &Plan{Format: PlanFormat, Household: h.Name, Date: testDay, Version: "test", Base: base,
		Pet: PetPlan{Pet: p.Name, Species: p.Animal.Species, Stage: p.Animal.Stage, Standard: p.Animal.Standard,
			WeightKg: p.Animal.WeightKg, Condition: p.Animal.Condition, Status: Met, BaseG: baseG, Meals: 2,
			EnergyKcal: baseG * perGram, PlannedKcal: baseG * perGram, BaseKcalPerG: perGram,
			ShelfDigest: h.FoodDigests().ShelfDigest(h, p), Scales: ScalesUsed{ScaleG: 1}}}
}
