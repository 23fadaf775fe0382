package paper

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"

	"bowlwright/household"
	"bowlwright/report"
	"bowlwright/report/internal/sample"
)

// touching is how far, in millimetres, two lines may reach into each other: the
// height of a line holds white space above and below the letters.
const touching = 0.35

// checkLayout finds what was drawn outside the margins or over something else,
// characters that a face cannot draw, and figures that were cut.
func checkLayout(t *testing.T, what string, p *page) {
	t.Helper()
	_, boldBytes := fontBytes()
	boldFont, err := sfnt.Parse(boldBytes)
	if err != nil {
		t.Fatal(err)
	}
	var buf sfnt.Buffer
	right, bottom := p.left+p.inner, p.bottom
	for i, a := range p.boxes {
		if a.x < marginMM-0.01 || a.y < marginMM-0.01 || a.x+a.w > right+0.01 || a.y+a.h > bottom+touching {
			t.Errorf("%s: area %d: %q is outside: x %.1f y %.1f w %.1f h %.1f", what, a.area, a.text, a.x, a.y, a.w, a.h)
		}
		for _, b := range p.boxes[:i] {
			if a.area == b.area && min(a.x+a.w, b.x+b.w)-max(a.x, b.x) > touching && min(a.y+a.h, b.y+b.h)-max(a.y, b.y) > touching {
				t.Errorf("%s: area %d: %q lies over %q", what, a.area, a.text, b.text)
			}
		}
		if strings.HasSuffix(a.text, "…") && strings.ContainsAny(a.text, "0123456789") {
			t.Errorf("%s: a figure is cut: %s", what, a.text)
		}
		for _, r := range a.text {
			if glyph, err := boldFont.GlyphIndex(&buf, r); !hasGlyph(r) || err != nil || glyph == 0 {
				t.Errorf("%s: no glyph for %q in %q", what, r, a.text)
			}
		}
	}
	for area := range p.area {
		if !slices.ContainsFunc(p.boxes, func(b box) bool { return b.area == area+1 }) {
			t.Errorf("%s: area %d is empty", what, area+1)
		}
	}
}

func TestCardLayout(t *testing.T) {
	base := sample.Base(t)
	for _, paper := range []string{"a4", "letter"} {
		for _, name := range sample.HardNames {
			for _, p := range []*household.Plan{sample.Plan(name, base), sample.Short(sample.Plan(name, base)), sample.Crowded(sample.Short(sample.Plan(name, base)))} {
				// A real card has up to sixteen premix items and several cautions.
				for i := range 14 {
					p.Pet.Premix.Items = append(p.Pet.Premix.Items, household.PremixItem{Name: "Kelp powder, Ascophyllum nodosum", G: float64(i) + 0.25})
				}
				p.Pet.Cautions = append(p.Pet.Cautions, strings.Repeat("Go by the label of the bottle in hand. ", 5))
				for _, twoUp := range []bool{false, true} {
					o := Options{Paper: paper, TwoUp: twoUp, Weights: sample.Weights(name)}
					drawn, err := drawCards([]household.Paired{sample.Pair(t, p, base)}, o)
					if err != nil {
						t.Fatal(err)
					}
					checkLayout(t, fmt.Sprintf("%s, two up %v, %q %s", paper, twoUp, name, p.Pet.Status), drawn)
					if err := drawn.output(io.Discard); err != nil {
						t.Error(err)
					}
				}
			}
		}
	}
}

// capital is the height of a capital of the font over its size.
const capital = 0.729

