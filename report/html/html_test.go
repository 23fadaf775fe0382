package html

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/report"
	"bowlwright/report/internal/sample"
)

func testPages(t *testing.T) map[string]string {
	t.Helper()
	base := sample.Base(t)
	ps := sample.TestPairs(t, base)
	ps = append(ps, sample.Pair(t, sample.Short(sample.Plan("Marlow", base)), base), sample.Pair(t, sample.Over(sample.Plan("Over <script>alert(1)</script>", base)), base))
	pages, err := Pages(ps, Options{Weights: sample.Weights("Marlow")})
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) != len(ps)+1 {
		t.Fatalf("%d pages for %d pets", len(pages), len(ps))
	}
	m := map[string]string{}
	for _, p := range pages {
		if _, twice := m[p.Name]; twice {
			t.Errorf("two pages are called %s", p.Name)
		}
		m[p.Name] = string(p.Data)
	}
	return m
}

var reference = regexp.MustCompile(`(?i)(https?:|//[a-z]|src=|url\(|@import|<script|<link|<iframe|\son[a-z]+=)`)

func TestPagesStandAlone(t *testing.T) {
	m := testPages(t)
	for name, s := range m {
		if found := reference.FindString(s); found != "" {
			t.Errorf("%s refers to something outside: %q", name, found)
		}
		if got := policy.FindString(s); !strings.Contains(got, "default-src 'none'; style-src 'unsafe-inline'\"") {
			t.Errorf("%s lets the browser load things: %q", name, got)
		}
		for _, href := range regexp.MustCompile(`href="([^"]*)"`).FindAllStringSubmatch(s, -1) {
			if _, ok := m[href[1]]; !ok {
				t.Errorf("%s links to %q, which is not written", name, href[1])
			}
		}
		if strings.ContainsAny(s, "\x1b\u202e") {
			t.Errorf("%s holds a control character", name)
		}
	}
}

// TestPagesAreWellFormed reads every page as XML, which finds a tag that is not
// closed.
func TestPagesAreWellFormed(t *testing.T) {
	for name, s := range testPages(t) {
		d := xml.NewDecoder(strings.NewReader(strings.TrimPrefix(s, "<!DOCTYPE html>")))
		d.Strict = true
		d.Entity = xml.HTMLEntity
		for {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Errorf("%s: %v", name, err)
				break
			}
		}
	}
}

func TestPageOfNoPlanHasNoAmounts(t *testing.T) {
	for name, s := range testPages(t) {
		if !strings.Contains(name, "over") {
			continue
		}
		s = s[strings.Index(s, "<main>"):]
		if strings.Contains(s, "813") || strings.Contains(s, " g<") || !strings.Contains(s, "vitamin A of the base alone") {
			t.Errorf("%s shows amounts or no reason:\n%s", name, s)
		}
		return
	}
	t.Fatal("no page of the plan that is over")
}

