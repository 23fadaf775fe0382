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
		// Tea tree oil is a poison of its own, not caffeine (Khan 2014).
		{own("x", "Tea tree oil", "oil"), Cat, "", true},
		{own("x", "Stock cube, beef", "dried"), Dog, "", true},
		{own("x", "Gravy granules", "dried"), Cat, "", true},
		{own("x", "Red kidney beans, raw", "raw"), Dog, "", true},
		{own("x", "Red kidney beans, dried, uncooked", "dry"), Dog, "", true},
		{own("x", "Red kidney beans, raw", "raw"), Dog, "boiled", false},
		{own("x", "Beef mince with sodium metabisulphite", "raw"), Cat, "simmered", true},
		{own("x", "Multivitamin for adults, tablet", "unit"), Dog, "", true},
		{own("x", "Multivitamin for dogs", "unit"), Dog, "", false},
		{own("x", "Bacon", "cured"), Dog, "", false},
		{own("x", "Cherry stones", "raw"), Dog, "", true},
		{own("x", "Peaches with stones", "raw"), Dog, "", true},
		{own("x", "Green tomato", "raw"), Dog, "", true},
		{own("x", "Tomato, ripe", "raw"), Dog, "", false},
		{own("x", "Squid, raw", "raw"), Cat, "", true},
		{own("x", "Squid, raw", "raw"), Cat, "boiled", false},
		{own("x", "Prawns", "raw"), Cat, "", true},
		{own("x", "Sardines", "raw"), Cat, "", true},
		{own("x", "Wild boar shoulder", "raw"), Dog, "", true},
		{own("x", "Wild boar shoulder", "raw"), Dog, "braised", false},
		{own("x", "Pork mince", "raw"), Dog, "", true},
		{own("x", "Bitter almonds", "dried"), Dog, "", true},
		{own("x", "Salt dough", "other"), Dog, "", true},
		{own("x", "Garden bone meal", "powder"), Dog, "", true},
		{own("x", "Bone meal, feed grade", "powder"), Dog, "", false},
		{own("x", "Bread dough, raw", "raw"), Dog, "", true},
		{own("x", "Spent hops", "wet"), Dog, "", true},
		{own("x", "Blue cheese", "cheese"), Dog, "", true},
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
// raw fish and shellfish with thiaminase, raw salmon and trout for dogs, raw pork, raw
// egg white and raw potato. All of them are allowed cooked.
func TestWhatTheCatalogueBlocks(t *testing.T) {
	want := map[string]string{
		"anchovy-raw": "both", "clam-raw": "both", "egg-white-raw": "both", "herring-atlantic-raw": "both",
		"mussel-blue-raw": "both", "potato-raw": "both", "sardine-raw": "both", "smelt-rainbow-raw": "both",
		"sprat-raw": "both", "salmon-atlantic-farmed-raw": "dog", "salmon-pink-raw": "dog",
		"salmon-sockeye-raw": "dog", "trout-rainbow-farmed-raw": "dog",
		"shrimp-never-frozen-raw": "both", "shrimp-raw": "both", "tuna-yellowfin-raw": "both",
		"pork-ground-84-lean-raw": "both", "pork-ground-96-lean-raw": "both", "pork-ground-raw": "both", "pork-heart-raw": "both",
		"pork-kidney-raw": "both", "pork-leg-lean-raw": "both", "pork-liver-raw": "both", "pork-shoulder-lean-raw": "both",
		"pork-spleen-raw": "both", "pork-tenderloin-lean-raw": "both",
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

// TestWhatIsWarned: published cautions that refuse nothing. Sources stand in the
// data: Freeman 2018 on pulses, Kapetanovic 2009 on green tea, Lenox and Bauer 2013
// on fish oil.
func TestWhatIsWarned(t *testing.T) {
	for _, c := range []struct {
		name string
		sp   Species
		word string
	}{
		{"Lentils, cooked", Dog, "heart"}, {"Lentils, cooked", Cat, ""}, {"Green beans, boiled", Dog, ""},
		{"Grain-free kibble", Dog, "heart"}, {"Salmon oil", Dog, "EPA"}, {"Salmon oil", Cat, "EPA"},
		{"EGCG powder", Dog, "liver"}, {"Bacon", Dog, "pancreas"}, {"Olive oil", Dog, ""},
	} {
		f := &Food{ID: "x", Name: c.name, State: "cooked"}
		said := ""
		for _, h := range Hazards(f, c.sp) {
			if h.Blocked || h.Source.Text == "" {
				t.Errorf("%s: blocked %v, source %q", c.name, h.Blocked, h.Source.Text)
			}
			said += h.Text
		}
		if c.word == "" && said != "" || !strings.Contains(said, c.word) {
			t.Errorf("%s for a %s: %q, want %q", c.name, c.sp, said, c.word)
		}
	}
}
