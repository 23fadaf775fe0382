package nutrients

import (
	"slices"
	"strings"
	"testing"
)

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
		// Another sort of onion is onion; plurals and compounds are the same food.
		{own("x", "Sweet onion", "raw"), Dog, "", true},
		{own("x", "Onionpowder", "dried"), Dog, "", true},
		{own("x", "Scallions", "raw"), Cat, "", true},
		{own("x", "Macadamias, chopped", "dry"), Dog, "", true},
		{own("x", "Avocados", "raw"), Dog, "", true},
		{own("x", "Broth, may contain onion", "cooked"), Cat, "", false},
		{own("x", "Onion broth, may contain onion", "cooked"), Cat, "", true},
		{own("x", "Stock without garlic", "cooked"), Cat, "", false},
		{own("x", "Broth, onion-free", "cooked"), Cat, "", false},
		{own("x", "Cooked chicken bones", "cooked"), Dog, "", true},
		{own("x", "Chicken bones", "raw"), Dog, "", false},
		{own("x", "Chicken bones", "raw"), Dog, "simmered", true},
		{own("x", "Bone broth", "cooked"), Dog, "", false},
		{own("x", "Sardines with bone", "canned"), Dog, "", false},
		{own("x", "Sprouted potatoes", "raw"), Dog, "boiled", true},
		{own("x", "Potato, raw", "raw"), Dog, "boiled", false},
		// Words that only look alike.
		{own("x", "Grapeseed oil", "oil"), Dog, "", false},
		{own("x", "Grapefruit", "raw"), Dog, "", false},
		{own("x", "Coconut", "dried"), Dog, "", false},
		{own("x", "Walnuts", "dried"), Dog, "", false},
		{own("x", "Steak", "raw"), Dog, "grilled", false},
		{own("x", "Winter squash", "raw"), Dog, "", false},
		{own("x", "Turmeric", "dried"), Dog, "", false},
	} {
		if got := blocked(c.food, c.sp, c.method); got != c.want {
			t.Errorf("%s for a %s, %q: blocked=%v, want %v", c.food.Name, c.sp, c.method, got, c.want)
		}
	}
}

func TestWhatMayHoldAHazardIsWarned(t *testing.T) {
	stock, ok := Default().Food("stock-chicken-home")
	if !ok {
		t.Fatal("no stock in the catalogue")
	}
	for _, h := range Hazards(stock, Cat) {
		if h.Food == "onion, shallot, scallion" && !h.Blocked && strings.HasPrefix(h.Text, "Make sure") {
			return
		}
	}
	t.Errorf("nothing is said about the onion in %s: %v", stock.Name, Hazards(stock, Cat))
}

// TestWhatTheCatalogueBlocks: few foods of the catalogue are refused as they are,
// raw fish and shellfish with thiaminase, raw salmon and trout for dogs, raw egg
// white and raw potato. All of them are allowed cooked.
func TestWhatTheCatalogueBlocks(t *testing.T) {
	want := map[string]string{
		"anchovy-raw": "both", "clam-raw": "both", "egg-white-raw": "both", "herring-atlantic-raw": "both",
		"mussel-blue-raw": "both", "potato-raw": "both", "sardine-raw": "both", "smelt-rainbow-raw": "both",
		"sprat-raw": "both", "salmon-atlantic-farmed-raw": "dog", "salmon-pink-raw": "dog",
		"salmon-sockeye-raw": "dog", "trout-rainbow-farmed-raw": "dog",
	}
	blocks := func(f *Food, sp Species, method string) bool {
		h, ok := Blocked(f, sp, method)
		if ok != slices.ContainsFunc(HazardsCooked(f, sp, method), func(h Hazard) bool { return h.Blocked }) || ok != (h.Text != "") {
			t.Errorf("%s, %s, %q: blocked is %v, for %q", f.ID, sp, method, ok, h.Text)
		}
		return ok
	}
	for _, f := range Default().All() {
		got := ""
		switch dog, cat := blocks(f, Dog, ""), blocks(f, Cat, ""); {
		case dog && cat:
			got = "both"
		case dog:
			got = "dog"
		case cat:
			got = "cat"
		}
		if got != want[f.ID] {
			t.Errorf("%s is blocked for %q, want %q", f.ID, got, want[f.ID])
		}
		if got != "" && (blocks(f, Dog, "baked") || blocks(f, Cat, "baked")) {
			t.Errorf("%s is blocked although it is cooked", f.ID)
		}
	}
}
