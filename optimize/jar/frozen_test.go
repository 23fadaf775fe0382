package jar

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// frozen reads the programs of the example household as they were in November 2026:
// Marlow, Tansy, Pip, Juno, in grams and the nutrients' own units.
func frozen(t testing.TB) []Pet {
	t.Helper()
	text, err := os.ReadFile("testdata/november-2026.json")
	if err != nil {
		t.Fatal(err)
	}
	var kept []struct {
		Name          string
		Missed, Least float64
		Items         []struct {
			ID     string
			Cap    float64
			Powder bool
		}
		Rows []struct {
			Lower, Upper *float64
			Size         float64
			Elastic      bool
			A            []float64
		}
	}
	if err := json.Unmarshal(text, &kept); err != nil {
		t.Fatal(err)
	}
	var pets []Pet
	for _, k := range kept {
		p := Pet{Name: k.Name, Missed: k.Missed, Least: k.Least}
		for _, x := range k.Items {
			p.Items = append(p.Items, Item{ID: x.ID, Powder: x.Powder, Cap: x.Cap})
		}
		for _, r := range k.Rows {
			out := Row{A: r.A, Lower: math.Inf(-1), Upper: math.Inf(1), Size: r.Size, Elastic: r.Elastic}
			if r.Lower != nil {
				out.Lower = *r.Lower
			}
			if r.Upper != nil {
				out.Upper = *r.Upper
			}
			p.Rows = append(p.Rows, out)
		}
		pets = append(pets, p)
	}
	return pets
}

// The totals were computed with scipy's HiGHS by another program, from six starts each.
func TestExampleOfNovember2026(t *testing.T) {
	pets := frozen(t)
	for _, c := range []struct {
		name  string
		pets  []Pet
		rules Rules
		want  float64
	}{
		{"one jar", pets, Rules{}, 107.66},
		{"three adults", pets[:3], Rules{}, 67.72},
		{"one rate", pets, Rules{OneRate: true}, 116.77},
		{"dicalcium phosphate apart for Juno", pets, Rules{Apart: map[int][]string{3: {"dicalcium-phosphate-dihydrate"}}}, 100.4},
	} {
		m, err := Compose(c.pets, c.rules)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := m.Total(); math.Abs(got-c.want) > 0.03 {
			t.Errorf("%s: %.3f g, want %.2f", c.name, got, c.want)
		}
	}
}

func TestExampleOfNovember2026IsBounded(t *testing.T) {
	m, err := Compose(frozen(t), Rules{})
	if err != nil {
		t.Fatal(err)
	}
	if own := m.Bound(0); math.Abs(own-95.56) > 0.01 {
		t.Errorf("the pets alone need %.3f g, want 95.56", own)
	}
	if got := m.Bound(500); got < 106.5 || got > m.Total() {
		t.Errorf("bound %.3f g, want 106.5 to %.3f", got, m.Total())
	}
}

func TestExampleOfNovember2026InTwoJars(t *testing.T) {
	all, err := Merge(frozen(t), Rules{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{95.56, 96.12, 97.70, 107.66} {
		if got := Total(all[i]); math.Abs(got-want) > 0.03 {
			t.Errorf("%d jars: %.3f g, want %.2f", len(all[i]), got, want)
		}
	}
}

func TestExampleOfNovember2026InWholeSteps(t *testing.T) {
	m, err := Compose(frozen(t), Rules{})
	if err != nil {
		t.Fatal(err)
	}
	for _, step := range []float64{0.01, 0.1} {
		r, err := m.Recipe(step, 780, 0.001)
		if err != nil {
			t.Errorf("%g g: %v", step, err)
			continue
		}
		if got := r.Mix.Total(); got > 115 {
			t.Errorf("%g g: %.2f g, want at most 115", step, got)
		}
		sum := 0.0
		for k, n := range r.Steps {
			if n != 0 && n < StepsToWeigh {
				t.Errorf("%g g: %d steps of %s are too few to weigh", step, n, r.Mix.Parts[k])
			}
			sum += float64(n) * step
		}
		if math.Abs(sum-r.MakesG) > 1e-9 || math.Abs(sum-780) > 78 {
			t.Errorf("%g g: makes %.2f g, its parts %.2f", step, r.MakesG, sum)
		}
	}
	if _, err := m.Recipe(5, 780, 0); err != ErrTooFine {
		t.Errorf("a scale of 5 g: %v", err)
	}
}
