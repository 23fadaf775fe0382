package foodfile

import (
	"math"
	"strings"
	"testing"

	"bowlwright/household/diag"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// TestEveryFoodReadsBack writes each food of the catalogue under another id and
// reads it: the figures are the same to the last bit.
func TestEveryFoodReadsBack(t *testing.T) {
	for _, f := range nutrients.Default().All() {
		own := *f
		own.ID = "own-" + f.ID
		d := tomldoc.Parse("foods/x.toml", TOML(&own))
		got := Read(d)
		if len(d.Diags) > 0 {
			t.Errorf("%s: %s", f.ID, d.Diags.Text(0, false, diag.Plain))
			continue
		}
		if got.Digest() != own.Digest() || got.Name != own.Name || got.Group != own.Group || got.Powder != own.Powder || got.Carrier != own.Carrier {
			t.Errorf("%s reads back otherwise", f.ID)
		}
	}
}

func catalogueFood(t *testing.T, id string) *nutrients.Food {
	t.Helper()
	f, ok := nutrients.Default().Food(id)
	if !ok {
		t.Fatalf("the catalogue has no %s", id)
	}
	return f
}

// TestLabels: ranges, shares of the weight, compounds, and fibre counted apart.
func TestLabels(t *testing.T) {
	read := func(text string) *nutrients.Food {
		d := tomldoc.Parse("foods/x.toml", text)
		f := Read(d)
		if len(d.Diags) > 0 {
			t.Fatal(d.Diags.Text(0, false, diag.Plain))
		}
		return f
	}
	f := read("per = \"50 g\"\nfiber_apart = true\n[figures]\nprotein = \"10 %\"\ncarbohydrate = \"6 g\"\nfiber = \"2 g\"\niodine = \"10..15 ug\"\n[[compound]]\nfood = \"zinc-gluconate\"\namount = \"50 mg\"\n")
	zinc := catalogueFood(t, "zinc-gluconate").Per100g[nutrients.Zinc]
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
	if !strings.Contains(TOML(f), "iodine = \"20..30 ug\"") {
		t.Error(TOML(f))
	}
}

// FuzzFood: what is accepted as a food reads back with the same figures.
func FuzzFood(f *testing.F) {
	for _, text := range []string{"name = \"Meal\"\ncaution = [\"x\"]\n[figures]\nprotein = \"min 10 %\"\nretinol = \"5000 IU\"\n", "per = \"50 g\"\n[figures]\nprotein = \"10 %\"\niodine = \"10..15 ug\"\n", "per = \"1 capsule\"\nunit_grams = 0.61\n[figures]\ntaurine = \"500 mg\"\n"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d := tomldoc.Parse("foods/own-food.toml", text)
		if d.Root == nil {
			if len(d.Diags) == 0 {
				t.Fatal("refused without a word")
			}
			return
		}
		own := Read(d)
		d.Diags.Text(60, false, diag.Plain)
		if d.Diags.HasErrors() {
			return
		}
		for id, x := range own.Per100g {
			if math.IsNaN(x.Lo) || math.IsInf(x.Hi, 0) || x.Lo > x.Hi || x.Lo < 0 {
				t.Fatalf("%s is %+v", nutrients.ID(id), x)
			}
		}
		again := tomldoc.Parse("foods/own-food.toml", TOML(own))
		got := Read(again)
		if len(again.Diags) > 0 {
			t.Fatalf("%s\n%s", TOML(own), again.Diags.Text(0, false, diag.Plain))
		}
		if own.PerUnit == nil && got.Digest() != own.Digest() {
			t.Fatalf("%q reads back as\n%s", text, TOML(own))
		}
	})
}
