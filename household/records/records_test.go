package records

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"bowlwright/household"
	"bowlwright/household/foodfile"
	"bowlwright/household/safefile"

	"github.com/google/go-cmp/cmp"
)

const twoPets = goodHousehold + "[[pet]]\nname = \"Žofka the 2nd\"\nspecies = \"cat\"\nweight = \"4 kg\"\n"

func TestSavedPlansReadBackTheSame(t *testing.T) {
	dir := folder(t, map[string]string{"household.toml": twoPets})
	h := mustLoad(t, dir)
	r := Open(dir)
	if plans, found, err := r.Plans(); len(plans)+len(found) > 0 || err != nil {
		t.Fatalf("before anything was written: %v %v %v", plans, found, err)
	}
	saved, err := r.SavePlans([]*household.Plan{testPlan(h, "Marlow", 400), testPlan(h, "Žofka the 2nd", 90)})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := r.SavePlans([]*household.Plan{testPlan(h, "Marlow", 410)}); err != nil {
		t.Fatal(err)
	}
	plans, found, err := r.Plans()
	if err != nil || len(found) > 0 || len(plans) != 3 {
		t.Fatalf("%d plans, %v, %v", len(plans), found, err)
	}
	if diff := cmp.Diff(saved[0].Plan, plans[0].Plan, cmp.Comparer(func(a, b household.Date) bool { return a == b })); diff != "" {
		t.Error(diff)
	}
	inUse, found, err := r.InUse()
	if err != nil || len(found) > 0 || len(inUse) != 2 {
		t.Fatalf("%v %v %v", inUse, found, err)
	}
	if got := inUse["Marlow"]; got.Plan.Pet.BaseG != 410 || got.Ref != "0003-marlow" || got.Seq != 3 {
		t.Errorf("in use: %s with %g g", got.Ref, got.Plan.Pet.BaseG)
	}
	b, _ := os.ReadFile(plans[0].Path)
	written, _ := stampOf(b)
	a, _ := encode(plans[0].Plan, written)
	if !bytes.Equal(a, b) {
		t.Error("the record is written in another way the second time")
	}
	for _, ref := range []string{"1", "0001-marlow", filepath.Base(plans[0].Path), plans[0].Path} {
		if got, err := r.Plan(ref); err != nil || got.Seq != 1 {
			t.Errorf("Plan(%q): %v, %v", ref, got.Ref, err)
		}
	}
	if _, err := r.Plan("9"); err == nil {
		t.Error("a record that is not there was found")
	}
	for pet, want := range map[string]int{"marlow": 2, "žofka the 2nd": 1, "Žofka": 0, "": 3} {
		if history, _, err := r.History(pet); err != nil || len(history) != want {
			t.Errorf("%d records of %q, %v", len(history), pet, err)
		}
	}
}

// TestEditedRecordIsNotUsed edits, cuts and exchanges a record: the pet then has
// no plan, and an older plan does not take the place of the newest.
func TestEditedRecordIsNotUsed(t *testing.T) {
	for name, spoil := range map[string]func([]byte) []byte{
		"edited": func(b []byte) []byte { return bytes.Replace(b, []byte(`"base_g": 410`), []byte(`"base_g": 910`), 1) },
		"cut":    func(b []byte) []byte { return b[:len(b)/2] },
		"empty":  func([]byte) []byte { return nil },
		"longer": func(b []byte) []byte { return append(b, '\n') },
	} {
		t.Run(name, func(t *testing.T) {
			dir := folder(t, nil)
			h := mustLoad(t, dir)
			r := Open(dir)
			for _, g := range []float64{400, 410} {
				if _, err := r.SavePlans([]*household.Plan{testPlan(h, "Marlow", g)}); err != nil {
					t.Fatal(err)
				}
			}
			rec, err := r.Plan("2")
			if err != nil {
				t.Fatal(err)
			}
			b, _ := os.ReadFile(rec.Path)
			if bytes.Equal(spoil(bytes.Clone(b)), b) {
				t.Fatal("the record was not spoilt")
			}
			if err := os.WriteFile(rec.Path, spoil(b), 0o644); err != nil {
				t.Fatal(err)
			}
			inUse, found, err := r.InUse()
			if err != nil || len(inUse) != 0 || len(found) != 1 || found[0].Code != "record-edited" || found[0].Pet != "Marlow" {
				t.Errorf("in use %v, found %v, %v", inUse, found, err)
			}
			var bad *RecordError
			if _, err := r.Plan("2"); !errors.As(err, &bad) {
				t.Errorf("the record was read: %v", err)
			}
		})
	}
}

