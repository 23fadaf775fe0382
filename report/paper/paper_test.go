package paper

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/report"
	"bowlwright/report/internal/sample"
)

func TestOrdinaryCardTakesOneArea(t *testing.T) {
	base := sample.Base(t)
	pairs := []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base), sample.Pair(t, sample.Short(sample.Plan("Tansy", base)), base)}
	for _, o := range []Options{{Paper: "a4"}, {Paper: "letter"}, {Paper: "a4", TwoUp: true}, {Paper: "letter", TwoUp: true}} {
		p, err := drawCards(pairs, o)
		if err != nil {
			t.Fatal(err)
		}
		sheets := map[bool]int{false: 2, true: 1}[o.TwoUp]
		if p.area != 2 || p.pdf.PageCount() != sheets {
			t.Errorf("%+v: two ordinary cards take %d areas on %d sheets", o, p.area, p.pdf.PageCount())
		}
	}
}

// TestMissingGlyphsShow: what the font lacks is a box that can be seen.
func TestMissingGlyphsShow(t *testing.T) {
	for in, want := range map[string]string{"🐕‍🦺 Rex": "□□ Rex", "小白": "□□", "Żółć": "Żółć", "e\u0301": "é", "a\u202eb\u0007c": "abc", "2 ≥ 1 µg": "2 ≥ 1 µg"} {
		if got := paperText(in); got != want {
			t.Errorf("%q is printed as %q, want %q", in, got, want)
		}
	}
	for in, want := range map[string]string{"Rex אבג, base": "Rex גבא, base", "אבג Rex": "גבא Rex", "אבג": "גבא", "Rex": "Rex"} {
		if got := asSeen(in); got != want {
			t.Errorf("%q is seen as %q, want %q", in, got, want)
		}
	}
}

func TestPaperWithDecimalComma(t *testing.T) {
	base := sample.Base(t)
	var b bytes.Buffer
	if err := Cards(&b, []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}, Options{Paper: "a4", DecimalComma: true}); err != nil {
		t.Fatal(err)
	}
	text := sample.PdfText(t, b.Bytes())
	if !strings.Contains(text, "84,56 g Eggshell powder") || strings.Contains(text, "84.56") {
		t.Errorf("the numbers read:\n%s", text)
	}
}

func BenchmarkTenCards(b *testing.B) {
	base := sample.Base(b)
	var pairs []household.Paired
	for range 10 {
		pairs = append(pairs, sample.Pair(b, sample.Plan("Marlow", base), base))
	}
	for b.Loop() {
		if err := Cards(io.Discard, pairs, Options{Paper: "a4"}); err != nil {
			b.Fatal(err)
		}
	}
}

// TestEachHalfSetsItsFont: the font of before ends with the scaling of a half.
func TestEachHalfSetsItsFont(t *testing.T) {
	p := newPage(Options{Paper: "a4", TwoUp: true}, household.NewDate(2026, 11, 25), "halves")
	p.pdf.SetCompression(false)
	for range 2 {
		p.next()
		p.text(p.left, p.y, p.inner, "the same", "", 10, "L")
	}
	var b bytes.Buffer
	if err := p.output(&b); err != nil {
		t.Fatal(err)
	}
	halves := strings.Split(b.String(), " cm\n")
	if len(halves) < 3 {
		t.Fatalf("%d halves", len(halves)-1)
	}
	for i, half := range halves[1:3] {
		if set, drawn := strings.Index(half, " 10.00 Tf"), strings.Index(half, "Tj"); set < 0 || drawn < set {
			t.Errorf("half %d draws before it sets its font", i+1)
		}
	}
}

// TestLostNamesAreTold: where letters of a name cannot be printed, paper says which
// animal it is; elsewhere the name stands alone.
func TestLostNamesAreTold(t *testing.T) {
	base := sample.Base(t)
	for name, want := range map[string]string{"Marlow": "Marlow", "Pip 🐱": "Pip 🐱", "犬太郎": "犬太郎 (dog, 31.5 kg)", "𐌀 Rex": "𐌀 Rex (dog, 31.5 kg)", "كلب": "كلب"} {
		if got := paperName(name, "dog, 31.5 kg"); got != want {
			t.Errorf("%q is %q on paper, want %q", name, got, want)
		}
	}
	ps := []household.Paired{sample.Pair(t, sample.Plan("犬太郎", base), base)}
	b, err := household.NewBatchSheet(base, ps, household.BatchOrder{Days: 1})
	if err != nil {
		t.Fatal(err)
	}
	labels, err := drawLabels(b, DefaultLabels, true, Options{Paper: "a4"})
	if err != nil {
		t.Fatal(err)
	}
	cards, err := drawCards(ps, Options{Paper: "a4"})
	if err != nil {
		t.Fatal(err)
	}
	vet, err := drawVet(ps, Options{Paper: "a4"})
	if err != nil {
		t.Fatal(err)
	}
	for what, p := range map[string]*page{"labels": labels, "cards": cards, "veterinarian": vet, "batch": drawBatch(b, Options{Paper: "a4"})} {
		if text := drawnText(p); !strings.Contains(text, "□□□ (dog, 31.5 kg)") {
			t.Errorf("%s: the animal is not told:\n%.300s", what, text)
		}
	}
}

// TestSeldomIsNotDailyOnPaper: what is given once a week stands below the head of what is not
// given daily, with its rhythm.
func TestSeldomIsNotDailyOnPaper(t *testing.T) {
	base := sample.Base(t)
	p := sample.Pair(t, sample.Plan("Marlow", base), base)
	c, err := report.NewCard(p)
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := drawCards([]household.Paired{p}, Options{Paper: "a4"})
	if err != nil {
		t.Fatal(err)
	}
	text := drawnText(drawn)
	daily, seldom := strings.Index(text, c.AddonsTitle()), strings.Index(text, report.SeldomTitle)
	given := strings.Index(text, "Wheat germ oil (once a week)")
	if daily < 0 || seldom < daily || given < seldom {
		t.Errorf("daily at %d, not daily at %d, the oil at %d", daily, seldom, given)
	}
}
