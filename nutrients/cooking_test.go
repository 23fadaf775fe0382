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

func TestHazards(t *testing.T) {
	own := func(id, name, state string) *Food { return &Food{ID: id, Name: name, Group: "other", State: state} }
	blocked := func(f *Food, sp Species, method string) bool {
		for _, h := range HazardsCooked(f, sp, method) {
			if h.Text == "" || h.Source.Text == "" {
				t.Errorf("%s: a hazard without words or source", f.ID)
			}
			if h.Blocked {
				return true
			}
		}
		return false
	}
	for _, c := range []struct {
		food   *Food
		sp     Species
		method string
		want   bool
	}{
		{own("onion-raw", "Onion, raw", "raw"), Dog, "boiled", true},
		{own("gravy-mix", "Gravy with onion powder", "dried"), Cat, "", true},
		{own("stock-plain", "Stock, no onion", "cooked"), Cat, "", false},
		{own("trail-mix", "Oats, raisins and seeds", "dry"), Dog, "", true},
		{own("garlic-powder", "Garlic powder", "dried"), Cat, "", true},
		{own("cocoa", "Cocoa powder", "dried"), Dog, "", true},
		{own("peanut-butter", "Peanut butter, xylitol free", "dry"), Dog, "", false},
		{own("nut-paste", "Nut paste with xylitol", "dry"), Dog, "", true},
		{own("herring", "Herring, raw", "raw"), Cat, "", true},
		{own("herring", "Herring, raw", "raw"), Cat, "poached", false},
		{own("sweet-potato-raw", "Sweet potato, raw", "raw"), Dog, "", false},
		{own("cauliflower", "Cauliflower", "raw"), Dog, "", false},
	} {
		if got := blocked(c.food, c.sp, c.method); got != c.want {
			t.Errorf("%s for a %s, %q: blocked=%v, want %v", c.food.Name, c.sp, c.method, got, c.want)
		}
	}
}
