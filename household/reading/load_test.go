package reading

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// codesOf lists the codes of a list with their files.
func codesOf(l diag.List) string {
	var all []string
	for _, d := range l {
		all = append(all, fmt.Sprintf("%s:%d %s", d.At.File, d.At.Line, d.Code))
	}
	return strings.Join(all, ", ")
}

func TestLoadTheExample(t *testing.T) {
	h, list, err := Load("../../fixtures/quince-lane", testDay)
	if err != nil || len(list) > 0 {
		t.Fatalf("%v\n%s", err, list.Text(0, false, diag.Plain))
	}
	juno, ok := h.Pet("JUNO")
	if !ok || juno.Animal.WeightKg != 12 || juno.WeightDate != household.NewDate(2026, 11, 18) || juno.Animal.AgeWeeks != 19 {
		t.Errorf("%+v", juno)
	}
	if h.Kitchen != (household.Kitchen{Meals: 2, ScaleG: 1, FineScaleG: 0.01, PremixDays: 28, EnergySlack: 0.01, AddonEnergyShare: 0.2, WeightMoved: 0.03, AimsShare: 0.05, FewestWithin: 2}) {
		t.Errorf("%+v", h.Kitchen)
	}
	if marlow, _ := h.Pet("Marlow"); len(marlow.Extras) != 1 || marlow.Extras[0].Grams != 20 || marlow.Animal.EnergyKcal != 1310 {
		t.Errorf("%+v", marlow)
	}
	if len(h.Base.Ingredients) < 5 || h.Base.File != "turkey-heart-oats" || h.Base.Days == 0 {
		t.Errorf("%+v", h.Base)
	}
	for _, a := range h.Addons {
		if offered := len(a.Pets) == 0; a.Food.ID == "taurine-powder" && offered {
			t.Error("taurine is for Pip alone")
		}
	}
}

// TestLoadAtTheEdges: files that are not there, not text, or odd text.
func TestLoadAtTheEdges(t *testing.T) {
	remove := func(name string) func(string) { return func(dir string) { os.Remove(filepath.Join(dir, name)) } }
	put := func(name, text string) func(string) {
		return func(dir string) { os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644) }
	}
	for name, c := range map[string]struct {
		change func(dir string)
		want   string
	}{
		"no household":    {remove("household.toml"), "household.toml:0 file-missing"},
		"no base":         {remove("bases/pot.toml"), "household.toml:2 unknown-batch"},
		"a folder":        {func(dir string) { os.Remove(dir + "/household.toml"); os.Mkdir(dir+"/household.toml", 0o755) }, "household.toml:0 file-unreadable"},
		"too large":       {put("household.toml", strings.Repeat("# x\n", tomldoc.MaxFile/4+1)), "household.toml:0 file-too-large"},
		"not UTF-8":       {put("household.toml", "name = \"H\"\nbase = \"p\xf6t\"\n"), "household.toml:2 not-utf8"},
		"UTF-16":          {put("household.toml", "\xff\xfen\x00a\x00"), "household.toml:1 not-utf8"},
		"too deep":        {put("household.toml", "a = "+strings.Repeat("[", 100)), "household.toml:0 too-deep"},
		"bracket flood":   {put("household.toml", "a = \""+strings.Repeat("[", tomldoc.MaxBrackets+1)+"\""), "household.toml:0 too-deep"},
		"byte order mark": {put("household.toml", "\ufeff"+goodHousehold), ""},
		"CRLF":            {put("household.toml", strings.ReplaceAll(goodHousehold, "\n", "\r\n")), ""},
		"CRLF fault":      {put("household.toml", strings.ReplaceAll(goodHousehold, "31.5 kg\"\n", "31,5 kg\"\r\n")), "household.toml:6 decimal-comma"},
		"hidden files":    {put("bases/.pot.toml.swp", "\xff"), ""},
		"other endings":   {put("bases/pot.txt", "\xff"), ""},
		"no newline":      {put("household.toml", strings.TrimSuffix(goodHousehold, "\n")), ""},
		"unfinished text": {put("household.toml", goodHousehold+"sex = \"male"), "household.toml:7 broken-toml"},
		"long text":       {put("household.toml", goodHousehold+"sex = \"\"\"male\n\n"), "household.toml:7 broken-toml"},
		"nothing":         {put("household.toml", ""), "household.toml:1 missing-key, household.toml:1 missing-key"},
		"a dead link":     {func(dir string) { os.Remove(dir + "/household.toml"); os.Symlink("nowhere", dir+"/household.toml") }, "household.toml:0 file-missing"},
		"a live link": {func(dir string) {
			os.Rename(dir+"/household.toml", dir+"/real.toml")
			os.Symlink("real.toml", dir+"/household.toml")
		}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			dir := folder(t, nil)
			c.change(dir)
			h, list, err := Load(dir, testDay)
			if err != nil {
				t.Fatal(err)
			}
			if got := codesOf(list); got != c.want {
				t.Errorf("got %s, want %s\n%s", got, c.want, list.Text(0, false, diag.Plain))
			}
			if (h == nil) != list.HasErrors() {
				t.Errorf("household %v with errors %v", h != nil, list.HasErrors())
			}
		})
	}
	_, list, _ := Load(folder(t, map[string]string{"household.toml": "\ufeffnaem = 1\n" + goodHousehold}), testDay)
	if len(list) != 1 || list[0].At.Line != 1 || list[0].At.Col != 1 || list[0].At.Excerpt != "naem = 1" {
		t.Errorf("behind a byte order mark: %+v", list)
	}
	if h, list, err := Load(filepath.Join(t.TempDir(), "none"), testDay); h != nil || err != nil || codesOf(list)[len(codesOf(list))-14:] != "folder-missing" {
		t.Errorf("no folder: %v %v %s", h, err, codesOf(list))
	}
}

