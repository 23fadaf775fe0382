package records

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/reading"
	"bowlwright/nutrients"

	"pgregory.net/rapid"
)

// TestRestoreAPlan: an earlier plan comes back into use, and on another base it
// is refused.
func TestRestoreAPlan(t *testing.T) {
	dir := folder(t, nil)
	h := mustLoad(t, dir)
	r := Open(dir)
	for _, g := range []float64{400, 410} {
		if _, err := r.SavePlans([]*household.Plan{testPlan(h, "Marlow", g)}); err != nil {
			t.Fatal(err)
		}
	}
	first, err := r.Plan("1")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := r.Restore(h, first, testDay); err != nil {
		t.Fatal(err)
	}
	inUse, _, err := r.InUse()
	if err != nil || inUse["Marlow"].Plan.Pet.BaseG != 400 || inUse["Marlow"].Seq != 3 {
		t.Errorf("%+v %v", inUse["Marlow"], err)
	}
	if err := os.WriteFile(filepath.Join(dir, "bases/pot.toml"), []byte(strings.ReplaceAll(goodBase, "heart", "liver")), 0o644); err != nil {
		t.Fatal(err)
	}
	var mix *household.MixUpError
	if _, err := r.Restore(mustLoad(t, dir), first, testDay); !errors.As(err, &mix) {
		t.Errorf("restored on another base: %v", err)
	}
	if inUse, _, _ := r.InUse(); inUse["Marlow"].Seq != 3 {
		t.Error("the refused plan was written")
	}
}

