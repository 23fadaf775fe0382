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

// testPages are pages by a name: a household of many, one of one, and one with notices.
func testPages(t *testing.T) map[string]string {
	t.Helper()
	base := sample.Base(t)
	ps := sample.TestPairs(t, base)
	ps = append(ps, sample.Pair(t, sample.Short(sample.Plan("Moss", base)), base), sample.Pair(t, sample.Over(sample.Plan("Over <script>alert(1)</script>", base)), base))
	o := Options{Setting: report.Setting{Weights: sample.Weights("Marlow")}}
	m := map[string]string{}
	add := func(name string, ps []household.Paired) {
		page, err := Page(ps, o)
		if err != nil {
			t.Fatal(err)
		}
		m[name] = string(page)
	}
	add("many", ps)
	add("one", ps[:1])
	o.Notices = map[string][]report.Notice{"Marlow": {{Title: report.OutOfDateTitle, Reasons: []string{"The base changed."}, Advice: "To update the plan, run:", Command: "bowlwright plan Marlow", Void: true}}}
	add("void", ps[:1])
	return m
}

// unfolded opens everything that is folded.
func unfolded(page string) string {
	return strings.ReplaceAll(strings.ReplaceAll(page, ` open="open"`, ""), "<details", `<details open="open"`)
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

// TestPageOfNoPlanHasNoAmounts: the pet that has no safe plan gets the reason alone.
func TestPageOfNoPlanHasNoAmounts(t *testing.T) {
	base := sample.Base(t)
	page, err := Page([]household.Paired{sample.Pair(t, sample.Over(sample.Plan("Pip", base)), base)}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	s := string(page[bytes.Index(page, []byte("<main>")):])
	if strings.Contains(s, "813") || strings.Contains(s, " g<") || !strings.Contains(s, "vitamin A of the base alone") || !strings.Contains(s, report.NoAmounts) {
		t.Errorf("amounts or no reason:\n%s", s)
	}
}

// TestPageHoldsTheCard: the browser shows what the card shows.
func TestPageHoldsTheCard(t *testing.T) {
	base := sample.Base(t)
	p := sample.Pair(t, sample.Plan("Marlow", base), base)
	page, err := Page([]household.Paired{p}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if again, err := Page([]household.Paired{p}, Options{}); err != nil || !bytes.Equal(again, page) {
		t.Errorf("two renderings of one record differ (%v)", err)
	}
	c, err := report.NewCard(p, report.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	want := append([]string{c.Base, c.BaseCode, report.ShortDay(c.WeighBy), c.Jar.Recipe, c.Verdict}, c.Ratios...)
	for _, m := range c.Meals {
		want = append(want, m.Name, m.Amount)
	}
	for _, s := range c.Seldom {
		want = append(want, s.Amount, s.Name, s.Remark, s.Dates)
	}
	for _, list := range [][]report.Item{c.Addons, c.Jar.Powders, c.Extras} {
		for _, i := range list {
			want = append(want, i.Amount, i.Name)
		}
	}
	for _, b := range c.Bars {
		want = append(want, b.Name, b.Amount, b.Limits, b.ShortState())
	}
	text := pageText(page)
	for _, s := range want {
		if !strings.Contains(text, s) {
			t.Errorf("%q is not on the page", s)
		}
	}
	if apart := report.UnitAfter.FindString(string(page)); apart != "" {
		t.Errorf("a line may be broken inside %q", apart)
	}
}

func TestPageWithDecimalComma(t *testing.T) {
	base := sample.Base(t)
	ps := []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}
	write := func(comma bool) string {
		page, err := Page(ps, Options{DecimalComma: comma, Setting: report.Setting{Weights: sample.Weights("Marlow")}})
		if err != nil {
			t.Fatal(err)
		}
		return string(page)
	}
	point, comma := write(false), write(true)
	if !strings.Contains(comma, "<b>84,56"+report.NoBreak+"g</b>") || !strings.Contains(comma, "31,5"+report.NoBreak+"kg on Sat 31 Oct 2026") || strings.Contains(comma, "31.5") {
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
	page := testPages(t)["one"]
	if strings.Count(page, "<polyline") != 1 || !strings.Contains(report.Unbound(page), "Weight: 33 kg on Tue 1 Sep 2026, 31.5 kg on Sat 31 Oct 2026") {
		t.Error("the weighings are not on the page")
	}
}

// TestComparisonIsHonest: what is missed says so, and a pet without a plan has no figures,
// which is not the same as no minimum.
func TestComparisonIsHonest(t *testing.T) {
	base := sample.Base(t)
	missed := sample.Short(sample.Plan("Tansy", base))
	missed.Pet.Nutrients[1].Amount = sample.Known(393.9)
	rows := compare([]household.Paired{sample.Pair(t, missed, base), sample.Pair(t, sample.Over(sample.Plan("Pip", base)), base)})
	iodine, k := rows[1], rows[2]
	if iodine.Name != "Iodine" || iodine.Cells[0] != (cell{"126 %", "below minimum", "below"}) || iodine.Cells[1] != (cell{"", "no safe plan", "none"}) {
		t.Errorf("%+v", iodine)
	}
	if k.Cells[0] != (cell{"", "no figure known", "below"}) {
		t.Errorf("%+v", k)
	}
}

// TestVoidPageSaysSo: above the amounts, and in the row of the pet.
func TestVoidPageSaysSo(t *testing.T) {
	page := testPages(t)["void"]
	band, amounts := strings.Index(page, `class="band"`), strings.Index(page, `class="void"`)
	if band < 0 || amounts < band || !strings.Contains(page, "<b>out of date</b>") || !strings.Contains(page, "<code>bowlwright plan Marlow</code>") {
		t.Errorf("the band at %d, the amounts at %d", band, amounts)
	}
}