func TestBatchesWithinBatches(t *testing.T) {
	inner := func(name string) string {
		return goodBase + "[[ingredient]]\nbatch = \"" + name + "\"\namount = \"100 g\"\n"
	}
	h := mustLoad(t, folder(t, map[string]string{"bases/pot.toml": inner("broth"), "bases/broth.toml": goodBase}))
	if h.Base.Ingredients[1].Batch != h.Batches["broth"] {
		t.Error("the inner batch was not found")
	}
	_, list, _ := Load(folder(t, map[string]string{"bases/pot.toml": inner("a"), "bases/a.toml": inner("b"), "bases/b.toml": inner("a")}), testDay)
	found := false
	for _, d := range list {
		found = found || d.Code == "batch-cycle" && strings.Contains(d.Summary, "a > b > a")
	}
	if !found {
		t.Errorf("the cycle is not shown:\n%s", list.Text(0, false, diag.Plain))
	}
	deep := map[string]string{"bases/pot.toml": inner("b1")}
	for i := 1; i < 8; i++ {
		deep[fmt.Sprintf("bases/b%d.toml", i)] = inner(fmt.Sprintf("b%d", i+1))
	}
	deep["bases/b8.toml"] = goodBase
	mustLoad(t, folder(t, deep))
	deep["bases/b8.toml"], deep["bases/b9.toml"] = inner("b9"), goodBase
	_, list, _ = Load(folder(t, deep), testDay)
	if !strings.Contains(codesOf(list), "batch-depth") {
		t.Errorf("nine batches deep: %s", codesOf(list))
	}
}

// TestYield: declared by weight, by loss, and computed.
func TestYield(t *testing.T) {
	for head, want := range map[string]float64{"yield = \"300 g\"\n": 300, "loss = \"25 %\"\n": 300, "yield = \"0.7 lb\"\n": 0.7 * 453.59237} {
		h := mustLoad(t, folder(t, map[string]string{"bases/pot.toml": head + goodBase}))
		if got := h.Base.CookedGrams(); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s gives %g g, want %g", head, got, want)
		}
	}
	h := mustLoad(t, folder(t, nil))
	cooked, err := nutrients.Cook(h.Base.Ingredients[0].Food, "simmered")
	if err != nil || h.Base.CookedGrams() != 400*cooked.YieldShare {
		t.Errorf("computed %g g, %v", h.Base.CookedGrams(), err)
	}
}

// TestLiquidKept: what dissolves stays in a batch that keeps its broth.
func TestLiquidKept(t *testing.T) {
	poured := mustLoad(t, folder(t, map[string]string{"bases/pot.toml": "yield = \"300 g\"\n" + goodBase})).Base
	kept := mustLoad(t, folder(t, map[string]string{"bases/pot.toml": "yield = \"300 g\"\nliquid = \"kept\"\n" + goodBase})).Base
	a, _ := poured.Composition()
	b, _ := kept.Composition()
	raw := food(t, "beef-heart-raw").Per100g[nutrients.Potassium].Lo * 400 / 300
	if !(a[nutrients.Potassium].Lo < 0.9*raw) || math.Abs(b[nutrients.Potassium].Lo-raw) > 1e-9*raw {
		t.Errorf("potassium: %g poured, %g kept, %g raw", a[nutrients.Potassium].Lo, b[nutrients.Potassium].Lo, raw)
	}
}

func TestOwnFoods(t *testing.T) {
	files := map[string]string{
		"foods/label.toml": "id = \"own-meal\"\nname = \"Meal\"\nper = \"50 g\"\n[figures]\nprotein = \"10 g\"\ncarbohydrate = \"12 g\"\nfiber = \"2 g\"\nzinc = \"5000 ug\"\nvitamin-d = \"40 IU\"\n",
		"foods/pills.toml": "id = \"own-pill\"\nper = \"1 capsule\"\n[figures]\ntaurine = \"500 mg\"\n",
		"household.toml":   goodHousehold + "[[addon]]\nfood = \"own-meal\"\nmax = \"0.3 g per kg\"\nprice = \"4.20 per 100 g\"\n[[addon]]\nfood = \"own-pill\"\nunit_grams = 0.61\nstep = \"0.5 capsule\"\n",
	}
	h := mustLoad(t, folder(t, files))
	meal, pill := h.Addons[0], h.Addons[1]
	p := meal.Food.Per100g
	for id, want := range map[nutrients.ID]float64{nutrients.Protein: 20, nutrients.Zinc: 10, nutrients.VitaminD: 2, nutrients.DigestibleCarbohydrate: 20} {
		if math.Abs(p[id].Lo-want) > 1e-12 || p[id].Coverage != 1 {
			t.Errorf("%s is %+v, want %g", id, p[id], want)
		}
	}
	if p[nutrients.Calcium].IsKnown() {
		t.Error("what the label does not say is known")
	}
	if meal.MaxGPerKg != 0.3 || meal.MaxG != 0 || math.Abs(meal.PricePerG-0.042) > 1e-12 {
		t.Errorf("%+v", meal)
	}
	if pill.Unit != "capsule" || pill.StepG != 0.305 || math.Abs(pill.Food.Per100g[nutrients.Taurine].Lo-500/0.61*100) > 1e-6 {
		t.Errorf("%+v, taurine %g", pill, pill.Food.Per100g[nutrients.Taurine].Lo)
	}
}