// TestCardReadsAtTwoMetres: ten minutes of arc, the letters that half the usual
// sharpness of sight still reads, are 5.8 mm at two metres.
func TestCardReadsAtTwoMetres(t *testing.T) {
	base := sample.Base(t)
	least := 2000 * math.Tan(10.0/60*math.Pi/180)
	for _, paper := range []string{"a4", "letter"} {
		for _, meals := range []int{1, 2, 3, 4} {
			p := sample.Plan("Marlow", base)
			p.Pet.Meals = meals
			paired := sample.Pair(t, p, base)
			drawn, err := drawCards([]household.Paired{paired}, Options{Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			c, err := report.NewCard(paired)
			if err != nil {
				t.Fatal(err)
			}
			want := []string{"Marlow", c.BaseCode}
			for _, m := range c.Portions {
				want = append(want, m.Amount, m.Name)
			}
			for _, text := range want {
				i := slices.IndexFunc(drawn.boxes, func(b box) bool { return b.text == text })
				if i < 0 {
					t.Errorf("%s, %d meals: %q is not on the card", paper, meals, text)
				} else if h := drawn.boxes[i].points * pointInMM * capital; h < least-0.01 {
					t.Errorf("%s, %d meals: %q is %.1f mm high, want %.1f", paper, meals, text, h, least)
				}
			}
		}
	}
}

// TestAddonsTakeTheRoom: few add-ons are set larger than many, and never smaller than
// what is read with the card in hand.
func TestAddonsTakeTheRoom(t *testing.T) {
	base := sample.Base(t)
	size := func(addons int) float64 {
		p := sample.Plan("Marlow", base)
		p.Pet.Addons = nil
		for i := range addons {
			p.Pet.Addons = append(p.Pet.Addons, household.AddonAmount{Name: "Cod liver oil", G: 1.25 + float64(i), ServedAs: household.ServedWeighed})
		}
		p.Pet.Premix = nil
		drawn, err := drawCards([]household.Paired{sample.Pair(t, p, base)}, Options{Paper: "a4"})
		if err != nil {
			t.Fatal(err)
		}
		return drawn.boxes[slices.IndexFunc(drawn.boxes, func(b box) bool { return b.text == "Cod liver oil" })].points
	}
	if few, many := size(3), size(16); few != mostAddonPoints || many >= few || many < addonPoints*narrow {
		t.Errorf("three add-ons in %.1f points, sixteen in %.1f", few, many)
	}
}

// TestAddonsInOneType: a name that is a little too long for the largest type does not
// shrink alone, the whole list is set so that it fits.
func TestAddonsInOneType(t *testing.T) {
	base := sample.Base(t)
	p := sample.Plan("Tansy", base)
	p.Pet.Premix, p.Pet.Addons = nil, nil
	names := []string{"Parsley, dried", "Baker's yeast, active dry", "Blue mussel, moist-heat cooked"}
	for i, name := range names {
		p.Pet.Addons = append(p.Pet.Addons, household.AddonAmount{Name: name, G: 10.41 + float64(i), ServedAs: household.ServedWeighed, Measure: map[int]string{1: "about ¼ tsp"}[i]})
	}
	for _, paper := range []string{"a4", "letter"} {
		drawn, err := drawCards([]household.Paired{sample.Pair(t, p, base)}, Options{Paper: paper})
		if err != nil {
			t.Fatal(err)
		}
		var sizes []float64
		for _, b := range drawn.boxes {
			if slices.ContainsFunc(names, func(n string) bool { return strings.HasPrefix(b.text, n) }) {
				sizes = append(sizes, b.points)
			}
		}
		if len(sizes) != len(names) || slices.Min(sizes) != slices.Max(sizes) || sizes[0] <= addonPoints {
			t.Errorf("%s: the add-ons are set in %v points", paper, sizes)
		}
	}
}

// TestTwoUpKeepsItsBars on a half that is somewhat fuller than most: rows and rules
// draw together before the bars are left out.
func TestTwoUpKeepsItsBars(t *testing.T) {
	base := sample.Base(t)
	p := sample.Short(sample.Plan("Mim", base))
	for i := range 6 {
		p.Pet.Premix.Items = append(p.Pet.Premix.Items, household.PremixItem{Name: "Ferrous bisglycinate, pure", G: float64(i) + 0.25})
	}
	shown := func() (bars int) {
		drawn, err := drawCards([]household.Paired{sample.Pair(t, p, base)}, Options{Paper: "a4", TwoUp: true})
		if err != nil {
			t.Fatal(err)
		}
		checkLayout(t, "two up", drawn)
		for _, b := range drawn.boxes {
			if b.area == 1 && strings.HasPrefix(b.text, "Pantothenic acid") {
				bars++
			}
		}
		return bars
	}
	rows := 0
	for ; shown() == 1; rows++ {
		p.Pet.Cautions = append(p.Pet.Cautions, "Iodine in seaweed differs from about 16 to over 8000 micrograms per gram: use the figure on your product's label.")
	}
	if rows < 6 {
		t.Errorf("the bars are left out with %d cautions of two lines", rows)
	}
}

// leastPoints is the smallest type on a card that is read at arm's length with the
// card in hand (common practice for print: six points and up).
const leastPoints = 6.0

// TestCardIsLegible fills a card as a real small dog's does: ten powders in the
// premix, six add-ons, eight notes.
func TestCardIsLegible(t *testing.T) {
	base := sample.Base(t)
	p := sample.Plan("Tansy", base)
	for i := range 8 {
		p.Pet.Premix.Items = append(p.Pet.Premix.Items, household.PremixItem{Name: "Eggshell powder, dried and finely ground", G: float64(i) + 0.25})
	}
	for range 4 {
		p.Pet.Addons = append(p.Pet.Addons, household.AddonAmount{Name: "Blue mussel, moist-heat cooked", G: 11.32, ServedAs: household.ServedWeighed})
		p.Pet.Cautions = append(p.Pet.Cautions, "Holds so much vitamin A and D that a small slip is an overdose: go by the label of the bottle.")
	}
	for _, paper := range []string{"a4", "letter"} {
		drawn, err := drawCards([]household.Paired{sample.Pair(t, p, base)}, Options{Paper: paper})
		if err != nil {
			t.Fatal(err)
		}
		if drawn.area != 1 {
			t.Errorf("%s: the card takes %d pages", paper, drawn.area)
		}
		for _, b := range drawn.boxes {
			if b.text != "" && b.points < leastPoints {
				t.Errorf("%s: %q is set in %.1f points", paper, b.text, b.points)
			}
		}
	}
}

func TestSameRecordSameBytes(t *testing.T) {
	base := sample.Base(t)
	ps := []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base), sample.Pair(t, sample.Short(sample.Plan("Tansy", base)), base)}
	var first []byte
	for range 12 {
		var b bytes.Buffer
		if err := Cards(&b, ps, Options{Paper: "a4"}); err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = b.Bytes()
		}
		if !bytes.Equal(first, b.Bytes()) {
			t.Fatal("two prints of one record differ")
		}
	}
}

func TestNoAmountsWithoutPlan(t *testing.T) {
	base := sample.Base(t)
	p := sample.Pair(t, sample.Over(sample.Plan("Marlow", base)), base)
	var refused *household.NotPrintableError
	var b bytes.Buffer
	if err := Cards(&b, []household.Paired{p}, Options{}); !errors.As(err, &refused) || b.Len() > 0 {
		t.Errorf("pdf: %v, %d bytes", err, b.Len())
	}
}
