package paper

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/household/supplies"
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
		// A page with its back, or a half with its notes.
		areas, sheets := 4, 4
		if o.TwoUp {
			sheets = 2
		}
		if p.area != areas || p.pdf.PageCount() != sheets {
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
	for in, want := range map[string]string{"Rex אבג, base": "Rex גבא, base", "אבג Rex": "גבא Rex", "אבג": "גבא", "Rex": "Rex",
		"אבג: 2 × 675 g": "גבא: 2 × 675 g", "Weigh אב גד by Mon 30 Nov": "Weigh דג בא by Mon 30 Nov", "base M2P, אבג 12": "base M2P, גבא 12", "אבג (dog, 4 kg)": "גבא (dog, 4 kg)"} {
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
	if !strings.Contains(text, "24,0 g") && !strings.Contains(text, "0,7 g") || strings.Contains(text, "0.7 g") {
		t.Errorf("the numbers read:\n%s", text)
	}
}

// Ten cards as PDF: 62 to 156 ms measured on two cores in November 2026, budget 300
// ms.
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
	b, err := supplies.NewBatchSheet(base, ps, supplies.BatchOrder{Days: 1})
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
	c, err := report.NewCard(p, report.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := drawCards([]household.Paired{p}, Options{Paper: "a4"})
	if err != nil {
		t.Fatal(err)
	}
	text := drawnText(drawn)
	daily, seldom := strings.Index(text, c.AddonsTitle()), strings.Index(text, report.SeldomTitle)
	given := strings.Index(text, "once a week")
	if daily < 0 || seldom < daily || given < seldom {
		t.Errorf("daily at %d, not daily at %d, the oil at %d", daily, seldom, given)
	}
}