// TestWeightInForce: the log wins, by its latest day up to today.
func TestWeightInForce(t *testing.T) {
	dir := folder(t, map[string]string{"weights.csv": "date,pet,kg,note\n2026-11-20,marlow,33.0,\n2026-11-01,Marlow,32.0,late entry\n2026-12-24,Marlow,40.0,\n"})
	for day, want := range map[household.Date]float64{household.NewDate(2026, 10, 1): 31.5, household.NewDate(2026, 11, 10): 32, testDay: 33, household.NewDate(2027, 1, 1): 40} {
		h, list, err := Load(dir, day)
		if err != nil || h == nil {
			t.Fatal(err, codesOf(list))
		}
		if got := h.Pets[0].Animal.WeightKg; got != want {
			t.Errorf("on %s: %g kg, want %g", day, got, want)
		}
	}
}

// TestAgeOfAnAdult: under 43 weeks an animal does not count as grown (common practice:
// small breeds and cats at ten to twelve months), and 40 years are a slip.
func TestAgeOfAnAdult(t *testing.T) {
	for days, want := range map[int]string{42*7 + 6: "household.toml:7 stage-and-age", 43 * 7: "", 40 * 52 * 7: "", (40*52 + 1) * 7: "household.toml:7 absurd-age"} {
		born := testDay.AddDays(-days).String()
		_, list, err := Load(folder(t, map[string]string{"household.toml": goodHousehold + "born = " + born + "\n"}), testDay)
		if got := codesOf(list); err != nil || got != want {
			t.Errorf("%d days old: %q, %v, want %q", days, got, err, want)
		}
	}
}

func TestAvoids(t *testing.T) {
	heart := food(t, "beef-heart-raw")
	for term, want := range map[string]bool{"beef": true, "Beef": true, "beef-heart": true, "beef heart": true, "organ": true, "chicken": false} {
		if got := household.Avoids(&household.Pet{Avoid: []string{term}}, heart); got != want {
			t.Errorf("avoid %q: %v", term, got)
		}
	}
	h := mustLoad(t, folder(t, map[string]string{"household.toml": goodHousehold + "avoid = \"egg\"\n[[addon]]\nfood = \"eggshell-powder\"\n[[addon]]\nfood = \"taurine-powder\"\n"}))
	if got := household.Offered(h, &h.Pets[0]); len(got) != 1 || got[0].Food.ID != "taurine-powder" {
		t.Errorf("offered %+v", got)
	}
}

// FuzzLoad: any household.toml and base give diagnostics or a household, and the
// diagnostics can be rendered.
func FuzzLoad(f *testing.F) {
	// Short texts: the fuzzer spends its time on shortening long ones.
	for _, text := range realTOML(f) {
		if len(text) < 1000 {
			f.Add(text, goodBase)
			f.Add(goodHousehold, text)
		}
	}
	dir := f.TempDir()
	f.Fuzz(func(t *testing.T, main, base string) {
		l := &loader{dir: dir, today: testDay, home: &household.Household{Dir: dir, Catalogue: nutrients.Default()}}
		d, b := tomldoc.Parse("household.toml", main), tomldoc.Parse("bases/pot.toml", base)
		l.readBases([]*tomldoc.Document{b})
		if d.Root != nil {
			l.readHousehold(d)
		}
		l.collect(d, b)
		if text := l.diags.Text(80, true, diag.Plain); len(l.diags) > 0 && text == "" {
			t.Fatal("diagnostics without a text")
		}
		if d.Root == nil && len(d.Diags) == 0 {
			t.Fatalf("%q was refused without a word", main)
		}
		if l.home.Base != nil && !l.diags.HasErrors() {
			l.home.Base.Snapshot()
		}
	})
}

// realTOML are the files of the example and those with faults.
func realTOML(t testing.TB) []string {
	t.Helper()
	var texts []string
	for _, pattern := range []string{"../../fixtures/quince-lane/*.toml", "../../fixtures/quince-lane/*/*.toml", "testdata/bad/*.toml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatal("no files of ", pattern, err)
		}
		for _, f := range files {
			b, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			texts = append(texts, string(b))
		}
	}
	return texts
}
