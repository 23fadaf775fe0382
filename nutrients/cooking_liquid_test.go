package nutrients

import (
	"math"
	"strings"
	"testing"
)

// TestFatRunsOut compares what cooking leaves of the fat with the cooked record of
// USDA SR28 itself: record 23575 (beef, 80 % lean, crumbles, pan-browned)
// holds 17.36 g fat in 100 g, and 64 % of the raw weight is left.
func TestFatRunsOut(t *testing.T) {
	raw, _ := Default().Food("beef-ground-80-lean-raw")
	cooked, _ := Default().Food("beef-ground-80-lean-cooked")
	c, err := Cook(raw, "pan-fried")
	if err != nil {
		t.Fatal(err)
	}
	got := c.Kept[Fat].Lo / c.YieldShare
	// 3 %: the share in the table is rounded to a per cent of 20 g.
	if want := cooked.Per100g[Fat].Lo; math.Abs(got-want) > 0.03*want {
		t.Errorf("%.2f g fat in 100 g cooked, the record has %.2f", got, want)
	}
	kept, err := CookKeepingLiquid(raw, "pan-fried")
	if err != nil {
		t.Fatal(err)
	}
	if kept.Kept[Fat] != raw.Per100g[Fat] {
		t.Errorf("fat %v although it is kept", kept.Kept[Fat])
	}
	before, after := Atwater(Dog).Kcal(&raw.Per100g).Lo, Atwater(Dog).Kcal(&c.Kept).Lo
	if math.Abs(before-after-9*(raw.Per100g[Fat].Lo-c.Kept[Fat].Lo)) > 1e-9 {
		t.Errorf("energy went from %.1f to %.1f kcal, which the fat does not explain", before, after)
	}
}

func TestLiquidKept(t *testing.T) {
	for _, f := range Default().All() {
		for _, m := range Methods() {
			poured, err := Cook(f, m)
			if err != nil {
				t.Fatal(err)
			}
			kept, err := CookKeepingLiquid(f, m)
			if err != nil {
				t.Fatal(err)
			}
			for id := ID(0); id < firstDerived; id++ {
				p, k, raw := poured.Kept[id], kept.Kept[id], f.Per100g[id]
				if id == Water {
					continue
				}
				if k.Lo < p.Lo || k.Hi < p.Hi || k.Hi > raw.Hi || k.Lo > k.Hi || k.Coverage != p.Coverage {
					t.Errorf("%s %s: %s is %v with the liquid, %v without, %v raw", f.ID, m, id, k, p, raw)
				}
			}
			if kept.YieldShare < poured.YieldShare {
				t.Errorf("%s %s: keeping the liquid makes it lighter", f.ID, m)
			}
			for _, note := range kept.Notes {
				if strings.Contains(note, pouredAway) {
					t.Errorf("%s %s: %s", f.ID, m, note)
				}
			}
		}
	}
	heart, _ := Default().Food("beef-heart-raw")
	c, _ := CookKeepingLiquid(heart, "simmered")
	if c.Kept[Potassium] != heart.Per100g[Potassium] {
		t.Error("potassium left a pot that was not poured off")
	}
	if x := c.Kept[Thiamin]; !(x.Lo < x.Hi) {
		t.Errorf("thiamin %v: what dissolved and what was destroyed is not known apart", x)
	}
	if _, err := CookKeepingLiquid(heart, "sous-vided"); err == nil {
		t.Error("an unknown method was taken")
	}
}
