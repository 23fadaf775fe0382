package records

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"bowlwright/household"
)

// cookTwice records two pots of the base: the older one came out as expected, the
// newer one heavier. It returns the files of both.
func cookTwice(t *testing.T, dir string) (older, newer string) {
	t.Helper()
	h := mustLoad(t, dir)
	r := Open(dir)
	expected := h.Base.Snapshot().CookedG
	_, first, err := r.RecordCooking(h.Base, testDay, 0, expected, "")
	if err != nil {
		t.Fatal(err)
	}
	_, second, err := r.RecordCooking(h.Base, testDay, 0, expected*1.2, "")
	if err != nil {
		t.Fatal(err)
	}
	return first.Path, second.Path
}

func codesOf(findings []household.Finding) string {
	var codes []string
	for _, f := range findings {
		codes = append(codes, f.Code)
	}
	slices.Sort(codes)
	return strings.Join(codes, " ")
}

func damage(t *testing.T, path string) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, text[:len(text)-3], 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestNewestCookingStops: where the newest pot cannot be read or is gone, an older one
// does not count in its place.
func TestNewestCookingStops(t *testing.T) {
	for name, spoil := range map[string]func(t *testing.T, path string){
		"damaged": damage,
		"missing": func(t *testing.T, path string) { os.Remove(path) },
	} {
		dir := folder(t, nil)
		older, newer := cookTwice(t, dir)
		h := mustLoad(t, dir)
		spoil(t, newer)
		c, _, err := Open(dir).LatestCooking(h.Base)
		var cannot *RecordError
		if c != nil || !errors.As(err, &cannot) || !strings.HasPrefix(strings.Join(cannot.Hint().Command, " "), "cook --cooked") {
			t.Errorf("%s: %v, %v", name, c, err)
		}
		if found, err := Open(dir).Audit(testDay); err != nil || len(found) != 1 || found[0].Severity != household.Problem {
			t.Errorf("%s: check finds %v, %v", name, found, err)
		}
		// Recorded again, the pot counts again.
		if _, _, err := Open(dir).RecordCooking(h.Base, testDay, 0, h.Base.Snapshot().CookedG*1.1, ""); err != nil {
			t.Fatal(err)
		}
		if c, _, err := Open(dir).LatestCooking(h.Base); err != nil || c == nil || c.Factor() < 1.05 {
			t.Errorf("%s: after another pot %v, %v", name, c, err)
		}
		// An older one is found by check, and stops nothing.
		damage(t, older)
		if c, _, err := Open(dir).LatestCooking(h.Base); err != nil || c == nil {
			t.Errorf("%s: with an older one damaged %v, %v", name, c, err)
		}
		if found, _ := Open(dir).Audit(testDay); !strings.Contains(codesOf(found), "record-edited") {
			t.Errorf("%s: check finds %s", name, codesOf(found))
		}
	}
}

// A damaged pot of another base does not stop this one.
func TestCookingOfAnotherBase(t *testing.T) {
	dir := folder(t, map[string]string{"bases/other.toml": "yield = \"500 g\"\n" + goodBase})
	h := mustLoad(t, dir)
	if _, _, err := Open(dir).RecordCooking(h.Base, testDay, 0, h.Base.Snapshot().CookedG, ""); err != nil {
		t.Fatal(err)
	}
	_, other, err := Open(dir).RecordCooking(h.Batches["other"], testDay, 0, h.Batches["other"].Snapshot().CookedG, "")
	if err != nil {
		t.Fatal(err)
	}
	damage(t, other.Path)
	if c, found, err := Open(dir).LatestCooking(h.Base); err != nil || c == nil || codesOf(found) != "record-edited" {
		t.Errorf("%v, %v, %v", c, found, err)
	}
	if _, _, err := Open(dir).LatestCooking(h.Batches["other"]); err == nil {
		t.Error("the damaged one counts")
	}
}

