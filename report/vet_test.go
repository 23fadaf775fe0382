package report

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
)

func TestVetLayout(t *testing.T) {
	base := testBase(t)
	for _, paper := range []string{"a4", "letter"} {
		for _, name := range hardNames {
			p := short(testPlan(name, base))
			p.Pet.Nutrients[0].LowerSource = strings.Repeat("A source with a very long title. ", 12)
			p.Pet.Binding = []household.Binding{{Limit: "calcium lower", Costs: "0.0026 g of add-on per mg"}}
			drawn, err := drawVet([]household.Paired{pair(t, p, base), pair(t, testPlan("Pip", base), base)}, PaperOptions{Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			checkLayout(t, "veterinarian "+paper, drawn)
		}
	}
	var refused *NotPrintableError
	if err := VetPDF(&bytes.Buffer{}, []household.Paired{pair(t, over(testPlan("Pip", base)), base)}, PaperOptions{}); !errors.As(err, &refused) {
		t.Errorf("a plan that is over: %v", err)
	}
}

// The bases are worked out by hand: 1804.2 mg in 1312 kcal of a dog of 31.5 kg,
// whose metabolic weight is 31.5^0.75 = 13.2964 kg.
func TestVetBases(t *testing.T) {
	base := testBase(t)
	v, err := newVetView(pair(t, testPlan("Marlow", base), base))
	if err != nil {
		t.Fatal(err)
	}
	calcium, k := v.rows[0], v.rows[2]
	if calcium.day != "1804" || calcium.per1000 != "1375" || calcium.perMetabolic != "136" || calcium.lower != "1801" || calcium.upper != "–" {
		t.Errorf("calcium: %+v", calcium)
	}
	if k.day != "unknown" || k.per1000 != "–" || k.perMetabolic != "–" || k.perDry != "–" || k.known != "0%" {
		t.Errorf("vitamin K without a figure: %+v", k)
	}
	if chloride := v.rows[3]; !strings.HasSuffix(chloride.source, "†") || chloride.state != "met*" {
		t.Errorf("chloride, recalled and known in part: %+v", chloride)
	}
	if len(v.sources) != 1 || v.sources[0] != "NRC 2006" {
		t.Errorf("sources: %q", v.sources)
	}
}

func TestDryMatter(t *testing.T) {
	plan := &household.Plan{}
	plan.Pet.BaseG = 1000
	for _, c := range []struct {
		water nutrients.Figure
		extra float64
		want  float64
		known bool
	}{
		{nutrients.Known(70), 0, 300, true},
		{nutrients.Between(69.8, 70.2), 0, 300, true},
		{nutrients.Between(60, 70), 0, 0, false},
		{nutrients.Unknown, 0, 0, false},
		// An extra of 4 g whose water nobody knows leaves 4 g of 304 open; one of
		// 40 g too much.
		{nutrients.Known(70), 4, 302, true},
		{nutrients.Known(70), 40, 0, false},
		// Nine tenths known with 63 g of water in 90 g: between 270 and 370 g.
		{nutrients.Figure{Lo: 63, Hi: 63, Coverage: 0.9}, 0, 0, false},
	} {
		plan.Base.Composition = map[nutrients.ID]nutrients.Figure{nutrients.Water: c.water}
		plan.Pet.Extras = []household.ExtraAmount{{Food: "nobody-knows", G: c.extra}}
		if got, known := dryMatter(plan); known != c.known || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("water %+v and %g g: %g %v, want %g %v", c.water, c.extra, got, known, c.want, c.known)
		}
	}
}
