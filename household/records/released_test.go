package records

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestReleasedFormats reads records as they were written by each released version: what
// is written in fixtures/record-format.md is promised for ten years.
func TestReleasedFormats(t *testing.T) {
	folders, err := filepath.Glob(filepath.Join("testdata", "released", "*"))
	if err != nil || len(folders) < 2 {
		t.Fatalf("%v, %v", folders, err)
	}
	for _, from := range folders {
		dir := t.TempDir()
		if err := os.CopyFS(filepath.Join(dir, recordsFolder), os.DirFS(from)); err != nil {
			t.Fatal(err)
		}
		s, err := Open(dir).Survey()
		if err != nil || s.Damaged != 0 || len(s.Findings) != 0 || s.Read["plan"] != 1 || s.Read["cooked"] != 1 {
			t.Errorf("%s: %+v, %v", from, s, err)
		}
		inUse, found, err := Open(dir).InUse()
		if pip := inUse["Pip"]; err != nil || len(found) > 0 || pip.Plan == nil || pip.Plan.Pet.BaseG <= 0 || pip.Plan.Base.Code != "M2P-N20-5" {
			t.Errorf("%s: %v, %v, %v", from, inUse, found, err)
		}
		// An edited one is noticed.
		plans, err := filepath.Glob(filepath.Join(dir, recordsFolder, "*-plan-pip-*.json"))
		if err != nil || len(plans) != 1 {
			t.Fatalf("%v, %v", plans, err)
		}
		text, err := os.ReadFile(plans[0])
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(plans[0], []byte(strings.Replace(string(text), `"base_g": `, `"base_g": 1`, 1)), 0o644); err != nil {
			t.Fatal(err)
		}
		if s, err := Open(dir).Survey(); err != nil || s.Damaged != 1 {
			t.Errorf("%s: edited: %+v, %v", from, s, err)
		}
	}
}
