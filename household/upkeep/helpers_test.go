package upkeep

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/reading"
	"bowlwright/nutrients"
)

var testDay = household.NewDate(2026, 11, 25)

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

func mustLoad(t testing.TB, dir string) *household.Household {
	t.Helper()
	h, list, err := reading.Load(dir, testDay)
	if err != nil || h == nil {
		t.Fatalf("load: %v\n%s", err, list.Text(0, false, diag.Plain))
	}
	return h
}

// testPlan is a plan with enough in it to be kept and compared.
func testPlan(h *household.Household, pet string, baseG float64) *household.Plan {
	p, ok := h.Pet(pet)
	if !ok {
		panic("no pet " + pet)
	}
	base := h.Base.Snapshot()
	perGram := base.EnergyKcalPerG
	if p.Animal.Species == nutrients.Cat {
		perGram = base.EnergyKcalPerGCat
	}
	return &household.Plan{Format: household.PlanFormat, Household: h.Name, Date: testDay, Version: "test", Base: base,
		Pet: household.PetPlan{Pet: p.Name, Species: p.Animal.Species, Stage: p.Animal.Stage, Standard: p.Animal.Standard,
			WeightKg: p.Animal.WeightKg, Condition: p.Animal.Condition, Status: household.Met, BaseG: baseG, Meals: 2,
			EnergyKcal: baseG * perGram, PlannedKcal: baseG * perGram, BaseKcalPerG: perGram,
			ShelfDigest: h.FoodDigests().ShelfDigest(h, p), Scales: household.ScalesUsed{ScaleG: 1}}}
}

// thousand is a household of a thousand pets on the example's base and shelf.
func thousand(t testing.TB) string {
	t.Helper()
	var s, log strings.Builder
	s.WriteString("name = \"T\"\nbase = \"pot\"\n")
	log.WriteString("date,pet,kg,note\n")
	for i := range 1000 {
		fmt.Fprintf(&s, "[[pet]]\nname = \"Pet %d\"\nspecies = \"dog\"\nborn = 2020-03-14\nweight = \"%d kg\"\navoid = [\"chicken\"]\n[[pet.extra]]\nfood = \"carrot-raw\"\namount = \"20 g\"\n", i, 3+i%60)
		fmt.Fprintf(&log, "2026-11-20,Pet %d,%d.0,\n", i, 3+i%60)
	}
	for _, id := range []string{"eggshell-powder", "taurine-powder", "zinc-gluconate", "kelp-powder-ascophyllum"} {
		fmt.Fprintf(&s, "[[addon]]\nfood = %q\n", id)
	}
	return folder(t, map[string]string{"household.toml": s.String(), "weights.csv": log.String()})
}
