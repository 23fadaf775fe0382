package report

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
	"golang.org/x/image/font/sfnt"

	"bowlwright/household"
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
	base := testBase(t)
	for _, paper := range []string{"a4", "letter"} {
		for _, name := range hardNames {
			for _, p := range []*household.Plan{testPlan(name, base), short(testPlan(name, base)), crowded(short(testPlan(name, base)))} {
				// A real card has up to sixteen premix items and several cautions.
				for i := range 14 {
					p.Pet.Premix.Items = append(p.Pet.Premix.Items, household.PremixItem{Name: "Kelp powder, Ascophyllum nodosum", G: float64(i) + 0.25})
				}
				p.Pet.Cautions = append(p.Pet.Cautions, strings.Repeat("Go by the label of the bottle in hand. ", 5))
				for _, twoUp := range []bool{false, true} {
					o := PaperOptions{Paper: paper, TwoUp: twoUp, Weights: testWeights(name)}
					drawn, err := drawCards([]household.Paired{pair(t, p, base)}, o)
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
	base := testBase(t)
	least := 2000 * math.Tan(10.0/60*math.Pi/180)
	for _, paper := range []string{"a4", "letter"} {
		for _, meals := range []int{1, 2, 3, 4} {
			p := testPlan("Marlow", base)
			p.Pet.Meals = meals
			paired := pair(t, p, base)
			drawn, err := drawCards([]household.Paired{paired}, PaperOptions{Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			c, err := newCard(paired)
			if err != nil {
				t.Fatal(err)
			}
			want := []string{"Marlow", c.baseCode}
			for _, m := range c.portions {
				want = append(want, m.amount, m.name)
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
	base := testBase(t)
	size := func(addons int) float64 {
		p := testPlan("Marlow", base)
		p.Pet.Addons = nil
		for i := range addons {
			p.Pet.Addons = append(p.Pet.Addons, household.AddonAmount{Name: "Cod liver oil", G: 1.25 + float64(i), ServedAs: "weighed"})
		}
		p.Pet.Premix = nil
		drawn, err := drawCards([]household.Paired{pair(t, p, base)}, PaperOptions{Paper: "a4"})
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
	base := testBase(t)
	p := testPlan("Tansy", base)
	p.Pet.Premix, p.Pet.Addons = nil, nil
	names := []string{"Parsley, dried", "Baker's yeast, active dry", "Blue mussel, moist-heat cooked"}
	for i, name := range names {
		p.Pet.Addons = append(p.Pet.Addons, household.AddonAmount{Name: name, G: 10.41 + float64(i), ServedAs: "weighed", Measure: map[int]string{1: "about ¼ tsp"}[i]})
	}
	for _, paper := range []string{"a4", "letter"} {
		drawn, err := drawCards([]household.Paired{pair(t, p, base)}, PaperOptions{Paper: paper})
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
	base := testBase(t)
	p := short(testPlan("Mim", base))
	for i := range 6 {
		p.Pet.Premix.Items = append(p.Pet.Premix.Items, household.PremixItem{Name: "Ferrous bisglycinate, pure", G: float64(i) + 0.25})
	}
	shown := func() (bars int) {
		drawn, err := drawCards([]household.Paired{pair(t, p, base)}, PaperOptions{Paper: "a4", TwoUp: true})
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
		p.Pet.Cautions = append(p.Pet.Cautions, "Iodine in seaweed differs from about 16 to over 8000 micrograms per gram: use the figure of the very product.")
	}
	if rows < 6 {
		t.Errorf("the bars are left out with %d cautions of two lines", rows)
	}
}

// TestShortInARatioWarns: a plan that misses nothing but a ratio says so on top of every
// document.
func TestShortInARatioWarns(t *testing.T) {
	base := testBase(t)
	p := testPlan("Marlow", base)
	p.Pet.Status = household.Short
	p.Pet.Nutrients[2].Lower = nil
	p.Pet.Ratios[0] = household.RatioLine{ID: "calcium-phosphorus", Amount: known(0.9996), Lower: known(1), Upper: known(2), State: household.StateLow}
	const want = "calcium : phosphorus 0.9996 LOW (1 to 2)"
	card, err := newCard(pair(t, p, base))
	if err != nil || len(card.banner) != 1 || card.banner[0] != want || card.ratios[0] != want {
		t.Errorf("the card says %q and %q (%v)", card.banner, card.ratios, err)
	}
	v, err := newVetView(pair(t, p, base))
	if err != nil || len(v.banner) != 1 || v.banner[0] != want {
		t.Errorf("the veterinarian's page says %q (%v)", v.banner, err)
	}
	p.Pet.Ratios = nil
	c, err := newCard(pair(t, p, base))
	if err != nil || len(c.banner) == 0 {
		t.Errorf("a short plan without a reason has no banner (%v)", err)
	}
}

// leastPoints is the smallest type on a card that is read at arm's length with the
// card in hand (common practice for print: six points and up).
const leastPoints = 6.0

// TestCardIsLegible fills a card as a real small dog's does: ten powders in the
// premix, six add-ons, eight notes.
func TestCardIsLegible(t *testing.T) {
	base := testBase(t)
	p := testPlan("Tansy", base)
	for i := range 8 {
		p.Pet.Premix.Items = append(p.Pet.Premix.Items, household.PremixItem{Name: "Eggshell powder, dried and finely ground", G: float64(i) + 0.25})
	}
	for range 4 {
		p.Pet.Addons = append(p.Pet.Addons, household.AddonAmount{Name: "Blue mussel, moist-heat cooked", G: 11.32, ServedAs: "weighed"})
		p.Pet.Cautions = append(p.Pet.Cautions, "Holds so much vitamin A and D that a small slip is an overdose: go by the label of the bottle.")
	}
	for _, paper := range []string{"a4", "letter"} {
		drawn, err := drawCards([]household.Paired{pair(t, p, base)}, PaperOptions{Paper: paper})
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
	base := testBase(t)
	ps := []household.Paired{pair(t, testPlan("Marlow", base), base), pair(t, short(testPlan("Tansy", base)), base)}
	var first []byte
	for range 12 {
		var b bytes.Buffer
		if err := CardsPDF(&b, ps, PaperOptions{Paper: "a4"}); err != nil {
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
	base := testBase(t)
	p := pair(t, over(testPlan("Marlow", base)), base)
	var refused *household.NotPrintableError
	var b bytes.Buffer
	if err := CardsPDF(&b, []household.Paired{p}, PaperOptions{}); !errors.As(err, &refused) || b.Len() > 0 {
		t.Errorf("pdf: %v, %d bytes", err, b.Len())
	}
}

func TestNoTextAmountsWithoutPlan(t *testing.T) {
	base := testBase(t)
	p := pair(t, over(testPlan("Marlow", base)), base)
	var refused *household.NotPrintableError
	var b bytes.Buffer
	if err := CardText(&b, p, TextOptions{}); !errors.As(err, &refused) || b.Len() > 0 {
		t.Errorf("text: %v, %d bytes", err, b.Len())
	}
	if err := PlanText(&b, p, TextOptions{}); err != nil {
		t.Fatal(err)
	}
	if s := b.String(); strings.Contains(s, "813") || strings.Contains(s, " g ") || !strings.Contains(s, "vitamin A of the base alone") {
		t.Errorf("a plan that is over shows:\n%s", s)
	}
}

func TestTextFits(t *testing.T) {
	base := testBase(t)
	for _, name := range hardNames {
		for _, o := range []TextOptions{{}, {Width: 80}, {Width: 100, Color: true}} {
			var b bytes.Buffer
			p := pair(t, short(testPlan(name, base)), base)
			if err := CardText(&b, p, o); err != nil {
				t.Fatal(err)
			}
			if err := PlanText(&b, p, o); err != nil {
				t.Fatal(err)
			}
			s := b.String()
			for _, code := range []string{red, green, bold, plain} {
				s = strings.ReplaceAll(s, code, "")
			}
			width := o.Width
			if width == 0 {
				width = 80
			}
			for l := range strings.Lines(s) {
				if w := runewidth.StringWidth(strings.TrimSuffix(l, "\n")); w > width {
					t.Errorf("%d columns of %d: %q", w, width, l)
				}
				if strings.ContainsAny(l, "\x1b\u202e\r") {
					t.Errorf("a control got through: %q", l)
				}
			}
		}
	}
}

func TestMealsAddUp(t *testing.T) {
	for _, c := range []struct {
		base, step float64
		meals      int
		want       []string
	}{
		{813, 1, 2, []string{"Morning: 407 g of base", "Evening: 406 g of base"}},
		{812, 1, 2, []string{"Morning: 406 g of base", "Evening: 406 g of base"}},
		{0.5, 0.1, 3, []string{"Meal 1: 0.2 g of base", "Meal 2: 0.2 g of base", "Meal 3: 0.1 g of base"}},
		{200, 5, 1, []string{"Meal: 200 g of base"}},
	} {
		pet := &household.PetPlan{BaseG: c.base, Meals: c.meals, Scales: household.ScalesUsed{ScaleG: c.step}}
		if got := mealLines(pet); fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%g g in %d meals: %q, want %q", c.base, c.meals, got, c.want)
		}
	}
}

func TestNumbers(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 1804.2: "1804", 413.4: "413", 24.25: "24.2", 7.049: "7.05", 0.98651: "0.987", 0.00043: "0.00043", 12: "12", 100: "100"} {
		if got := number(x); got != want {
			t.Errorf("number(%v) = %q, want %q", x, got, want)
		}
	}
	for _, c := range []struct {
		x, limit float64
		a, b     string
	}{{12.26, 12.3, "12.26", "12.3"}, {3, 4, "3", "4"}, {1801.2, 1801.4, "1801.2", "1801.4"}, {5, 5, "5", "5"}, {0.0614999, 0.0615, "under 0.0615", "0.0615"}, {574.2053, 574.2132, "under 574", "574"}, {2.0000001, 2, "over 2", "2"}} {
		if a, b := apart(c.x, c.limit); a != c.a || b != c.b {
			t.Errorf("%v and %v are written %q and %q, want %q and %q", c.x, c.limit, a, b, c.a, c.b)
		}
	}
	if got := strings.Join(words("of which 5,78 g go into 1 meal, 2 tbsp at 4 °C"), "|"); unbound(got) != "of|which|5,78 g|go|into|1|meal,|2 tbsp|at|4 °C" {
		t.Errorf("broken at %q", unbound(got))
	}
	for x, want := range map[float64]string{31.55: "31.55", 0.312: "0.312", 4.325: "4.325", 12: "12", 24.494: "24.49"} {
		if got := kilos(x); got != want {
			t.Errorf("%v kg are written %q, want %q", x, got, want)
		}
	}
	for x, want := range map[float64]string{5.78: "5.78 g", 1118: "1118 g", 0.1 * 3: "0.3 g", 13.370000000000001: "13.37 g", 100: "100 g"} {
		if got := grams(x); got != want {
			t.Errorf("grams(%v) = %q, want %q", x, got, want)
		}
	}
}

func TestPlaceKeepsOrder(t *testing.T) {
	low, high := known(10), known(40)
	for _, c := range []struct {
		x            float64
		lower, upper *float64
		from, to     float64
	}{
		{5, low, high, 0.16, 0.17}, {10, low, high, lowerAt, lowerAt}, {20, low, high, 0.49, 0.51}, {40, low, high, upperAt, upperAt},
		{50, low, high, 0.7, 0.99}, {1e9, low, high, 1, 1}, {1e9, low, nil, 1, 1}, {100, low, nil, upperAt, upperAt}, {9.999, low, nil, 0, lowerAt}, {0, nil, high, 0, 0}, {4, nil, high, lowerAt, lowerAt},
		{41, nil, high, upperAt, 1}, {3, known(3), known(3), lowerAt, upperAt},
	} {
		if got := place(c.x, c.lower, c.upper); math.IsNaN(got) || got < c.from-1e-9 || got > c.to+1e-9 {
			t.Errorf("place(%g) = %g, want %g to %g", c.x, got, c.from, c.to)
		}
	}
}

func TestUnknownLooksUnknown(t *testing.T) {
	base := testBase(t)
	c, err := newCard(pair(t, testPlan("Marlow", base), base))
	if err != nil {
		t.Fatal(err)
	}
	k, iodine := c.bars[2], c.bars[1]
	if k.amount != "unknown" || k.state != "UNKNOWN" || k.inside || !k.nothingKnown {
		t.Errorf("vitamin K without a figure: %+v", k)
	}
	if iodine.amount != "413 µg" || iodine.coverage != "41%" || !strings.Contains(iodine.state, "not fully checked") || iodine.unknown < 0.58 {
		t.Errorf("iodine known in part: %+v", iodine)
	}
}
