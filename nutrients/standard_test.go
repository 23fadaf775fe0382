package nutrients

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
)

// TestStandardsAgainstReference compares every figure of the three tables with
// the reference tables, cell by cell and both ways, with the recalled mark.
func TestStandardsAgainstReference(t *testing.T) {
	for _, std := range Standards() {
		t.Run(string(std), func(t *testing.T) {
			want := map[string]string{}
			order := map[string]int{}
			for _, r := range reference(t, string(std)+".csv") {
				value, err := strconv.ParseFloat(r["value"], 64)
				if err != nil {
					t.Fatal(err)
				}
				key := strings.Join([]string{r["species"], r["stage"], r["nutrient"], r["basis"], r["bound"]}, " ")
				order[key]++
				want[fmt.Sprintf("%s #%d", key, order[key])] = fmt.Sprintf("%g %s recalled=%v", value, r["unit"], r["checked"] == "memory")
			}
			seen := map[string]int{}
			for _, r := range Rows(std) {
				key := strings.Join([]string{string(r.Species), r.Stage, r.Nutrient, string(r.Basis), string(r.Bound)}, " ")
				seen[key]++
				key = fmt.Sprintf("%s #%d", key, seen[key])
				got := fmt.Sprintf("%g %s recalled=%v", r.Value, r.Unit, r.Source.Recalled)
				if want[key] != got {
					t.Errorf("%s: table has %s, reference has %s", key, got, want[key])
				}
				if r.Source.Text == "" {
					t.Errorf("%s has no source", key)
				}
				delete(want, key)
			}
			for key, missing := range want {
				t.Errorf("%s: reference has %s, the table has nothing", key, missing)
			}
		})
	}
}

// TestPrintedFigures pins figures that were read in restatements of the standard,
// for machines without the reference tables. Source of each: NRC 2006 tables 15-5
// and 15-12 as restated on the pages named in the data.
func TestPrintedFigures(t *testing.T) {
	pinned := []struct {
		species         Species
		stage, nutrient string
		bound           Bound
		value           float64
		unit            string
	}{
		{Dog, "adult", "protein", RA, 25, "g"},      // table 15-5
		{Dog, "adult", "calcium", RA, 1, "g"},       // table 15-5
		{Dog, "adult", "iodine", RA, 220, "ug"},     // table 15-5
		{Dog, "adult", "zinc", RA, 15, "mg"},        // table 15-5
		{Dog, "growth", "calcium", RA, 3, "g"},      // table 15-3
		{Dog, "growth", "phosphorus", RA, 2.5, "g"}, // table 15-3
		{Cat, "adult", "protein", RA, 50, "g"},      // table 15-12
		{Cat, "adult", "taurine", MR, 0.08, "g"},    // table 15-12
		{Cat, "adult", "iron", RA, 20, "mg"},        // table 15-12
	}
	for _, p := range pinned {
		found := false
		for _, r := range Rows(NRC2006) {
			if r.Species == p.species && r.Stage == p.stage && r.Nutrient == p.nutrient && r.Bound == p.bound && r.Basis == Per1000kcal {
				found = true
				if r.Value != p.value || r.Unit != p.unit || r.Source.Recalled {
					t.Errorf("%s %s %s: %g %s recalled=%v, want %g %s", p.species, p.stage, p.nutrient, r.Value, r.Unit, r.Source.Recalled, p.value, p.unit)
				}
			}
		}
		if !found {
			t.Errorf("no row for %s %s %s %s", p.species, p.stage, p.nutrient, p.bound)
		}
	}
}

// limits works out the targets and indexes them.
func limits(t *testing.T, a Animal) map[ID]Limit {
	t.Helper()
	targets, err := TargetsFor(a)
	if err != nil {
		t.Fatal(err)
	}
	m := map[ID]Limit{}
	for _, l := range targets.Limits {
		m[l.Nutrient] = l
	}
	return m
}

