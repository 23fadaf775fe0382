package report

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/report/internal/sample"
)

// The bases are worked out by hand: 1804.2 mg in 1312 kcal, a minimum of 1801 mg for the
// reference energy of 1729 kcal, a maximum of 1310 µg for 1310 kcal eaten; 261 g of dry
// matter.
func TestVetBases(t *testing.T) {
	base := sample.Base(t)
	v, err := NewVet(sample.Pair(t, sample.Plan("Marlow", base), base), Setting{})
	if err != nil {
		t.Fatal(err)
	}
	calcium, iodine, k := v.Rows[0], v.Rows[1], v.Rows[2]
	if calcium.Day != "1804" || calcium.Per1000 != "1375" || calcium.Minimum != "1801" || calcium.Minimum1000 != "1042" || calcium.Maximum != "–" || calcium.PerDry != "691" {
		t.Errorf("calcium: %+v", calcium)
	}
	if iodine.Maximum1000 != "1000" {
		t.Errorf("iodine: %+v", iodine)
	}
	if k.Day != "unknown" || k.Per1000 != "–" || k.PerDry != "–" || k.Known != "0 %" {
		t.Errorf("vitamin K without a figure: %+v", k)
	}
	if chloride := v.Rows[3]; !strings.HasSuffix(chloride.Source, "†") || chloride.State != "met*" {
		t.Errorf("chloride, recalled and known in part: %+v", chloride)
	}
	if len(v.Sources) != 1 || v.Sources[0] != "NRC 2006" {
		t.Errorf("sources: %q", v.Sources)
	}
}

// TestVetEnergy: worked out by hand. 70 × 31.5^0.75 = 930.7 kcal; 1312 kcal are 1.41 times
// as much, and 152 kcal in 100 g of 861 g.
func TestVetEnergy(t *testing.T) {
	base := sample.Base(t)
	p := sample.Plan("Marlow", base)
	p.Pet.Makeup.ProteinKcal, p.Pet.Makeup.FatKcal, p.Pet.Makeup.CarbohydrateKcal, p.Pet.Makeup.FibreG = sample.Known(300), sample.Known(600), sample.Known(300), sample.Known(26.1)
	v, err := NewVet(sample.Pair(t, p, base), Setting{})
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, f := range append(v.Energy, v.Composition...) {
		got[f.Name] = f.Figure
	}
	for name, want := range map[string]string{"Resting energy, 70 × 31.5^0.75": "931 kcal a day", "Factor (planned / resting)": "1.41", "Ration as fed, 861 g a day": "152 kcal per 100 g",
		"Moisture": "70 % (600 g a day)", "Total dietary fibre": "26.1 g a day, 10 % of dry matter", "Calcium : phosphorus": "1.28 (1 to 2)"} {
		if got[name] != want {
			t.Errorf("%s: %q, want %q", name, got[name], want)
		}
	}
	if len(v.Split) != 3 || v.Split[1] != (Share{"fat 50 %", 0.5}) {
		t.Errorf("%+v", v.Split)
	}
	p.Pet.Makeup = nil
	if v, err = NewVet(sample.Pair(t, p, base), Setting{}); err != nil || len(v.Split) > 0 || !strings.Contains(v.SplitNote, "not recorded") {
		t.Errorf("without a makeup: %q %+v (%v)", v.SplitNote, v.Split, err)
	}
}

// TestWeightChart: a loss of 1 % a week from 8.4 to 7 kg takes 18 weeks; one of a half is
// not there after 26.
func TestWeightChart(t *testing.T) {
	day := household.NewDate(2026, 11, 25)
	c := NewWeightChart(&household.PetPlan{Losing: true, WeightKg: 8.4, IdealWeightKg: 7}, nil, day)
	if c == nil || c.Goal < c.Start.Y || math.Abs(c.Middle.X-18.1/26) > 0.01 || math.Abs(c.Middle.Y-c.Goal) > 1e-9 || c.Slow.X != 1 || c.Slow.Y >= c.Goal || c.Fast.X >= c.Middle.X {
		t.Errorf("%+v, fast %+v, middle %+v, slow %+v", c, c.Fast, c.Middle, c.Slow)
	}
	if NewWeightChart(&household.PetPlan{WeightKg: 8}, nil, day) != nil {
		t.Error("a chart of nothing")
	}
}

// The foods of a note are put together where the same is noted of them.
func TestSameNotes(t *testing.T) {
	got := sameNotes([]string{"kale-raw: boiled", "beef: simmered", "carrot-raw: boiled", "all of it"})
	if want := []string{"kale-raw, carrot-raw: boiled", "beef: simmered", "all of it"}; !slices.Equal(got, want) {
		t.Errorf("notes: %q", got)
	}
}

// TestDryMatterOfAPot: a pot that came out lighter holds the same food, so the day holds
// the same dry matter and less water.
func TestDryMatterOfAPot(t *testing.T) {
	base := sample.Base(t)
	plan := sample.Plan("Marlow", base)
	plan.Pet.Makeup = &household.Makeup{WeightG: 861, DryMatterG: sample.Known(261), WaterG: sample.Known(600)}
	before := sample.Pair(t, plan, base)
	snapshot := base.Snapshot()
	pot := &household.Cooking{Base: snapshot, RawG: snapshot.RawG, ExpectedG: snapshot.CookedG, CookedG: 0.8 * snapshot.CookedG}
	after, err := pot.ForPot(before)
	if err != nil {
		t.Fatal(err)
	}
	lighter, m := after.Plan().Pet.BaseG-plan.Pet.BaseG, after.Plan().Pet.Makeup
	if lighter >= 0 || *m.DryMatterG != 261 || *m.WaterG != 600+lighter || m.WeightG != 861+lighter || *plan.Pet.Makeup.WaterG != 600 {
		t.Errorf("lighter by %g g: %+v", lighter, m)
	}
}

func TestAge(t *testing.T) {
	day := household.NewDate(2026, time.November, 25)
	for _, c := range []struct {
		born household.Date
		want string
	}{
		{household.Date{}, "age not given"},
		{household.NewDate(2026, 7, 15), "born Wed 15 Jul 2026, 19 weeks old"},
		{household.NewDate(2026, 5, 20), "born Wed 20 May 2026, 6 months old"},
		{household.NewDate(2024, 11, 26), "born Tue 26 Nov 2024, 23 months old"},
		{household.NewDate(2024, 11, 25), "born Mon 25 Nov 2024, 2 years old"},
		{household.NewDate(2014, 12, 2), "born Tue 2 Dec 2014, 11 years old"},
		{day, "born Wed 25 Nov 2026, 0 weeks old"},
	} {
		if got := ageText(c.born, day); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestStagesAreSaidOfTheAnimal(t *testing.T) {
	for stage, want := range map[nutrients.Stage]string{nutrients.Adult: "cat, adult, ", nutrients.Growth: "cat, growing, ", nutrients.Gestation: "cat, pregnant, ", nutrients.Lactation: "cat, nursing, "} {
		if got := About(&household.PetPlan{Species: nutrients.Cat, Stage: stage, WeightKg: 4}, household.Date{}); !strings.HasPrefix(got, want) {
			t.Errorf("%s: %q", stage, got)
		}
	}
}