func TestNewerRecordAndStrangers(t *testing.T) {
	dir := folder(t, nil)
	h := mustLoad(t, dir)
	r := Open(dir)
	if _, err := r.SavePlans([]*household.Plan{testPlan(h, "Marlow", 400)}); err != nil {
		t.Fatal(err)
	}
	newer := bytes.Replace(mustEncode(t, testPlan(h, "Marlow", 400)), []byte("plan-record/1"), []byte("plan-record/2"), 1)
	name := recordName{date: testDay, seq: 2, kind: KindPlan, slug: "marlow", digest: shortDigest(newer)}.String()
	for n, text := range map[string][]byte{name: newer, "2026-11-25-0001-plan-marlow (conflicted copy).json": newer, ".unfinished-1": []byte("x")} {
		if err := os.WriteFile(filepath.Join(dir, "records", n), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	inUse, found, err := r.InUse()
	codes := map[string]int{}
	for _, f := range found {
		codes[f.Code]++
	}
	if err != nil || len(inUse) != 0 || codes["record-newer"] != 1 || codes["record-stranger"] != 1 || len(found) != 2 {
		t.Errorf("in use %v, found %v, %v", inUse, found, err)
	}
}

// mustEncode writes a record as earlier versions did, without a stamp.
func mustEncode(t *testing.T, v any) []byte {
	t.Helper()
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		t.Fatal(err)
	}
	return indented(b.Bytes())
}

// TestTwinRecords: two machines wrote the same number into a synchronised folder.
func TestTwinRecords(t *testing.T) {
	dir := folder(t, nil)
	h := mustLoad(t, dir)
	r := Open(dir)
	if _, err := r.SavePlans([]*household.Plan{testPlan(h, "Marlow", 400)}); err != nil {
		t.Fatal(err)
	}
	text := mustEncode(t, testPlan(h, "Marlow", 500))
	name := recordName{date: testDay, seq: 1, kind: KindPlan, slug: "marlow", digest: shortDigest(text)}.String()
	if err := os.WriteFile(filepath.Join(dir, "records", name), text, 0o644); err != nil {
		t.Fatal(err)
	}
	inUse, found, err := r.InUse()
	if err != nil || len(inUse) != 0 || len(found) != 1 || found[0].Code != "record-twin" {
		t.Errorf("in use %v, found %v, %v", inUse, found, err)
	}
}

// TestSaveFailsWithoutATrace fails every step of saving one plan and two.
func TestSaveFailsWithoutATrace(t *testing.T) {
	for _, count := range []int{1, 2} {
		for n := 1; ; n++ {
			dir := folder(t, map[string]string{"household.toml": twoPets})
			h := mustLoad(t, dir)
			r := Open(dir)
			plans := []*household.Plan{testPlan(h, "Marlow", 400), testPlan(h, "Žofka the 2nd", 90)}[:count]
			if _, err := r.SavePlans(plans); err != nil {
				t.Fatal(err)
			}
			steps := 0
			restore := safefile.OnStep(func(string) error {
				if steps++; steps == n {
					return syscall.ENOSPC
				}
				return nil
			})
			_, err := r.SavePlans(plans)
			restore()
			got, found, readErr := r.Plans()
			if readErr != nil || len(found) > 0 {
				t.Fatalf("step %d: %v %v", n, found, readErr)
			}
			if len(got) != count && len(got) != 2*count {
				t.Errorf("step %d left %d plans of %d", n, len(got), 2*count)
			}
			if n > steps {
				if err != nil || len(got) != 2*count {
					t.Fatalf("nothing failed, but %v, %d plans", err, len(got))
				}
				break
			}
			if !errors.Is(err, syscall.ENOSPC) {
				t.Errorf("step %d: %v", n, err)
			}
		}
	}
}

func TestSaveWhileLockedOrUnwritable(t *testing.T) {
	dir := folder(t, nil)
	h := mustLoad(t, dir)
	unlock, err := safefile.Lock(filepath.Join(dir, "records", ".lock"), "bowlwright cook", time.Time{}, 0)
	if err != nil {
		t.Fatal(err)
	}
	var locked *safefile.LockedError
	if _, err := Open(dir).SavePlans([]*household.Plan{testPlan(h, "Marlow", 400)}); !errors.As(err, &locked) || locked.Holder.Command != "bowlwright cook" {
		t.Errorf("while locked: %v", err)
	}
	unlock()
	blocked := folder(t, map[string]string{"records": "a file where the folder should be"})
	var cannot *safefile.CannotWriteError
	if _, err := Open(blocked).SavePlans([]*household.Plan{testPlan(h, "Marlow", 400)}); !errors.As(err, &cannot) {
		t.Errorf("with records being a file: %v", err)
	}
}

// TestLargeRecord: a record of a megabyte is read, one over eight is told from its size.
func TestLargeRecord(t *testing.T) {
	for size, used := range map[int]bool{1 << 20: true, 9 << 20: false} {
		dir := folder(t, nil)
		r := Open(dir)
		plan := testPlan(mustLoad(t, dir), "Marlow", 400)
		plan.Pet.Notes = []string{strings.Repeat("x", size)}
		if _, err := r.SavePlans([]*household.Plan{plan}); err != nil {
			t.Fatal(err)
		}
		inUse, found, err := r.InUse()
		if err != nil || (len(inUse) == 1) != used || !used && (len(found) != 1 || !strings.Contains(found[0].Message, "too large")) {
			t.Errorf("%d bytes: in use %d, %v, %v", size, len(inUse), found, err)
		}
	}
}

func TestSlugs(t *testing.T) {
	seen := map[string]string{}
	for _, name := range []string{"Marlow", "Žofka", "Zofka", "Pip", "pip!", "Old Pip", "Old-Pip", "日本", "本日", "Ж", "a b", "ab", strings.Repeat("x", 40), "Pip 1a2b3c"} {
		s := household.Slug(name)
		if !foodfile.IsID(s) {
			t.Errorf("Slug(%q) = %q", name, s)
		}
		if other, taken := seen[s]; taken {
			t.Errorf("%q and %q share the slug %s", name, other, s)
		}
		seen[s] = name
	}
	if household.Slug("MARLOW") != household.Slug("marlow") || household.Slug("Marlow") != "marlow" {
		t.Errorf("Marlow's slug is %s", household.Slug("Marlow"))
	}
}

func FuzzRecordReader(f *testing.F) {
	f.Add([]byte(`{"format":"bowlwright/plan-record/1","pet":{"pet":"x"}}`))
	f.Add([]byte(`{"format":"bowlwright/plan-record/99"}`))
	f.Add([]byte(`[[[[`))
	f.Fuzz(func(t *testing.T, text []byte) {
		dir := t.TempDir()
		r := Open(dir)
		n := recordName{date: testDay, seq: 1, kind: KindPlan, slug: "x", digest: shortDigest(text)}
		n.path = filepath.Join(dir, n.String())
		if err := os.WriteFile(n.path, text, 0o644); err != nil {
			t.Fatal(err)
		}
		p, fault := r.plan(n)
		if fault != nil {
			return
		}
		again, err := encode(p.Plan, stamp{Number: n.seq, Made: n.made(), About: n.about()})
		if err != nil {
			t.Fatalf("read %q but cannot write it: %v", text, err)
		}
		n.digest = shortDigest(again)
		if err := os.WriteFile(n.path, again, 0o644); err != nil {
			t.Fatal(err)
		}
		if _, fault := r.plan(n); fault != nil {
			t.Fatalf("%q does not read back: %s", again, fault.Message)
		}
	})
}

// BenchmarkListTenThousand lists ten thousand records, alone and four to a set.
func BenchmarkListTenThousand(b *testing.B) {
	for _, together := range []int{1, 4} {
		b.Run(fmt.Sprintf("%d at a time", together), func(b *testing.B) {
			dir := b.TempDir()
			for i := range 10_000 {
				folder := filepath.Join(dir, recordsFolder)
				if together > 1 {
					folder = filepath.Join(folder, fmt.Sprintf("%s-%04d%s", testDay, i/together*together+1, setSuffix))
				}
				if err := os.MkdirAll(folder, 0o755); err != nil {
					b.Fatal(err)
				}
				name := recordName{date: testDay, seq: i + 1, kind: KindPlan, slug: "marlow", digest: "0123456789ab"}.String()
				if err := os.WriteFile(filepath.Join(folder, name), nil, 0o644); err != nil {
					b.Fatal(err)
				}
			}
			for b.Loop() {
				if h, _, err := Open(dir).History(""); err != nil || len(h) != 10_000 {
					b.Fatal(len(h), err)
				}
			}
		})
	}
}

// The format is found wherever it stands, and what is no record is told apart.
func TestFormatOf(t *testing.T) {
	for text, want := range map[string]string{
		`{"format": "x/1", "rest": [1, 2]}`: "x/1", `{"rest": {"format": "y/1"}, "format": "x/1"}`: "x/1",
		`{"Format": "x/2"}`: "x/2", `{}`: "", `{"rest": "format"}`: "",
	} {
		if got, err := formatOf([]byte(text)); err != nil || got != want {
			t.Errorf("%s: %q, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "7", `["format", "x/1"]`, `{"format": 7}`, `"format"`, `{"rest": 1`} {
		if got, err := formatOf([]byte(text)); err == nil {
			t.Errorf("%s has the format %q", text, got)
		}
	}
}
