package records

import (
	"os"
	"path/filepath"
	"testing"

	"bowlwright/household"
)

// FuzzRecordName: what is taken for the name of a record is written the same again,
// with the sign between its parts that any slug may hold as well.
func FuzzRecordName(f *testing.F) {
	for _, name := range []string{"2026-11-25T093015-0007-plan-marlow-3f9a1c0b2d4e.json", "2026-11-25-0007-cooked-a-b-c-3f9a1c0b2d4e.json",
		"2026-02-30-0001-plan-x-000000000000.json", "2026-11-25-999999999-mixed---000000000000.json", "2026-11-25-0001-plan-marlow (conflicted copy).json"} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		n, ok := parseRecordName(name)
		if !ok {
			return
		}
		if n.seq < 0 || n.date.IsZero() {
			t.Fatalf("%q is %+v", name, n)
		}
		again, ok := parseRecordName(n.String())
		if !ok || again != n {
			t.Fatalf("%q was written as %s and read as %+v", name, n, again)
		}
	})
}

// FuzzCookingRecord: any text under the name that its bytes ask for gives a cooking or a
// finding that says something, and a cooking that was accepted can be used.
func FuzzCookingRecord(f *testing.F) {
	dir := f.TempDir()
	h := mustLoad(f, folder(f, nil))
	c, err := household.NewCooking(h.Base, testDay, 0, 300, "a note")
	if err != nil {
		f.Fatal(err)
	}
	text, err := encode(c, stamp{})
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add([]byte(`{"format": "` + household.CookingFormat + `", "raw_g": 1, "cooked_g": 1, "base": {"ingredients": [{"of": {"ingredients": []}}]}}`))
	f.Add([]byte(`{"format": "` + household.CookingFormat + `", "raw_g": -1e308, "cooked_g": 1e-300}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		r := Open(dir)
		n := recordName{date: testDay, seq: 1, kind: KindCooked, slug: "pot", digest: shortDigest(text)}
		n.path = filepath.Join(dir, n.String())
		if err := os.WriteFile(n.path, text, 0o644); err != nil {
			t.Fatal(err)
		}
		defer os.Remove(n.path)
		c, fault := r.cooking(n)
		if fault != nil {
			if fault.Message == "" || fault.Hint.IsZero() {
				t.Fatalf("%q is refused as %+v", text, fault)
			}
			return
		}
		if x := c.Factor(); !(x > 0) {
			t.Fatalf("%q makes portions %g times as large", text, x)
		}
		if _, err := encode(c, stamp{}); err != nil {
			t.Fatalf("%q cannot be written: %v", text, err)
		}
	})
}