// The browser shows what the card shows: every amount of the text card is on the
// page.
func TestPageHoldsTheCard(t *testing.T) {
	base := sample.Base(t)
	p := sample.Pair(t, sample.Plan("Marlow", base), base)
	pages, err := Pages([]household.Paired{p}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	var again []Page
	if again, err = Pages([]household.Paired{p}, Options{}); err != nil || !bytes.Equal(again[1].Data, pages[1].Data) {
		t.Errorf("two renderings of one record differ (%v)", err)
	}
	c, err := report.NewCard(p)
	if err != nil {
		t.Fatal(err)
	}
	want := append([]string{c.Base, c.BaseCode, c.WeighBy, c.PremixRecipe}, c.Ratios...)
	for _, list := range [][]report.Item{c.Portions, c.Addons, c.Premix, c.Extras} {
		for _, i := range list {
			want = append(want, i.Amount, i.Name)
		}
	}
	for _, b := range c.Bars {
		want = append(want, b.Name, b.Amount, b.Limits, report.MetState(b.State))
	}
	page := strings.NewReplacer("&#43;", "+", report.NoBreak, " ").Replace(string(pages[1].Data))
	for _, s := range want {
		if !strings.Contains(page, s) {
			t.Errorf("%q is not on the page", s)
		}
	}
	if apart := report.UnitAfter.FindString(string(pages[1].Data)); apart != "" {
		t.Errorf("a line may be broken inside %q", apart)
	}
}

func TestPageWithDecimalComma(t *testing.T) {
	base := sample.Base(t)
	ps := []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}
	write := func(comma bool) string {
		pages, err := Pages(ps, Options{DecimalComma: comma, Weights: sample.Weights("Marlow")})
		if err != nil {
			t.Fatal(err)
		}
		return string(pages[1].Data)
	}
	point, comma := write(false), write(true)
	if !strings.Contains(comma, "<b>84,56"+report.NoBreak+"g</b>") || !strings.Contains(comma, "31,5"+report.NoBreak+"kg on 2026-10-31") || strings.Contains(comma, "31.5") {
		t.Error("the numbers keep their points")
	}
	tags := regexp.MustCompile(`(?s)<style>.*?</style>|<[^>]*>`)
	if a, b := tags.FindAllString(point, -1), tags.FindAllString(comma, -1); !slices.Equal(a, b) {
		t.Error("the comma got into the tags")
	}
	if strings.ReplaceAll(point, ".", ",") != strings.ReplaceAll(comma, ".", ",") {
		t.Error("more than points changed")
	}
}

func TestPageDrawsTheWeighings(t *testing.T) {
	m := testPages(t)
	if page := m["pet-marlow.html"]; !strings.Contains(page, "<polyline") || !strings.Contains(report.Unbound(page), "Weight: 33 kg on 2026-09-01, 31.5 kg on 2026-10-31") {
		t.Error("the weighings are not on the page")
	}
	for name, page := range m {
		if name != "pet-marlow.html" && strings.Contains(page, "polyline") && !strings.HasPrefix(name, "pet-marlow") {
			t.Errorf("%s draws weighings of another pet", name)
		}
	}
}

// TestComparisonIsHonest: what is just missed is under a hundred per cent, and a pet
// without a plan has no figures, which is not the same as no limit.
func TestComparisonIsHonest(t *testing.T) {
	base := sample.Base(t)
	missed := sample.Short(sample.Plan("Tansy", base))
	missed.Pet.Nutrients[1].Amount = sample.Known(393.9)
	rows := compare([]household.Paired{sample.Pair(t, missed, base), sample.Pair(t, sample.Over(sample.Plan("Pip", base)), base)})
	iodine := rows[1]
	if iodine.Name != "Iodine" || iodine.Cells[0] != (htmlCell{"127 → 99 %", false}) || iodine.Cells[1] != (htmlCell{"no plan", true}) {
		t.Errorf("%+v", iodine)
	}
}

// TestSeldomIsNotDailyOnThePage: what is given once a week stands below the head of what is not
// given daily, with its rhythm.
func TestSeldomIsNotDailyOnThePage(t *testing.T) {
	base := sample.Base(t)
	p := sample.Pair(t, sample.Plan("Marlow", base), base)
	c, err := report.NewCard(p)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := Pages([]household.Paired{p}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if index := string(pages[0].Data); !strings.Contains(index, "0.7"+report.NoBreak+"g"+report.NoBreak+"Wheat germ oil (once a week)") {
		t.Error("the overview leaves out how often")
	}
	text := pageText(pages[1].Data)
	daily, seldom := strings.Index(text, c.AddonsTitle()), strings.Index(text, report.SeldomTitle)
	given := strings.Index(text, "Wheat germ oil (once a week)")
	if daily < 0 || seldom < daily || given < seldom {
		t.Errorf("daily at %d, not daily at %d, the oil at %d", daily, seldom, given)
	}
}