// TestLowerLimitsDoNotShrink: an overweight dog eats little, but needs what its
// ideal body needs. Figures: NRC adult dog calcium 1 g, protein 25 g per 1000
// kcal and 3.28 g per kg^0.75; reference 130 kcal per kg^0.75.
func TestLowerLimitsDoNotShrink(t *testing.T) {
	fat := Animal{Species: Dog, Stage: Adult, WeightKg: 8.4, Condition: 7, Activity: Low}
	l := limits(t, fat)
	ideal := 8.4 / 1.2
	metabolic := MetabolicKg(Dog, ideal)
	near(t, "calcium lower", *l[Calcium].Lower, max(1000*130*metabolic/1000, 130*metabolic))
	near(t, "protein lower", *l[Protein].Lower, 3.28*metabolic)
	near(t, "vitamin A upper", *l[VitaminA].Upper, 16000*70*metabolic/1000)
	if *l[Calcium].Aim <= *l[Calcium].Lower {
		t.Error("the aim is not above the lower limit")
	}
}

// TestMoreEnergyNeverRaisesDensityLimits: with more energy than the reference the
// lower limit per kcal stays what the standard prints.
func TestMoreEnergyNeverRaisesDensityLimits(t *testing.T) {
	for kcal := 300.0; kcal < 4000; kcal += 37 {
		a := Animal{Species: Dog, Stage: Adult, WeightKg: 20, Condition: 5, Activity: Moderate, EnergyKcal: kcal}
		for id, l := range limits(t, a) {
			if l.Lower == nil || kcal < 130*MetabolicKg(Dog, 20) {
				continue
			}
			for _, r := range Rows(NRC2006) {
				if r.Species == Dog && r.Stage == "adult" && r.Nutrient == id.String() && r.Bound == RA && r.Basis == Per1000kcal {
					v, _ := Convert(r.Value, r.Unit, id)
					perKg := 0.0
					for _, q := range Rows(NRC2006) {
						if q.Species == Dog && q.Stage == "adult" && q.Nutrient == id.String() && q.Bound == RA && q.Basis == PerKgMetabolic {
							perKg, _ = Convert(q.Value, q.Unit, id)
						}
					}
					want := max(v*kcal/1000, perKg*MetabolicKg(Dog, 20))
					near(t, fmt.Sprintf("%s at %.0f kcal", id, kcal), *l.Lower, want)
				}
			}
		}
	}
}

func TestEveryStageOfEveryStandardHasLimits(t *testing.T) {
	for _, std := range Standards() {
		for _, sp := range []Species{Dog, Cat} {
			for _, a := range []Animal{
				{Stage: Adult, Activity: Moderate},
				{Stage: Growth, AdultKg: 5, AgeWeeks: 12}, {Stage: Growth, AdultKg: 5, AgeWeeks: 20}, {Stage: Growth, AdultKg: 5, AgeWeeks: -1},
				{Stage: Gestation, Week: 6}, {Stage: Lactation, Week: 3, Litter: 4},
			} {
				a.Species, a.Standard, a.WeightKg = sp, std, 3.5
				l := limits(t, a)
				if len(l) < 35 {
					t.Errorf("%s %s %s: only %d limits", std, sp, a.Stage, len(l))
				}
				for id, x := range l {
					if x.Lower == nil && x.Upper == nil {
						t.Errorf("%s %s %s %s: neither lower nor upper", std, sp, a.Stage, id)
					}
					if x.Lower != nil && x.Upper != nil && *x.Lower > *x.Upper {
						t.Errorf("%s %s %s %s: lower %g above upper %g", std, sp, a.Stage, id, *x.Lower, *x.Upper)
					}
					if len(x.Steps) == 0 {
						t.Errorf("%s: no arithmetic", id)
					}
				}
			}
		}
	}
}

// near fails when two figures differ by more than rounding of doubles.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if diff := got - want; diff > 1e-9*want || diff < -1e-9*want {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

func TestStandardTitles(t *testing.T) {
	for id, want := range map[StandardID]string{NRC2006: "NRC 2006", FEDIAF2021: "FEDIAF 2021", AAFCO2016: "AAFCO 2016", "": ""} {
		if got := id.Title(); got != want {
			t.Errorf("%s is called %q", id, got)
		}
	}
}
