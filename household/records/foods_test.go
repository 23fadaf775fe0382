package records

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"bowlwright/household/safefile"
	"bowlwright/nutrients"
)

func TestImportFoodsAllOrNone(t *testing.T) {
	dir := folder(t, nil)
	h := mustLoad(t, dir)
	foods := []*nutrients.Food{{ID: "own-a", Name: "A"}, {ID: "own-b", Name: "B"}}
	for _, f := range foods {
		f.Per100g[nutrients.Protein] = nutrients.Known(10)
	}
	for n := 1; n <= 2; n++ {
		renames := 0
		restore := safefile.OnStep(func(s string) error {
			if s == "rename" {
				if renames++; renames == n {
					return syscall.ENOSPC
				}
			}
			return nil
		})
		_, err := Open(dir).ImportFoods(h, foods)
		restore()
		if files, _ := os.ReadDir(filepath.Join(dir, "foods")); err == nil || len(files) != 0 {
			t.Errorf("failing at %d left %v, %v", n, files, err)
		}
	}
	if written, err := Open(dir).ImportFoods(h, foods); err != nil || len(written) != 2 || written[0] != "foods/own-a.toml" {
		t.Fatal(written, err)
	}
	h = mustLoad(t, dir)
	if f, ok := h.Catalogue.Food("own-b"); !ok || f.Per100g[nutrients.Protein] != nutrients.Known(10) {
		t.Errorf("%+v", f)
	}
	for _, again := range [][]*nutrients.Food{foods, {{ID: "../x"}}, {{ID: "beef-heart-raw"}}, {{ID: "own-c"}, {ID: "own-c"}}} {
		if _, err := Open(dir).ImportFoods(h, again); err == nil {
			t.Errorf("%s was imported", again[0].ID)
		}
	}
}
