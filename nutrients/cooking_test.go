package nutrients

import (
	"errors"
	"strconv"
	"strings"
	"testing"
)

func TestCookingTakesOffAndNeverAdds(t *testing.T) {
	for _, f := range Default().All() {
		for _, m := range Methods() {
			c, err := Cook(f, m)
			if err != nil {
				t.Fatal(err)
			}
			for id := ID(0); id < firstDerived; id++ {
				if id != Water && c.Kept[id].Hi > f.Per100g[id].Hi*(1+1e-12) {
					t.Errorf("%s %s: %s grew", f.ID, m, id)
				}
			}
			if c.YieldShare <= 0 || c.YieldShare > 6 || len(c.Notes) == 0 {
				t.Errorf("%s %s: yield %g, notes %v", f.ID, m, c.YieldShare, c.Notes)
			}
		}
	}
	var unknown *MethodError
	if _, err := Cook(Default().All()[0], "sous-vided"); !errors.As(err, &unknown) {
		t.Errorf("an unknown method: %v", err)
	}
}

// TestRetentionAgainstReference: each factor in use is the one the reference
// table gives for that group and method, clamped to one.
func TestRetentionAgainstReference(t *testing.T) {
	f, _ := Default().Food("chicken-liver-raw")
	c, err := Cook(f, "simmered")
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, row := range reference(t, "cooking.csv") {
		if row["kind"] != "retention_computed" || row["food"] != "organ" || row["method"] != "stewed/simmered/boiled" {
			continue
		}
		id, _, ok := referenceID(row["nutrient"])
		if !ok || !f.Per100g[id].IsKnown() {
			continue
		}
		share, err := strconv.ParseFloat(row["value"], 64)
		if err != nil {
			t.Fatal(err)
		}
		compared++
		near(t, "liver "+id.String(), c.Kept[id].Lo, f.Per100g[id].Lo*min(1, share/100))
	}
	if compared < 15 {
		t.Errorf("only %d factors compared", compared)
	}
	// SR28 pairs, protein conserved: 69 % of the raw weight is left.
	near(t, "yield of simmered chicken liver", c.YieldShare, 0.69)
}

// TestTaurineIsLostInWater: taurine goes into the water (recalled cooking series);
// what stays must be counted, not what was there.
func TestTaurineIsLostInWater(t *testing.T) {
	f, _ := Default().Food("beef-heart-raw")
	c, _ := Cook(f, "simmered")
	if c.Kept[Taurine].Hi > 0.5*f.Per100g[Taurine].Hi {
		t.Errorf("taurine kept: %v of %v", c.Kept[Taurine], f.Per100g[Taurine])
	}
	if !strings.Contains(strings.Join(c.Notes, " "), "recalled") {
		t.Error("the recalled factor is not marked")
	}
}
