package diet

import (
	"math"
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/nutrients"
)

// A week's iron at once is refused though its average is not; a week's vitamin E is given.
func TestCeilingAtOnce(t *testing.T) {
	h := sample.QuinceLane(t)
	limits := sample.TargetsOf(t, h, sample.PetNamed(t, h, "Marlow")).Limits
	for id, want := range map[string]float64{"ferrous-bisglycinate": 2, "vitamin-e-d-alpha-tocopherol": 7, "copper-gluconate": 2, "folic-acid": 7} {
		f, ok := nutrients.Default().Food(id)
		if !ok {
			t.Fatalf("no food %s", id)
		}
		per := PerGram(&f.Per100g, nutrients.Dog)
		daily, atOnce := ConcentrateCap(f, &per, limits)
		if got := atOnce / daily; got < want*(1-LimitTol) || got > want*(1+LimitTol) {
			t.Errorf("%s: %g days at once, want %g", id, got, want)
		}
	}
	liver, _ := nutrients.Default().Food("beef-liver-raw")
	per := PerGram(&liver.Per100g, nutrients.Dog)
	if daily, _ := ConcentrateCap(liver, &per, limits); !math.IsInf(daily, 1) {
		t.Errorf("liver is bounded at %g g", daily)
	}
}

// A limit that the concentrates reach together is said in words.
func TestTogetherInWords(t *testing.T) {
	h := sample.WithFoods(t, sample.Swapped(t, "potassium-chloride", "potassium-iodide"), "potassium-iodate")
	pet := sample.PetNamed(t, h, "Pip")
	p, err := Formulate(h, pet)
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, r := range p.Rows {
		if r.Limit == nutrients.MostConcentrated(nutrients.Iodine) {
			seen++
			if got := p.InWords(r); !strings.HasSuffix(got, "ug of iodine from all concentrates together, 5 times the minimum") {
				t.Error(got)
			}
			if got := p.Price(r, -0.5*r.Size); got != "0.5 g of add-on per ug" {
				t.Error(got)
			}
		}
	}
	if seen != 1 {
		t.Errorf("%d rows for the iodine of concentrates", seen)
	}
}