// TestRestoreABase: a base whose file is gone comes back from a plan, beside what
// took its place, and has its old code.
func TestRestoreABase(t *testing.T) {
	dir := folder(t, map[string]string{
		"bases/pot.toml":   "name = \"A \\\"pot\\\"\"\nyield = \"0.45 kg\"\ndays = 3\n" + goodBase + "[[ingredient]]\nbatch = \"broth\"\namount = \"1.1 lb\"\n",
		"bases/broth.toml": strings.ReplaceAll(goodBase, "heart", "liver"),
	})
	h := mustLoad(t, dir)
	was := h.Base.Snapshot()
	r := Open(dir)
	if _, err := r.SavePlans([]*household.Plan{testPlan(h, "Marlow", 400)}); err != nil {
		t.Fatal(err)
	}
	for file, text := range map[string]string{"pot": goodBase, "broth": strings.ReplaceAll(goodBase, "400 g\"", "400 g\"\nprice = \"1 per kg\"")} {
		if err := os.WriteFile(filepath.Join(dir, "bases", file+".toml"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	h = mustLoad(t, dir)
	base, err := r.BaseByCode(strings.ToLower(was.Code))
	if err != nil {
		t.Fatal(err)
	}
	name, written, err := r.RestoreBase(h, base)
	if err != nil || len(written) != 2 || name == "pot" {
		t.Fatalf("%s %v %v", name, written, err)
	}
	again := mustLoad(t, dir)
	if got := again.Batches[name].Identity(); got != was.Identity {
		t.Errorf("%+v, was %+v", got, was.Identity)
	}
	if again.Batches["pot"].Identity().Code != h.Batches["pot"].Identity().Code {
		t.Error("the user's file was changed")
	}
	if same, written, err := r.RestoreBase(again, base); err != nil || same != name || len(written) != 0 {
		t.Errorf("a second time: %s %v %v", same, written, err)
	}
	if _, err := r.BaseByCode("000-000-0"); err == nil {
		t.Error("a base that was never there was found")
	}
}

// drawBatch draws a batch of two to five foods, perhaps with a batch within.
func drawBatch(t *rapid.T, depth int) *household.Batch {
	b := &household.Batch{File: rapid.StringMatching(`[a-z]{1,8}`).Draw(t, "file"), Name: rapid.StringMatching(`[ -~äŽ日]{0,20}`).Draw(t, "name")}
	known := []string{"turkey-thigh-skinless-raw", "beef-heart-raw", "beef-liver-raw", "oats-rolled-dry", "kale-raw"}
	for _, id := range rapid.SliceOfNDistinct(rapid.SampledFrom(known), 2, 5, rapid.ID).Draw(t, "foods") {
		f, ok := nutrients.Default().Food(id)
		if !ok {
			t.Fatalf("the catalogue has no %s", id)
		}
		b.Ingredients = append(b.Ingredients, household.Ingredient{
			Food: f, Grams: float64(rapid.IntRange(10, 50000).Draw(t, "decigrams")) / 10,
			Method: rapid.SampledFrom([]string{"", "simmered", "boiled"}).Draw(t, "method"),
		})
	}
	if depth > 0 && rapid.Bool().Draw(t, "nested") {
		b.Ingredients = append(b.Ingredients, household.Ingredient{Batch: drawBatch(t, depth-1), Grams: float64(rapid.IntRange(50, 3000).Draw(t, "grams"))})
	}
	b.KeepsLiquid = rapid.Bool().Draw(t, "liquid kept")
	if rapid.Bool().Draw(t, "yield declared") {
		b.YieldG = b.RawGrams() * float64(rapid.IntRange(500, 1800).Draw(t, "yield")) / 1000
	}
	return b
}

// TestEveryBaseRestores: any base written from its snapshot has the same identity.
func TestEveryBaseRestores(t *testing.T) {
	dir := folder(t, nil)
	h := mustLoad(t, dir)
	rapid.Check(t, func(rt *rapid.T) {
		b := drawBatch(rt, 2)
		bases := filepath.Join(dir, reading.BasesFolder)
		name, written, err := Open(dir).RestoreBase(h, b.Snapshot())
		if err != nil {
			rt.Fatal(err)
		}
		defer func() {
			for _, f := range written {
				os.Remove(filepath.Join(dir, f))
			}
		}()
		again, list, err := reading.Load(dir, testDay)
		if err != nil || again == nil {
			text, _ := os.ReadFile(filepath.Join(bases, name+".toml"))
			rt.Fatalf("%v\n%s\n%s", err, list.Text(0, false, diag.Plain), text)
		}
		if got := again.Batches[name].Identity(); got != b.Identity() {
			rt.Fatalf("%+v, was %+v", got, b.Identity())
		}
	})
}

func TestDiffPlansAndCheckCode(t *testing.T) {
	h := mustLoad(t, folder(t, nil))
	a, b := testPlan(h, "Marlow", 400), testPlan(h, "Marlow", 410)
	if d := DiffPlans(a, a); len(d) != 0 {
		t.Errorf("a plan differs from itself: %q", d)
	}
	a.Pet.Addons = []household.AddonAmount{{Food: "eggshell-powder", G: 3.1}}
	if d := DiffPlans(a, b); len(d) != 3 || d[1] != "base a day: 400 g, now 410 g" || d[2] != "add-on eggshell-powder: 3.1 g, now none" {
		t.Errorf("%q", d)
	}
	code := h.Base.Identity().Code
	if c, err := h.CheckCode(strings.ToLower(code)); err != nil || !c.Match || c.File != "pot" {
		t.Errorf("%+v %v", c, err)
	}
	if c, err := h.CheckCode("123-456-8"); err != nil || c.Match || c.File != "" {
		t.Errorf("%+v %v", c, err)
	}
	if _, err := h.CheckCode(code[:8] + "*"); err == nil {
		t.Error("a code that cannot be was read")
	}
}

// TestCooking: a real yield beyond the tolerance moves the portions, on the step
// of the scale, and only for the base that was cooked.
func TestCooking(t *testing.T) {
	dir := folder(t, map[string]string{"bases/pot.toml": "yield = \"300 g\"\n" + goodBase})
	h := mustLoad(t, dir)
	r := Open(dir)
	pair, err := household.Pair(household.Unexamined(t, testPlan(h, "Marlow", 400)), h.Base)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ raw, cooked, portion float64 }{{0, 300, 400}, {0, 305, 400}, {0, 330, 440}, {800, 540, 360}, {0, 310, 413}} {
		cooking, _, err := r.RecordCooking(h.Base, testDay, c.raw, c.cooked, "")
		if err != nil {
			t.Fatal(err)
		}
		if g, err := cooking.PortionG(pair); err != nil || g != c.portion {
			t.Errorf("%+v: %g g, %v", c, g, err)
		}
		pot, err := cooking.ForPot(pair)
		if err != nil || pot.Plan().Pet.BaseG != c.portion || pair.Plan().Pet.BaseG != 400 {
			t.Errorf("%+v: for the pot %g g, the plan itself %g g, %v", c, pot.Plan().Pet.BaseG, pair.Plan().Pet.BaseG, err)
		}
		if said := len(pot.Plan().Pet.Notes) > len(pair.Plan().Pet.Notes); said != (c.portion != 400) {
			t.Errorf("%+v: notes %v", c, pot.Plan().Pet.Notes)
		}
		latest, found, err := r.LatestCooking(h.Base)
		if err != nil || len(found) > 0 || latest.CookedG != c.cooked || latest.Base.Code != h.Base.Identity().Code {
			t.Errorf("latest %+v %v %v", latest, found, err)
		}
	}
	other := mustLoad(t, folder(t, nil)).Base
	if latest, _, err := r.LatestCooking(other); latest != nil || err != nil {
		t.Errorf("a cooking of another base: %+v %v", latest, err)
	}
	foreign, _, err := r.RecordCooking(other, testDay, 0, 300, "")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := foreign.ForPot(pair); err == nil {
		t.Error("a card for the pot of another base")
	}
	if _, err := foreign.PortionG(pair); err == nil {
		t.Error("a portion of another base")
	}
	if _, _, err := r.RecordCooking(h.Base, testDay, 0, 30000, ""); err == nil {
		t.Error("30 kg from 400 g were recorded")
	}
}