// TestNewestPlanMissing: a plan that is lost is missed, and no older one prints.
func TestNewestPlanMissing(t *testing.T) {
	dir := folder(t, map[string]string{"household.toml": twoPets})
	h := mustLoad(t, dir)
	var last PlanRecord
	for _, g := range []float64{400, 410} {
		saved, err := Open(dir).SavePlans([]*household.Plan{testPlan(h, "Marlow", g)})
		if err != nil {
			t.Fatal(err)
		}
		last = saved[0]
	}
	if err := os.Remove(last.Path); err != nil {
		t.Fatal(err)
	}
	inUse, found, err := Open(dir).InUse()
	if err != nil || len(inUse) != 0 || codesOf(found) != "record-missing" || found[0].Pet != "Marlow" {
		t.Errorf("%v, %v, %v", inUse, found, err)
	}
	// Another record of somebody else does not forget it; a new plan does.
	if _, err := Open(dir).SavePlans([]*household.Plan{testPlan(h, "Žofka the 2nd", 90)}); err != nil {
		t.Fatal(err)
	}
	if inUse, found, _ := Open(dir).InUse(); len(inUse) != 1 || codesOf(found) != "record-missing" {
		t.Errorf("%v, %v", inUse, found)
	}
	if _, err := Open(dir).SavePlans([]*household.Plan{testPlan(h, "Marlow", 420)}); err != nil {
		t.Fatal(err)
	}
	if inUse, found, _ := Open(dir).InUse(); len(inUse) != 2 || len(found) != 0 {
		t.Errorf("%v, %v", inUse, found)
	}
}

// TestRenamedAndForeignRecords: the digest holds the content alone; the stamp holds the
// name and the household.
func TestRenamedAndForeignRecords(t *testing.T) {
	dir, elsewhere := folder(t, nil), folder(t, nil)
	h := mustLoad(t, dir)
	var paths []string
	for _, d := range []string{dir, elsewhere, elsewhere} {
		saved, err := Open(d).SavePlans([]*household.Plan{testPlan(h, "Marlow", 400)})
		if err != nil {
			t.Fatal(err)
		}
		paths = append(paths, saved[0].Path)
	}
	text, err := os.ReadFile(paths[2])
	if err != nil {
		t.Fatal(err)
	}
	foreign := filepath.Join(dir, "records", filepath.Base(paths[2]))
	if err := os.WriteFile(foreign, text, 0o644); err != nil {
		t.Fatal(err)
	}
	if inUse, found, err := Open(dir).InUse(); err != nil || len(inUse) != 0 || codesOf(found) != "record-foreign" {
		t.Errorf("foreign: %v, %v, %v", inUse, found, err)
	}
	// Without the file of the id the records disagree, and none counts.
	id := filepath.Join(dir, "records", identityFile)
	if err := os.Rename(id, id+".away"); err != nil {
		t.Fatal(err)
	}
	if inUse, found, err := Open(dir).InUse(); err != nil || len(inUse) != 0 || !strings.Contains(codesOf(found), "record-foreign") {
		t.Errorf("without the id: %v, %v, %v", inUse, found, err)
	}
	if err := os.Remove(foreign); err != nil {
		t.Fatal(err)
	}
	if inUse, _, err := Open(dir).InUse(); err != nil || len(inUse) != 1 {
		t.Errorf("without the id, all of one household: %v, %v", inUse, err)
	}
	if err := os.Rename(id+".away", id); err != nil {
		t.Fatal(err)
	}
	later := filepath.Join(dir, "records", strings.Replace(filepath.Base(paths[0]), "-0001-", "-0009-", 1))
	if err := os.Rename(paths[0], later); err != nil {
		t.Fatal(err)
	}
	if inUse, found, err := Open(dir).InUse(); err != nil || len(inUse) != 0 || !strings.Contains(codesOf(found), "record-edited") {
		t.Errorf("renamed: %v, %v, %v", inUse, found, err)
	}
}

