package nutrients

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// lookedUp are the cells of verified-2026-11.csv: figures of the tables that were
// looked up again, by standard, species, stage, nutrient and bound.
func lookedUp(t *testing.T) map[string]map[string]string {
	t.Helper()
	cells := map[string]map[string]string{}
	for _, r := range reference(t, "verified-2026-11.csv") {
		key := strings.Join([]string{r["standard"], r["species"], r["stage"], r["nutrient"], r["bound"]}, " ")
		if old, ok := cells[key]; !ok || old["verdict"] == "agrees" {
			cells[key] = r
		}
	}
	return cells
}

// nowRead says whether a recalled cell was since read as a printed figure of the
// edition, not derived from another one and not of an older edition.
func nowRead(cell map[string]string) bool {
	return cell["verdict"] == "agrees" && cell["mark_in_product"] == "recalled" &&
		!strings.Contains(cell["note"], "edition before") && !strings.Contains(cell["note"], "derived")
}

// besideTheTable are the kinds of rows that the reference tables do not have.
var besideTheTable = []Bound{NoHarm, Harm, Home, Rise}

// TestStandardsAgainstReference compares every figure of the three tables with
// the reference tables, cell by cell and both ways, with the recalled mark. What was
// looked up since may differ, as far as that list says.
func TestStandardsAgainstReference(t *testing.T) {
	again := lookedUp(t)
	for _, std := range Standards() {
		t.Run(string(std), func(t *testing.T) {
			want := map[string]string{}
			order := map[string]int{}
			for _, r := range reference(t, string(std)+".csv") {
				value, err := strconv.ParseFloat(r["value"], 64)
				if err != nil {
					t.Fatal(err)
				}
				bound, recalled := r["bound"], r["checked"] == "memory"
				cell := again[strings.Join([]string{string(std), r["species"], r["stage"], r["nutrient"], bound}, " ")]
				if nowRead(cell) && r["basis"] == string(Per1000kcal) {
					recalled = false
				}
				if strings.Contains(r["source"], "printed as '>'") {
					bound = string(NoHarm)
				}
				if folate := r["species"] == "cat" && r["stage"] == "adult" && r["nutrient"] == "folate" && std == NRC2006; folate && bound == "ai" {
					bound = "mr" // FEDIAF takes NRC's allowance where NRC has no adequate intake, and it takes this one's
				}
				key := strings.Join([]string{r["species"], r["stage"], r["nutrient"], r["basis"], bound}, " ")
				order[key]++
				want[fmt.Sprintf("%s #%d", key, order[key])] = fmt.Sprintf("%g %s recalled=%v", value, r["unit"], recalled)
			}
			seen := map[string]int{}
			for _, r := range Rows(std) {
				key := strings.Join([]string{string(r.Species), r.Stage, r.Nutrient, string(r.Basis), string(r.Bound)}, " ")
				seen[key]++
				key = fmt.Sprintf("%s #%d", key, seen[key])
				if r.Source.Text == "" {
					t.Errorf("%s has no source", key)
				}
				if _, ok := want[key]; !ok && slices.Contains(besideTheTable, r.Bound) {
					continue
				}
				if cell := again[strings.Join([]string{string(std), string(r.Species), r.Stage, r.Nutrient, string(r.Bound)}, " ")]; cell["verdict"] == "differs" {
					found, err := strconv.ParseFloat(cell["value_found"], 64)
					if _, ok := want[key]; !ok && err == nil && math.Abs(r.Value-found) < 0.006 && !r.Source.Recalled {
						continue
					}
				}
				got := fmt.Sprintf("%g %s recalled=%v", r.Value, r.Unit, r.Source.Recalled)
				if want[key] != got {
					t.Errorf("%s: table has %s, reference has %s", key, got, want[key])
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
			// Where sources disagree there is a second row.
			found = found || r.Species == p.species && r.Stage == p.stage && r.Nutrient == p.nutrient && r.Bound == p.bound && r.Basis == Per1000kcal &&
				r.Value == p.value && r.Unit == p.unit && !r.Source.Recalled
		}
		if !found {
			t.Errorf("no row for %s %s %s %s with %g %s that was read", p.species, p.stage, p.nutrient, p.bound, p.value, p.unit)
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
	near(t, "vitamin A upper", *l[Retinol].Upper, 16000*70*metabolic/1000)
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
					for _, q := range Rows(NRC2006) { // of two sources the careful one
						if q.Species == Dog && q.Stage == "adult" && q.Nutrient == r.Nutrient && q.Bound == RA && q.Basis == Per1000kcal {
							other, _ := Convert(q.Value, q.Unit, id)
							v = max(v, other)
						}
					}
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
				if a.AgeWeeks < 0 && sp == Cat && std == FEDIAF2021 {
					continue // it reckons the energy of kittens by age
				}
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
