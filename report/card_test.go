package report

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

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
	const want = "calcium : phosphorus 0.9996, below minimum (1 to 2)"
	card, err := NewCard(sample.Pair(t, p, base), Setting{})
	if err != nil || len(card.Banner) != 1 || card.Banner[0] != want || card.Ratios[0] != want {
		t.Errorf("the card says %q and %q (%v)", card.Banner, card.Ratios, err)
	}
	v, err := NewVet(sample.Pair(t, p, base), Setting{})
	if err != nil || len(v.Banner) != 1 || v.Banner[0] != want {
		t.Errorf("the veterinarian's page says %q (%v)", v.Banner, err)
	}
	p.Pet.Ratios = nil
	c, err := NewCard(sample.Pair(t, p, base), Setting{})
	if err != nil || len(c.Banner) == 0 {
		t.Errorf("a short plan without a reason has no banner (%v)", err)
	}
}

// TestMealsAddUp: a row a meal, the first has the add-ons, equal ones of three and more
// stand together.
func TestMealsAddUp(t *testing.T) {
	for _, c := range []struct {
		base, step float64
		meals      int
		want       []Meal
	}{
		{813, 1, 2, []Meal{{"Morning", "407 g", 1, true}, {"Evening", "406 g", 1, false}}},
		{812, 1, 2, []Meal{{"Morning", "406 g", 1, true}, {"Evening", "406 g", 1, false}}},
		{0.5, 0.1, 3, []Meal{{"Meal 1", "0.2 g", 1, true}, {"Meal 2", "0.2 g", 1, false}, {"Meal 3", "0.1 g", 1, false}}},
		{513, 1, 3, []Meal{{"Meal 1", "171 g", 1, true}, {"Meals 2 and 3", "2 × 171 g", 2, false}}},
		{400, 1, 4, []Meal{{"Meal 1", "100 g", 1, true}, {"Meals 2 to 4", "3 × 100 g", 3, false}}},
		{200, 5, 1, []Meal{{"Meal", "200 g", 1, true}}},
	} {
		pet := &household.PetPlan{BaseG: c.base, Meals: c.meals, Scales: household.ScalesUsed{ScaleG: c.step}}
		if d := cmp.Diff(c.want, mealsOf(pet)); d != "" {
			t.Errorf("%g g in %d meals: %s", c.base, c.meals, d)
		}
	}
}

// TestAmountsAreAligned: equally many digits after the point, counts untouched.
func TestAmountsAreAligned(t *testing.T) {
	list := []Item{{Amount: "4 g"}, {Amount: "10.41 g"}, {Amount: "2 capsules"}, {Amount: "0.5 g"}}
	align(list)
	if list[0].Amount != "4.00 g" || list[1].Amount != "10.41 g" || list[2].Amount != "2 capsules" || list[3].Amount != "0.50 g" {
		t.Errorf("%v", list)
	}
	whole := []Item{{Amount: "24 g"}, {Amount: "7 g"}}
	align(whole)
	if whole[0].Amount != "24 g" || whole[1].Amount != "7 g" {
		t.Errorf("%v", whole)
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

// TestPlaceKeepsOrder: even up to the minimum, then a step for each doubling.
func TestPlaceKeepsOrder(t *testing.T) {
	for times, want := range map[float64]float64{-1: 0, 0: 0, 0.5: 0.2, 1: 0.4, 2: 0.52, 4: 0.64, 32: 1, 1e9: 1} {
		if got := place(times); math.Abs(got-want) > 1e-9 {
			t.Errorf("place(%g) = %g, want %g", times, got, want)
		}
	}
}

// TestBarOfParts: worked out by hand. The base brings half of the minimum, the add-ons
// the rest and as much again; half of the food has no figure.
func TestBarOfParts(t *testing.T) {
	n := household.NutrientLine{Name: "Zinc", Unit: "mg", Amount: sample.Known(20), Lower: sample.Known(10), Upper: sample.Known(40), Coverage: 0.5,
		State: household.StateMet, From: household.Contribution{Base: 4, Extras: 1, Addons: 15}}
	b := NewBar(n)
	if math.Abs(b.Base-0.2) > 1e-9 || math.Abs(b.Addons-0.52) > 1e-9 || math.Abs(b.Unknown-0.64) > 1e-9 || math.Abs(b.Maximum-0.64) > 1e-9 {
		t.Errorf("%+v", b)
	}
	n.Amount, n.State, n.From = sample.Known(9.01), household.StateLow, household.Contribution{Base: 9.01}
	if b := NewBar(n); b.State != "10 % below minimum" || b.Base >= MinimumAt {
		t.Errorf("%+v", b)
	}
	n.Amount, n.High, n.State = sample.Known(30), sample.Known(44), household.StateHigh
	if b := NewBar(n); b.State != "10 % above maximum" {
		t.Errorf("%+v", b)
	}
}

// TestVerdictCountsWhatWasChecked: a maximum with partial figures is never counted as
// kept.
func TestVerdictCountsWhatWasChecked(t *testing.T) {
	line := func(amount, upper float64, checked bool, s household.State) household.NutrientLine {
		return household.NutrientLine{Name: "Zinc", Amount: &amount, Lower: sample.Known(1), Upper: &upper, UpperChecked: checked, Coverage: 0.9, State: s}
	}
	free := household.NutrientLine{Name: "Iron", Amount: sample.Known(2), Lower: sample.Known(1), UpperChecked: true, Coverage: 1, State: household.StateMet}
	for want, lines := range map[string][]household.NutrientLine{
		"All 3 nutrients reach their minimum. The one fully checked maximum is not exceeded; 1 could not be fully checked.": {line(2, 4, true, household.StateMet), line(2, 4, false, household.StateMet), free},
		"All 2 nutrients reach their minimum. The one maximum is not exceeded.":                                             {line(2, 4, true, household.StateMet), free},
		"All 2 nutrients reach their minimum. The 1 maximum could not be fully checked.":                                    {line(2, 4, false, household.StateMet), free},
		"1 of 2 nutrients reach their minimum. Below minimum: zinc. The one maximum is not exceeded.":                       {line(0.5, 4, true, household.StateLow), free},
		"All 2 nutrients reach their minimum. Above maximum: zinc.":                                                         {line(5, 4, true, household.StateHigh), free},
	} {
		if got := verdict(&household.PetPlan{Nutrients: lines}); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestUnknownLooksUnknown(t *testing.T) {
	base := sample.Base(t)
	c, err := NewCard(sample.Pair(t, sample.Plan("Marlow", base), base), Setting{})
	if err != nil {
		t.Fatal(err)
	}
	k, iodine := c.Bars[2], c.Bars[1]
	if k.Amount != "unknown" || k.State != "unknown" || k.Inside || !k.NothingKnown {
		t.Errorf("vitamin K without a figure: %+v", k)
	}
	if iodine.Amount != "413 µg" || iodine.Coverage != "41 %" || !strings.Contains(iodine.State, "not fully checked") || iodine.Unknown <= iodine.Addons {
		t.Errorf("iodine known in part: %+v", iodine)
	}
}