// The id is drawn once; a household has one, another has another.
func TestIdentityIsDrawnOnce(t *testing.T) {
	ids := map[string]bool{}
	for range 2 {
		dir := folder(t, nil)
		h := mustLoad(t, dir)
		for range 2 {
			saved, err := Open(dir).SavePlans([]*household.Plan{testPlan(h, "Marlow", 400)})
			if err != nil {
				t.Fatal(err)
			}
			text, err := os.ReadFile(saved[0].Path)
			if err != nil {
				t.Fatal(err)
			}
			s, ok := stampOf(text)
			if !ok || !identityForm.MatchString(s.Household) {
				t.Fatalf("%+v", s)
			}
			ids[s.Household] = true
		}
	}
	if len(ids) != 2 {
		t.Errorf("%d ids of two households", len(ids))
	}
}

// TestLastNumber: no record gets a number that its reader would not know.
func TestLastNumber(t *testing.T) {
	dir := folder(t, nil)
	h := mustLoad(t, dir)
	text := mustEncode(t, testPlan(h, "Marlow", 400))
	name := recordName{date: testDay, seq: maxNumber, kind: KindPlan, slug: "marlow", digest: shortDigest(text)}.String()
	if err := os.MkdirAll(filepath.Join(dir, "records"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "records", name), text, 0o644); err != nil {
		t.Fatal(err)
	}
	_, err := Open(dir).SavePlans([]*household.Plan{testPlan(h, "Marlow", 500)})
	if err == nil || !strings.Contains(err.Error(), "no number is left") {
		t.Errorf("%v", err)
	}
	if inUse, _, err := Open(dir).InUse(); err != nil || inUse["Marlow"].Plan.Pet.BaseG != 400 {
		t.Errorf("%v, %v", inUse, err)
	}
}

