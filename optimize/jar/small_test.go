package jar

import (
	"errors"
	"math"
	"slices"
	"testing"

	"bowlwright/optimize/lp"
)

// Two pets, two powders: a gram of x is one of X, a gram of y one of Y, and a gram of
// base is one of energy. All answers here are worked out by hand.

var none = math.Inf(1)

// small is a pet that needs energy, and x and y within limits.
func small(name string, energy, x, mostX, y, mostY float64) Pet {
	p := Pet{Name: name, Least: x + y, Items: []Item{{ID: "base", Cap: 2 * energy}, {ID: "x", Powder: true, Cap: 100}, {ID: "y", Powder: true, Cap: 100}}}
	row := func(of int, lower, upper, size float64, elastic bool) {
		a := make([]float64, 3)
		a[of] = 1
		p.Rows = append(p.Rows, Row{A: a, Lower: lower, Upper: upper, Size: size, Elastic: elastic})
	}
	row(0, energy, energy, energy, false)
	row(1, x, none, x, true)
	row(2, y, none, y, true)
	row(1, -none, mostX, mostX, false)
	row(2, -none, mostY, mostY, false)
	return p
}

func compose(t *testing.T, pets []Pet, rules Rules) *Mix {
	t.Helper()
	m, err := Compose(pets, rules)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-3 {
		t.Errorf("%s: %.5f, want %.5f", what, got, want)
	}
}

// With a share w of x, A takes max(2/w, 1/(1-w)) and B max(1/w, 2/(1-w)): least at a half.
func TestHalfOfEach(t *testing.T) {
	m := compose(t, []Pet{small("A", 10, 2, 50, 1, 50), small("B", 20, 1, 50, 2, 50)}, Rules{})
	near(t, "total", m.Total(), 8)
	near(t, "share of x", m.Shares[slices.Index(m.Parts, "x")], 0.5)
	near(t, "dose of A", m.Dose[0], 4)
	near(t, "base of B", m.Day[1][0], 20)
	near(t, "the pets alone", m.Bound(0), 6)
	if b := m.Bound(50); b > 8+1e-6 || b < 0.99*8-1e-6 {
		t.Errorf("bound %.4f, want 7.92 to 8", b)
	}
}

// At r grams of jar to a gram of base A's 10 g give 10 r, B's 20 r: r >= 0.2/w and
// r >= 0.1/(1-w), so w is two thirds and r 0.3.
func TestOneRate(t *testing.T) {
	m := compose(t, []Pet{small("A", 10, 2, 50, 1, 50), small("B", 20, 1, 50, 2, 50)}, Rules{OneRate: true})
	near(t, "total", m.Total(), 9)
	near(t, "dose of A", m.Dose[0], 3)
	near(t, "dose of B", m.Dose[1], 6)
}

