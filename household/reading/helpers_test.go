package reading

import (
	"os"
	"path/filepath"
	"testing"

	"bowlwright/household"
	"bowlwright/household/diag"
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
	h, list, err := Load(dir, testDay)
	if err != nil || h == nil {
		t.Fatalf("load: %v\n%s", err, list.Text(0, false, diag.Plain))
	}
	return h
}

// food is a food of the catalogue.
func food(t testing.TB, id string) *nutrients.Food {
	t.Helper()
	f, ok := nutrients.Default().Food(id)
	if !ok {
		t.Fatalf("the catalogue has no %s", id)
	}
	return f
}
