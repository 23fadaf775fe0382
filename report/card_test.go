package report

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/report/internal/sample"
)

// TestShortInARatioWarns: a plan that misses nothing but a ratio says so on top of every
// document.
func TestShortInARatioWarns(t *testing.T) {
	base := sample.Base(t)
	p := sample.Plan("Marlow", base)
	p.Pet.Status = household.Short
	p.Pet.Nutrients[2].Lower = nil
	p.Pet.Ratios[0] = household.RatioLine{ID: "calcium-phosphorus", Amount: sample.Known(0.9996), Lower: sample.Known(1), Upper: sample.Known(2), State: household.StateLow}
	const want = "calcium : phosphorus 0.9996 LOW (1 to 2)"
	card, err := NewCard(sample.Pair(t, p, base))
	if err != nil || len(card.Banner) != 1 || card.Banner[0] != want || card.Ratios[0] != want {
		t.Errorf("the card says %q and %q (%v)", card.Banner, card.Ratios, err)
	}
	v, err := NewVet(sample.Pair(t, p, base))
	if err != nil || len(v.Banner) != 1 || v.Banner[0] != want {
		t.Errorf("the veterinarian's page says %q (%v)", v.Banner, err)
	}
	p.Pet.Ratios = nil
	c, err := NewCard(sample.Pair(t, p, base))
	if err != nil || len(c.Banner) == 0 {
		t.Errorf("a short plan without a reason has no banner (%v)", err)
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
	if got := strings.Join(Words("of which 5,78 g go into 1 meal, 2 tbsp at 4 °C"), "|"); Unbound(got) != "of|which|5,78 g|go|into|1|meal,|2 tbsp|at|4 °C" {
		t.Errorf("broken at %q", Unbound(got))
	}
	for x, want := range map[float64]string{31.55: "31.55", 0.312: "0.312", 4.325: "4.325", 12: "12", 24.494: "24.49"} {
		if got := kilos(x); got != want {
			t.Errorf("%v kg are written %q, want %q", x, got, want)
		}
	}
	for x, want := range map[float64]string{5.78: "5.78 g", 1118: "1118 g", 0.1 * 3: "0.3 g", 13.370000000000001: "13.37 g", 100: "100 g"} {
		if got := Grams(x); got != want {
			t.Errorf("grams(%v) = %q, want %q", x, got, want)
		}
	}
}

func TestPlaceKeepsOrder(t *testing.T) {
	low, high := sample.Known(10), sample.Known(40)
	for _, c := range []struct {
		x            float64
		lower, upper *float64
		from, to     float64
	}{
		{5, low, high, 0.16, 0.17}, {10, low, high, LowerAt, LowerAt}, {20, low, high, 0.49, 0.51}, {40, low, high, UpperAt, UpperAt},
		{50, low, high, 0.7, 0.99}, {1e9, low, high, 1, 1}, {1e9, low, nil, 1, 1}, {100, low, nil, UpperAt, UpperAt}, {9.999, low, nil, 0, LowerAt}, {0, nil, high, 0, 0}, {4, nil, high, LowerAt, LowerAt},
		{41, nil, high, UpperAt, 1}, {3, sample.Known(3), sample.Known(3), LowerAt, UpperAt},
	} {
		if got := place(c.x, c.lower, c.upper); math.IsNaN(got) || got < c.from-1e-9 || got > c.to+1e-9 {
			t.Errorf("place(%g) = %g, want %g to %g", c.x, got, c.from, c.to)
		}
	}
}

func TestUnknownLooksUnknown(t *testing.T) {
	base := sample.Base(t)
	c, err := NewCard(sample.Pair(t, sample.Plan("Marlow", base), base))
	if err != nil {
		t.Fatal(err)
	}
	k, iodine := c.Bars[2], c.Bars[1]
	if k.Amount != "unknown" || k.State != "UNKNOWN" || k.Inside || !k.NothingKnown {
		t.Errorf("vitamin K without a figure: %+v", k)
	}
	if iodine.Amount != "413 µg" || iodine.Coverage != "41%" || !strings.Contains(iodine.State, "not fully checked") || iodine.Unknown < 0.58 {
		t.Errorf("iodine known in part: %+v", iodine)
	}
}
