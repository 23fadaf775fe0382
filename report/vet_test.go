package report

import (
	"slices"
	"strings"
	"testing"
	"time"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/report/internal/sample"
)

// The bases are worked out by hand: 1804.2 mg in 1312 kcal of a dog of 31.5 kg,
// whose metabolic weight is 31.5^0.75 = 13.2964 kg.
func TestVetBases(t *testing.T) {
	base := sample.Base(t)
	v, err := NewVet(sample.Pair(t, sample.Plan("Marlow", base), base))
	if err != nil {
		t.Fatal(err)
	}
	calcium, k := v.Rows[0], v.Rows[2]
	if calcium.Day != "1804" || calcium.Per1000 != "1375" || calcium.PerMetabolic != "136" || calcium.Lower != "1801" || calcium.Upper != "–" {
		t.Errorf("calcium: %+v", calcium)
	}
	if k.Day != "unknown" || k.Per1000 != "–" || k.PerMetabolic != "–" || k.PerDry != "–" || k.Known != "0 %" {
		t.Errorf("vitamin K without a figure: %+v", k)
	}
	if chloride := v.Rows[3]; !strings.HasSuffix(chloride.Source, "†") || chloride.State != "met*" {
		t.Errorf("chloride, recalled and known in part: %+v", chloride)
	}
	if len(v.Sources) != 1 || v.Sources[0] != "NRC 2006" {
		t.Errorf("sources: %q", v.Sources)
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

// TestVetSaysWater: what is unknown or not recorded is never nothing.
func TestVetSaysWater(t *testing.T) {
	for want, m := range map[string]*household.Makeup{
		"water in the food about 150 g a day, 75 % of it":                 {WeightG: 200, WaterG: sample.Known(150)},
		"water in the food unknown, because too much of it has no figure": {WeightG: 200},
		"water in the food not recorded":                                  nil,
	} {
		if got := waterText(m); got != want {
			t.Errorf("%q, want %q", got, want)
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