// Nobody may have more than needed: A's powder is two thirds x, B's one third.
func TestNoJarServesBoth(t *testing.T) {
	pets := []Pet{small("A", 10, 2, 2, 1, 1), small("B", 20, 1, 1, 2, 2), small("C", 5, 1, 50, 1, 50)}
	_, err := Compose(pets, Rules{})
	var none *ConflictError
	if !errors.As(err, &none) {
		t.Fatalf("got %v", err)
	}
	if !slices.Equal(none.Pets, []string{"A", "B"}) {
		t.Errorf("in conflict: %v, want A and B", none.Pets)
	}
	if !lp.Proves(&none.Problem, none.Farkas) {
		t.Error("the proof does not hold")
	}
	// B's jar, and x apart for A: 1.5 g of jar bring A its y and 0.5 of x.
	m := compose(t, pets[:2], Rules{Apart: map[int][]string{0: {"x"}}})
	near(t, "with x apart", m.Total(), 6)
	m, err = Apart(pets[:2], Rules{}, none)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "with what is best apart", m.Total(), 6)
	all, err := Merge(pets, Rules{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	if last := all[len(all)-1]; len(last) != 2 {
		t.Errorf("%d jars, want 2", len(last))
	}
}

// A short pet lacks half of X, of which there is none in reach: 1 of a cap of 1.
func TestWhoIsShortMissesNoMore(t *testing.T) {
	a := small("A", 10, 2, 50, 1, 50)
	a.Items[1].Cap, a.Missed, a.Least = 1, 0.5, 2
	pets := []Pet{a, small("B", 20, 1, 50, 1, 50)}
	m := compose(t, pets, Rules{})
	if got := pets[0].MissedBy(m.whole(0)); got > 0.5+missSliver+1e-6 {
		t.Errorf("A misses %.4f of its limits, alone 0.5", got)
	}
	if got := pets[1].MissedBy(m.whole(1)); got > 1e-6 {
		t.Errorf("B misses %.6f, alone nothing", got)
	}
	// The jar's x may not go over the cap of what A may have of it.
	if x := m.whole(0)[1]; x > 1+1e-6 {
		t.Errorf("A gets %.4f g of x, its cap is 1", x)
	}
}

func TestMarginAndDoseError(t *testing.T) {
	pets := []Pet{small("A", 10, 2, 50, 1, 50), small("B", 20, 1, 50, 2, 50)}
	near(t, "a tenth more", compose(t, pets, Rules{Margin: 0.1}).Total(), 8.8)
	near(t, "a dose a fifth short", compose(t, pets, Rules{DoseError: 0.2}).Total(), 10)
}

func TestNothingInCommon(t *testing.T) {
	pets := []Pet{small("A", 10, 2, 50, 1, 50), small("B", 20, 1, 50, 2, 50)}
	pets[0].Items[1].Powder, pets[1].Items[2].Powder = false, false
	var none *ConflictError
	if _, err := Compose(pets, Rules{}); !errors.As(err, &none) {
		t.Errorf("got %v", err)
	}
}

// A third and two thirds are no whole steps of a tenth; 3 and 6 steps are too few.
func TestRecipeInWholeSteps(t *testing.T) {
	m := compose(t, []Pet{small("A", 10, 1, 50, 2, 50)}, Rules{})
	r, err := m.Recipe(0.1, 10, 0)
	if err != nil {
		t.Fatal(err)
	}
	if r.Steps[0] < StepsToWeigh || r.Steps[1] < StepsToWeigh {
		t.Errorf("steps %v", r.Steps)
	}
	if got := r.Mix.Total(); got < 3-1e-9 || got > 3.1 {
		t.Errorf("%.3f g, want a little over 3", got)
	}
	if _, err := m.Recipe(1, 10, 0); err != ErrTooFine {
		t.Errorf("10 g in steps of 1 g: %v", err)
	}
}

// Scoops of 1.5 g: two are 3 g, and no share gives A two of x and one of y out of them with a
// twentieth to spare; three are 4.5 g, of which half each does for both.
func TestWholeScoops(t *testing.T) {
	pets := []Pet{small("A", 10, 2, 50, 1, 50), small("B", 20, 1, 50, 2, 50)}
	m, err := Scooped(pets, Rules{}, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	for k, d := range m.Dose {
		if n := d / 1.5; math.Abs(n-math.Round(n)) > 1e-6 {
			t.Errorf("%s gets %.4f scoops", pets[k].Name, n)
		}
	}
	near(t, "total", m.Total(), 9)
	for _, scale := range []float64{0.95, 1.05} {
		for k, p := range pets {
			day := m.whole(k)
			for j := 1; j < len(day); j++ {
				day[j] *= scale
			}
			if p.MissedBy(day) > 1e-6 {
				t.Errorf("%s misses %.4f with scoops that are %+.0f %% off", p.Name, p.MissedBy(day), 100*(scale-1))
			}
		}
	}
	// With a scoop of 120 g one of the two powders is over its limit.
	if _, err := Scooped(pets, Rules{}, 120); !isNone(err) {
		t.Errorf("scoops of 120 g: %v", err)
	}
}
