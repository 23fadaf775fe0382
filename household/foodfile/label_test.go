package foodfile

import (
	"testing"

	"bowlwright/household/diag"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

func TestLabelFigures(t *testing.T) {
	for _, c := range []struct {
		text string
		id   nutrients.ID
		want nutrients.Figure
	}{
		{"12 mg", nutrients.Zinc, nutrients.Known(12)},
		{"10..12 mg", nutrients.Zinc, nutrients.Between(10, 12)},
		{"12 %", nutrients.Protein, nutrients.Known(12)},
		// A guaranteed minimum says nothing of the other end.
		{"min 10 %", nutrients.Protein, nutrients.Figure{Lo: 10, Hi: 10, Coverage: halfKnown}},
		{"max 5 %", nutrients.Fiber, nutrients.Between(0, 5)},
		{"min 5000 IU", nutrients.Retinol, nutrients.Figure{Lo: 1500, Hi: 1500, Coverage: halfKnown}},
	} {
		got, err := figure(c.text, c.id, 100)
		if err != nil || got != c.want {
			t.Errorf("%q: %v %v, want %v", c.text, got, err, c.want)
		}
		again, err := figure(labelText(got, c.id.Info().Unit), c.id, 100)
		if err != nil || again != got {
			t.Errorf("%q came back as %v %v, was %v", labelText(got, c.id.Info().Unit), again, err, got)
		}
	}
	for _, text := range []string{"min", "min 10", "max -1", "at least 3 g", "12..10 mg", "min 5 IU"} {
		if f, err := figure(text, nutrients.Calcium, 100); err == nil && f.Lo >= 0 && f.Hi >= 0 {
			t.Errorf("%q was read as %v", text, f)
		}
	}
}

// TestFiguresPerEnergy: 3 g of calcium per 1000 kcal in a food of 120 kcal per 100 g
// are 0.36 g per 100 g.
func TestFiguresPerEnergy(t *testing.T) {
	f, list := foodFrom(t, "per = \"1000 kcal\"\nenergy = \"120 kcal per 100 g\"\n[figures]\ncalcium = \"3 g\"\nprotein = \"min 70 g\"\n")
	if len(list) != 0 {
		t.Fatal(list.Text(80, false, diag.Plain))
	}
	if got := f.Per100g[nutrients.Calcium].Lo; got < 359.999 || got > 360.001 {
		t.Errorf("calcium %g mg per 100 g", got)
	}
	if got := f.Per100g[nutrients.Protein]; got.Coverage != halfKnown || got.Lo < 8.39 || got.Lo > 8.41 {
		t.Errorf("protein %v", got)
	}
	for _, text := range []string{
		"per = \"1000 kcal\"\n[figures]\ncalcium = \"3 g\"\n",
		"per = \"1000 kcal\"\nenergy = \"120\"\n[figures]\ncalcium = \"3 g\"\n",
		"per = \"1000 kcal\"\nenergy = \"2000 kcal per 100 g\"\n[figures]\ncalcium = \"3 g\"\n",
	} {
		if _, list := foodFrom(t, text); !list.HasErrors() {
			t.Errorf("accepted: %s", text)
		}
	}
}

// foodFrom reads the text of a file of foods/.
func foodFrom(t *testing.T, text string) (*nutrients.Food, diag.List) {
	t.Helper()
	d := tomldoc.Parse("foods/x.toml", text)
	return Read(d), d.Diags
}
