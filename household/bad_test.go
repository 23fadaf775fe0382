package household

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"bowlwright/household/diag"
	"bowlwright/nutrients"

	"github.com/google/go-cmp/cmp"
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

func mustLoad(t testing.TB, dir string) *Household {
	t.Helper()
	h, list, err := Load(dir, testDay)
	if err != nil || h == nil {
		t.Fatalf("load: %v\n%s", err, list.Text(0, false, diag.Plain))
	}
	return h
}

var mark = regexp.MustCompile(`#! ([a-z0-9-]+)`)

// TestBadFiles reads files whose faulty lines name the code that is expected
// there: missing, extra and misplaced diagnostics all fail.
func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*.toml")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, f := range files {
		t.Run(strings.TrimSuffix(filepath.Base(f), ".toml"), func(t *testing.T) {
			b, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			place := map[string]string{"household": "household.toml", "base": "bases/pot.toml", "food": "foods/own-food.toml"}
			kind, _, _ := strings.Cut(strings.TrimSuffix(filepath.Base(f), ".toml"), "-")
			dir := folder(t, map[string]string{place[kind]: string(b)})
			h, list, err := Load(dir, testDay)
			if err != nil {
				t.Fatal(err)
			}
			if h != nil {
				t.Error("a household came out of a file with errors")
			}
			var want, got []string
			for i, line := range strings.Split(string(b), "\n") {
				for _, m := range mark.FindAllStringSubmatch(line, -1) {
					want = append(want, fmt.Sprintf("%d %s", i+1, m[1]))
				}
			}
			for _, d := range list {
				if d.At.File == place[kind] && d.Severity == diag.Error {
					got = append(got, fmt.Sprintf("%d %s", d.At.Line, d.Code))
				}
				if d.Hint.IsZero() {
					t.Errorf("no hint with: %s", d.Summary)
				}
			}
			slices.Sort(want)
			slices.Sort(got)
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("-want +got:\n%s\n%s", diff, list.Text(100, false, diag.Plain))
			}
		})
	}
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
