package nutrients

import "testing"

// TestKitchenCaps: which foods have a cap of the kitchen and which one. The amounts are
// common practice; dried herbs 0.5 g and salt 0.2 g per kg^0.75 and day.
func TestKitchenCaps(t *testing.T) {
	for id, want := range map[string]float64{
		"parsley-dried": 0.5, "parsley-raw": 0, "yeast-bakers-active-dry": 0.5, "nutritional-yeast": 0.5, "selenium-yeast": 0.05,
		"kelp-powder-ascophyllum": 0.1, "wakame-dried": 0.1, "oil-cod-liver": 0.2, "cod-liver-oil": 0.2, "cod-liver-canned": 4,
		"chicken-liver-simmered": 4, "beef-liver-braised": 4, "salt-iodized-us": 0.2, "salt-iodized-eu": 0.2, "salt-table": 0.2,
		"sodium-chloride": 0.2, "potassium-chloride": 0, "mussel-blue-cooked": 3, "oil-wheat-germ": 1, "wheat-germ": 1,
		"oil-olive": 1, "lard": 1, "salmon-oil": 1, "fish-oil-18-12": 1, "lecithin-soy": 1, "algal-oil-dha": 1, "spirulina-dried": 0.1,
		"turmeric-ground": 0.05, "psyllium-husk": 0.3, "hemp-seed-hulled": 1, "eggshell-powder": 0, "taurine-powder": 0,
		"beef-heart-simmered": 0, "sardine-canned-in-oil-with-bone": 0, "tuna-light-canned-water-no-salt": 0,
		"salmon-pink-canned-no-salt-with-bone": 0, "peanut-butter-smooth-no-salt": 0, "butter-unsalted": 1, "vitamin-e-capsule-400-iu": 0,
	} {
		f, ok := Default().Food(id)
		if !ok {
			t.Errorf("no %s", id)
			continue
		}
		c, has := KitchenCapOf(f)
		if c.GramsPerKg75 != want || has != (want > 0) {
			t.Errorf("%s: %g g per kg^0.75 (%s), want %g", id, c.GramsPerKg75, c.What, want)
		}
		if has && (c.Source.Text == "" || c.Instead == "" || c.What == "") {
			t.Errorf("%s: %+v", id, c)
		}
	}
}
