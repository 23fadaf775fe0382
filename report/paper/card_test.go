package paper

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
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
	for i, a := range p.boxes {
		room := p.areas[a.area-1]
		if a.x < room.x-0.01 || a.y < room.y-0.01 || a.x+a.w > room.x+room.w+0.01 || a.y+a.h > room.y+room.h+touching {
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

// setting has weighings of a pet and prints three days after the plan.
func setting(pet string) report.Setting {
	return report.Setting{Day: household.NewDate(2026, 11, 28), Weights: sample.Weights(pet)}
}

// TestNoticesLayout: a band above the card, with and without amounts to be fed.
func TestNoticesLayout(t *testing.T) {
	base := sample.Base(t)
	for _, void := range []bool{true, false} {
		n := report.Notice{Title: report.OutOfDateTitle, Reasons: []string{strings.Repeat("The base changed on Wed 2 Dec 2026. ", 4)}, Advice: "To update the plan, run:", Command: "bowlwright plan Marlow", Void: void}
		for _, o := range []Options{{Paper: "a4"}, {Paper: "letter", TwoUp: true}, {Paper: "a4", Large: true}} {
			o.Setting = setting("Marlow")
			o.Notices = map[string][]report.Notice{"Marlow": {n}}
			drawn, err := drawCards([]household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}, o)
			if err != nil {
				t.Fatal(err)
			}
			checkLayout(t, fmt.Sprintf("void %v, %+v", void, o), drawn)
			text := drawnText(drawn)
			if first := drawn.boxes[0].text; first != report.OutOfDateTitle {
				t.Errorf("the card begins with %q", first)
			}
			if strings.Contains(text, "nutrients reach their minimum.\n") && void && !strings.Contains(text, "see the front") {
				t.Error("a void card has a verdict")
			}
			if void != strings.Contains(text, "Now\n") || void == strings.Contains(text, report.NoteTitle) {
				t.Errorf("void %v:\n%s", void, text)
			}
		}
	}
}

func TestCardLayout(t *testing.T) {
	base := sample.Base(t)
	for _, paper := range []string{"a4", "letter"} {
		for i, name := range sample.HardNames {
			plans := []*household.Plan{sample.Short(sample.Plan(name, base))}
			if i < 2 {
				plans = append(plans, sample.Plan(name, base), sample.Crowded(sample.Short(sample.Plan(name, base))))
			}
			for _, p := range plans {
				// A real card has up to sixteen premix items and several cautions.
				for i := range 14 {
					p.Pet.Premix.Items = append(p.Pet.Premix.Items, household.PremixItem{Name: "Kelp powder, Ascophyllum nodosum", G: float64(i) + 0.25})
				}
				p.Pet.Cautions = append(p.Pet.Cautions, strings.Repeat("Go by the label of the bottle in hand. ", 5))
				for _, o := range []Options{{Paper: paper}, {Paper: paper, TwoUp: true}, {Paper: paper, Large: true}} {
					o.Setting = setting(name)
					drawn, err := drawCards([]household.Paired{sample.Pair(t, p, base)}, o)
					if err != nil {
						t.Fatal(err)
					}
					checkLayout(t, fmt.Sprintf("%s, two up %v, large %v, %q %s", paper, o.TwoUp, o.Large, name, p.Pet.Status), drawn)
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
			c, err := report.NewCard(paired, report.Setting{})
			if err != nil {
				t.Fatal(err)
			}
			want := []string{"Marlow", c.BaseCode}
			for _, m := range c.Meals {
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

// TestAddonsInOneSize on every card, whatever else stands on it: a name that is too long
// may shrink a little.
func TestAddonsInOneSize(t *testing.T) {
	base := sample.Base(t)
	for _, addons := range []int{1, 8, 16} {
		p := sample.Plan("Marlow", base)
		p.Pet.Addons, p.Pet.Premix = nil, nil
		for i := range addons {
			p.Pet.Addons = append(p.Pet.Addons, household.AddonAmount{Name: "Cod liver oil", G: 1.25 + float64(i), ServedAs: household.ServedWeighed})
		}
		drawn, err := drawCards([]household.Paired{sample.Pair(t, p, base)}, Options{Paper: "a4"})
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(drawn.boxes, func(b box) bool { return b.text == "Cod liver oil" })
		if got := drawn.boxes[i].points; got != addonPoints {
			t.Errorf("%d add-ons are set in %.1f points, want %.1f", addons, got, addonPoints)
		}
	}
}

// leastPoints is the smallest type on a card that is read at arm's length with the
// card in hand (common practice for print: six points and up).
const leastPoints = 6.0

// leastNotePoints is the smallest type of a caution.
const leastNotePoints = 9.0

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
		// Letter is 18 mm shorter: its notes may go on on a third page.
		if most := map[string]int{"a4": 2, "letter": 3}[paper]; drawn.area > most {
			t.Errorf("%s: front and back take %d pages", paper, drawn.area)
		}
		for _, b := range drawn.boxes {
			if b.text != "" && b.points < leastPoints {
				t.Errorf("%s: %q is set in %.1f points", paper, b.text, b.points)
			}
			if strings.Contains(b.text, "Holds so much vitamin A") && b.points < leastNotePoints {
				t.Errorf("%s: a caution is set in %.1f points", paper, b.points)
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

// TestPhotoOnTheCard: in a square beside the name on a valid card, gone from a void one;
// what is no picture is refused.
func TestPhotoOnTheCard(t *testing.T) {
	base := sample.Base(t)
	picture := image.NewGray(image.Rect(0, 0, 40, 90))
	var data bytes.Buffer
	if err := png.Encode(&data, picture); err != nil {
		t.Fatal(err)
	}
	photo, err := Photo(data.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range []Options{{Paper: "a4"}, {Paper: "a4", TwoUp: true}, {Paper: "letter", Large: true}} {
		o.Photos, o.Setting = map[string][]byte{"Marlow": photo}, setting("Marlow")
		count := func() int {
			drawn, err := drawCards([]household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}, o)
			if err != nil {
				t.Fatal(err)
			}
			checkLayout(t, "with a photo", drawn)
			var b bytes.Buffer
			if err := drawn.output(&b); err != nil {
				t.Fatal(err)
			}
			return strings.Count(b.String(), "/Subtype /Image")
		}
		if n := count(); n != 1 {
			t.Errorf("%+v: %d pictures", o.TwoUp, n)
		}
		o.Notices = map[string][]report.Notice{"Marlow": {{Title: report.OutOfDateTitle, Void: true}}}
		if n := count(); n != 0 {
			t.Errorf("%d pictures on a void card", n)
		}
	}
	var bad *PhotoError
	if _, err := Photo([]byte("no picture")); !errors.As(err, &bad) {
		t.Errorf("%v", err)
	}
}