// apart lets two machines go on from one household, and brings their records together.
func apart(t *testing.T, here, there func(dir string)) (dir string) {
	t.Helper()
	dir = folder(t, map[string]string{"household.toml": twoPets})
	h := mustLoad(t, dir)
	if _, err := Open(dir).SavePlans([]*household.Plan{testPlan(h, "Marlow", 400)}); err != nil {
		t.Fatal(err)
	}
	other := t.TempDir()
	if err := os.CopyFS(other, os.DirFS(dir)); err != nil {
		t.Fatal(err)
	}
	here(dir)
	there(other)
	entries, err := os.ReadDir(filepath.Join(other, "records"))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		to := filepath.Join(dir, "records", e.Name())
		if _, err := os.Lstat(to); err == nil {
			continue
		}
		text, err := os.ReadFile(filepath.Join(other, "records", e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(to, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// TestPlansMadeApart: three plans here do not win over one there by their numbers; the
// two that stand are shown, and a choice ends it.
func TestPlansMadeApart(t *testing.T) {
	save := func(pet string, grams ...float64) func(dir string) {
		return func(dir string) {
			for _, g := range grams {
				since := time.Date(2026, 11, 25, 9, 30, int(g/10), 0, time.UTC)
				if _, err := Open(dir).For("x", since).SavePlans([]*household.Plan{testPlan(mustLoad(t, dir), pet, g)}); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	dir := apart(t, save("Marlow", 410, 420, 430), save("Marlow", 500))
	inUse, found, err := Open(dir).InUse()
	if err != nil || len(inUse) != 0 || codesOf(found) != "record-twin" || len(found[0].Ways) != 2 {
		t.Fatalf("%v, %v, %v", inUse, found, err)
	}
	if m := found[0].Message; !strings.Contains(m, "430 g") || !strings.Contains(m, "500 g") || strings.Contains(m, "410 g") {
		t.Errorf("%s", m)
	}
	// What the finding offers to type names one record.
	for i, want := range []float64{500, 430} {
		p, err := Open(dir).Plan(found[0].Ways[i].Command[1])
		if err != nil || p.Plan.Pet.BaseG != want {
			t.Errorf("%v: %v, %v", found[0].Ways[i], p.Plan, err)
		}
	}
	save("Marlow", 440)(dir)
	if inUse, found, err := Open(dir).InUse(); err != nil || len(found) != 0 || inUse["Marlow"].Plan.Pet.BaseG != 440 {
		t.Errorf("after a choice: %v, %v, %v", inUse, found, err)
	}
	// Work on different animals is no conflict, however the numbers fall.
	dir = apart(t, save("Marlow", 410, 420), save("Žofka the 2nd", 90))
	if inUse, found, err := Open(dir).InUse(); err != nil || len(found) != 0 || inUse["Marlow"].Plan.Pet.BaseG != 420 || len(inUse) != 2 {
		t.Errorf("two animals: %v, %v, %v", inUse, found, err)
	}
	if found, _ := Open(dir).Audit(testDay); codesOf(found) != "record-number-twice" {
		t.Errorf("check finds %s", codesOf(found))
	}
}

// TestPotsCookedApart: of pots cooked in two places the later day counts, not the higher
// number.
func TestPotsCookedApart(t *testing.T) {
	cook := func(share float64, days ...string) func(dir string) {
		return func(dir string) {
			h := mustLoad(t, dir)
			for _, day := range days {
				date, err := household.ParseDate(day)
				if err != nil {
					t.Fatal(err)
				}
				if _, _, err := Open(dir).RecordCooking(h.Base, date, 0, h.Base.Snapshot().CookedG*share, ""); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	dir := apart(t, cook(1.1, "2026-11-20", "2026-11-21"), cook(1.2, "2026-11-24"))
	c, _, err := Open(dir).LatestCooking(mustLoad(t, dir).Base)
	if err != nil || c.Date.String() != "2026-11-24" {
		t.Errorf("%v, %v", c, err)
	}
}

// TestSurvey names each damaged record and what works without it.
func TestSurvey(t *testing.T) {
	dir := folder(t, map[string]string{"household.toml": twoPets})
	h := mustLoad(t, dir)
	var saved []PlanRecord
	for _, g := range []float64{400, 410} {
		s, err := Open(dir).SavePlans([]*household.Plan{testPlan(h, "Marlow", g), testPlan(h, "Žofka the 2nd", g-300)})
		if err != nil {
			t.Fatal(err)
		}
		saved = append(saved, s...)
	}
	_, pot := cookTwice(t, dir)
	if s, err := Open(dir).Survey(); err != nil || s.Damaged != 0 || len(s.Findings) != 0 || s.Read["plan"] != 4 || s.Read["cooked"] != 2 {
		t.Fatalf("%+v, %v", s, err)
	}
	for _, path := range []string{saved[0].Path, saved[3].Path, pot} {
		damage(t, path)
	}
	s, err := Open(dir).Survey()
	if err != nil || s.Damaged != 3 || len(s.Findings) != 3 {
		t.Fatalf("%+v, %v", s, err)
	}
	for i, want := range []string{"what is in use does not need it", "until there is a new plan", "until that pot is recorded again"} {
		if !strings.Contains(s.Findings[i].Message, want) {
			t.Errorf("%s\nwant %s", s.Findings[i].Message, want)
		}
	}
}

// A stamp is no part of what a record holds: what reads it back sees the same plan.
func TestStampStandsSecond(t *testing.T) {
	text, err := encode(&household.Cooking{Format: household.CookingFormat}, stamp{Household: "a", Number: 7})
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]any
	if err := json.Unmarshal(text, &all); err != nil || all["format"] != household.CookingFormat {
		t.Errorf("%v, %v", all, err)
	}
	if s, ok := stampOf(text); !ok || s.Number != 7 {
		t.Errorf("%+v", s)
	}
	if _, ok := stampOf([]byte(`{"format":"x","base":{"stamp":{}}}`)); ok {
		t.Error("a stamp where none is")
	}
}
