package household

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"bowlwright/household/diag"
	"bowlwright/household/safefile"
	"bowlwright/nutrients"
)

// TestEveryFoodReadsBack writes each food of the catalogue under another id and
// reads it: the figures are the same to the last bit.
func TestEveryFoodReadsBack(t *testing.T) {
	for _, f := range nutrients.Default().All() {
		own := *f
		own.ID = "own-" + f.ID
		d := &document{file: "foods/x.toml"}
		d.parse(FoodTOML(&own))
		got := readFood(d)
		if len(d.diags) > 0 {
			t.Errorf("%s: %s", f.ID, d.diags.Text(0, false, diag.Plain))
			continue
		}
		if got.Digest() != own.Digest() || got.Name != own.Name || got.Group != own.Group || got.Powder != own.Powder || got.Carrier != own.Carrier {
			t.Errorf("%s reads back otherwise", f.ID)
		}
	}
}

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
				renames++
			}
			if renames == n {
				return syscall.ENOSPC
			}
			return nil
		})
		_, err := OpenRecords(dir).ImportFoods(h, foods)
		restore()
		if files, _ := os.ReadDir(filepath.Join(dir, "foods")); err == nil || len(files) != 0 {
			t.Errorf("failing at %d left %v, %v", n, files, err)
		}
	}
	if written, err := OpenRecords(dir).ImportFoods(h, foods); err != nil || len(written) != 2 || written[0] != "foods/own-a.toml" {
		t.Fatal(written, err)
	}
	h = mustLoad(t, dir)
	if f, ok := h.Catalogue.Food("own-b"); !ok || f.Per100g[nutrients.Protein] != nutrients.Known(10) {
		t.Errorf("%+v", f)
	}
	for _, again := range [][]*nutrients.Food{foods, {{ID: "../x"}}, {{ID: "beef-heart-raw"}}, {{ID: "own-c"}, {ID: "own-c"}}} {
		if _, err := OpenRecords(dir).ImportFoods(h, again); err == nil {
			t.Errorf("%s was imported", again[0].ID)
		}
	}
}

// TestLabels: ranges, shares of the weight, compounds, and fibre counted apart.
func TestLabels(t *testing.T) {
	read := func(text string) *nutrients.Food {
		d := &document{file: "foods/x.toml"}
		d.parse(text)
		f := readFood(d)
		if len(d.diags) > 0 {
			t.Fatal(d.diags.Text(0, false, diag.Plain))
		}
		return f
	}
	f := read("per = \"50 g\"\nfiber_apart = true\n[figures]\nprotein = \"10 %\"\ncarbohydrate = \"6 g\"\nfiber = \"2 g\"\niodine = \"10..15 ug\"\n[[compound]]\nfood = \"zinc-gluconate\"\namount = \"50 mg\"\n")
	zinc := food(t, "zinc-gluconate").Per100g[nutrients.Zinc]
	for id, want := range map[nutrients.ID]nutrients.Figure{
		nutrients.Protein: nutrients.Known(10), nutrients.DigestibleCarbohydrate: nutrients.Known(12), nutrients.Iodine: nutrients.Between(20, 30),
		nutrients.Zinc: nutrients.Between(zinc.Lo*0.05/100*2, zinc.Hi*0.05/100*2),
	} {
		if got := f.Per100g[id]; math.Abs(got.Lo-want.Lo) > 1e-9 || math.Abs(got.Hi-want.Hi) > 1e-9 || got.Coverage != 1 {
			t.Errorf("%s: %+v, want %+v", id, got, want)
		}
	}
	if f.Per100g[nutrients.Calcium].IsKnown() {
		t.Error("a compound without calcium makes the food's calcium known")
	}
	if with := read("[figures]\ncarbohydrate = \"6 g\"\nfiber = \"2 g\"\n"); with.Per100g[nutrients.DigestibleCarbohydrate] != nutrients.Known(4) {
		t.Errorf("%+v", with.Per100g[nutrients.DigestibleCarbohydrate])
	}
	if !strings.Contains(FoodTOML(f), "iodine = \"20..30 ug\"") {
		t.Error(FoodTOML(f))
	}
}

// FuzzFood: what is accepted as a food reads back with the same figures.
func FuzzFood(f *testing.F) {
	for _, text := range append(realTOML(f), "per = \"50 g\"\n[figures]\nprotein = \"10 %\"\niodine = \"10..15 ug\"\n", "per = \"1 capsule\"\nunit_grams = 0.61\n[figures]\ntaurine = \"500 mg\"\n") {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d := &document{file: "foods/own-food.toml"}
		d.parse(text)
		if d.root == nil {
			if len(d.diags) == 0 {
				t.Fatal("refused without a word")
			}
			return
		}
		own := readFood(d)
		d.diags.Text(60, false, diag.Plain)
		if d.diags.HasErrors() {
			return
		}
		for id, x := range own.Per100g {
			if math.IsNaN(x.Lo) || math.IsInf(x.Hi, 0) || x.Lo > x.Hi || x.Lo < 0 {
				t.Fatalf("%s is %+v", nutrients.ID(id), x)
			}
		}
		again := &document{file: "foods/own-food.toml"}
		again.parse(FoodTOML(own))
		got := readFood(again)
		if len(again.diags) > 0 {
			t.Fatalf("%s\n%s", FoodTOML(own), again.diags.Text(0, false, diag.Plain))
		}
		if own.PerUnit == nil && got.Digest() != own.Digest() {
			t.Fatalf("%q reads back as\n%s", text, FoodTOML(own))
		}
	})
}
