package household

import (
	"math"
	"slices"
	"testing"
	"time"

	"bowlwright/household/learn"
	"bowlwright/nutrients"
)

// marlow loads the household with more lines for its dog, and a weight log.
func marlow(t *testing.T, lines, log string) *Pet {
	t.Helper()
	files := map[string]string{"household.toml": goodHousehold + lines}
	if log != "" {
		files["weights.csv"] = log
	}
	return &mustLoad(t, folder(t, files)).Pets[0]
}

func adultPlan(day int, condition int, kg float64) PastPlan {
	return PastPlan{Date: testDay.AddDays(day), Species: nutrients.Dog, Stage: nutrients.Adult, Condition: condition, WeightKg: kg, Kcal: 1000}
}

// The goal by hand: condition 7 is 20 % over, so 36 kg are 30 kg.
func TestIdealWeightBelongsToItsScore(t *testing.T) {
	old, now := "date,pet,kg,note\n", WeightsHeader+"\n"
	for name, c := range map[string]struct {
		lines, log string
		past       []PastPlan // newest first
		ideal      float64
		on         Date
	}{
		"dated":                           {"condition = 7\ncondition_on = 2026-09-01\n", old + "2026-08-20,Marlow,36,\n2026-11-20,Marlow,33,\n", nil, 30, NewDate(2026, 9, 1)},
		"dated, weighed a week later":     {"condition = 7\ncondition_on = 2026-09-01\n", old + "2026-09-08,Marlow,36,\n2026-11-20,Marlow,33,\n", nil, 30, NewDate(2026, 9, 1)},
		"dated, never weighed":            {"condition = 7\ncondition_on = 2026-09-01\n", "", nil, 31.5 / 1.2, NewDate(2026, 9, 1)},
		"scored with a weighing":          {"condition = 5\n", now + "2026-09-01,Marlow,36,,7,\n2026-11-20,Marlow,33,,,\n", nil, 30, NewDate(2026, 9, 1)},
		"scored twice":                    {"", now + "2026-08-01,Marlow,40,,8,\n2026-09-01,Marlow,36,,7,\n2026-11-20,Marlow,33,,,\n", nil, 30, NewDate(2026, 9, 1)},
		"a line of the program in an old": {"", old + "2026-09-01,Marlow,36,after a walk, wet,7,\n2026-11-20,Marlow,33,\n", nil, 30, NewDate(2026, 9, 1)},
		"the file's score is later":       {"condition = 6\ncondition_on = 2026-10-01\n", now + "2026-09-01,Marlow,36,,7,\n2026-10-01,Marlow,33,,,\n", nil, 30, NewDate(2026, 10, 1)},
		"by the first plan of three":      {"condition = 7\n", old + "2026-11-20,Marlow,33,\n", []PastPlan{adultPlan(-5, 7, 34), adultPlan(-30, 7, 35), adultPlan(-60, 7, 36)}, 30, Date{}},
		"not by one with another score":   {"condition = 7\n", old + "2026-11-20,Marlow,33,\n", []PastPlan{adultPlan(-5, 7, 36), adultPlan(-30, 6, 40)}, 30, Date{}},
		"not by one of its youth":         {"condition = 7\n", old + "2026-11-20,Marlow,33,\n", []PastPlan{adultPlan(-5, 7, 36), {Date: testDay.AddDays(-90), Species: nutrients.Dog, Stage: nutrients.Growth, Condition: 7, WeightKg: 20}}, 30, Date{}},
		"as a record carries it":          {"condition = 7\n", old + "2026-11-20,Marlow,33,\n", []PastPlan{{Date: testDay, Species: nutrients.Dog, Stage: nutrients.Adult, Condition: 7, WeightKg: 34, ScoredKg: 36}}, 30, Date{}},
		"a new score without a plan":      {"condition = 7\n", old + "2026-11-20,Marlow,36,\n", []PastPlan{adultPlan(-5, 5, 34)}, 30, Date{}},
		"never scored":                    {"", old + "2026-11-20,Marlow,33,\n", []PastPlan{adultPlan(-5, 0, 31), adultPlan(-90, 0, 30)}, 30, Date{}},
		"given":                           {"condition = 7\nideal_weight = \"30 kg\"\n", old + "2026-11-20,Marlow,33,\n", []PastPlan{adultPlan(-5, 7, 36)}, 30, Date{}},
		"growing":                         {"condition = 7\nstage = \"growth\"\nadult_weight = \"50 kg\"\n", old + "2026-11-20,Marlow,30,\n", []PastPlan{adultPlan(-5, 7, 36)}, 30, Date{}},
		"a weighing of the future":        {"condition = 7\ncondition_on = 2026-09-01\n", old + "2026-08-20,Marlow,36,\n2027-08-20,Marlow,40,\n", nil, 30, NewDate(2026, 9, 1)},
		"one that no dog has":             {"condition = 7\ncondition_on = 2026-09-01\n", old + "2026-08-20,Marlow,36,\n2026-08-31,Marlow,0.02,\n", nil, 30, NewDate(2026, 9, 1)},
	} {
		t.Run(name, func(t *testing.T) {
			p := marlow(t, c.lines, c.log)
			p.Recall(slices.Values(c.past))
			if got := p.Animal.Ideal(); math.Abs(got-c.ideal) > 1e-9 {
				t.Errorf("the ideal weight is %g, not %g", got, c.ideal)
			}
			if p.ScoredOn != c.on {
				t.Errorf("scored on %s, not %s", p.ScoredOn, c.on)
			}
		})
	}
}

func TestGoalOfAThinAnimal(t *testing.T) {
	for condition, want := range map[int]float64{3: 31.5 / 0.9, 2: 31.5 / 0.8, 1: 31.5 / 0.7} {
		p := marlow(t, "condition = "+string(rune('0'+condition))+"\n", "")
		if aim, kg := p.Goal(); aim != learn.Gain || math.Abs(kg-want) > 1e-9 {
			t.Errorf("condition %d: aim %v, %g kg, not %g", condition, aim, kg, want)
		}
		// Its food is not raised by the goal: that is for a veterinarian to begin.
		if p.Animal.Ideal() != 31.5 {
			t.Errorf("condition %d: food for %g kg", condition, p.Animal.Ideal())
		}
	}
	if aim, kg := marlow(t, "condition = 4\n", "").Goal(); aim != learn.Hold || kg != 31.5 {
		t.Errorf("condition 4: aim %v, %g kg", aim, kg)
	}
}

// stageOn is stage and week of the dog of the good household, with more lines, on a day.
func TestStagesFollowTheirDates(t *testing.T) {
	day := func(s string) Date {
		d, err := ParseDate(s)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	litter := "sex = \"female\"\nmated = 2026-08-01\ngave_birth = 2026-10-03\nlitter = 4\n"
	pup := "born = 2026-06-01\nadult_weight = \"40 kg\"\n"
	for _, c := range []struct {
		lines, on string
		stage     nutrients.Stage
		week      int
	}{
		{litter, "2026-07-31", nutrients.Adult, 0},
		{litter, "2026-08-01", nutrients.Gestation, 1},
		{litter, "2026-08-28", nutrients.Gestation, 4},
		{litter, "2026-08-29", nutrients.Gestation, 5},
		{litter, "2026-10-02", nutrients.Gestation, 9},
		{litter, "2026-10-03", nutrients.Lactation, 1},
		{litter, "2026-10-10", nutrients.Lactation, 2},
		{litter, "2026-11-20", nutrients.Lactation, 4},
		{litter, "2026-11-27", nutrients.Lactation, 4},
		{litter, "2026-11-28", nutrients.Adult, 0},
		{litter + "weaned = 2026-11-15\n", "2026-11-14", nutrients.Lactation, 4},
		{litter + "weaned = 2026-11-15\n", "2026-11-15", nutrients.Adult, 0},
		// An earlier litter does not end a new pregnancy.
		{"sex = \"female\"\nmated = 2026-11-01\ngave_birth = 2025-10-03\nlitter = 4\n", "2026-11-25", nutrients.Gestation, 4},
		// Without a date the written week stands, with one it does not.
		{"sex = \"female\"\nstage = \"lactation\"\nweek = 3\nlitter = 4\n", "2027-11-25", nutrients.Lactation, 3},
		{"sex = \"female\"\nstage = \"lactation\"\nweek = 3\nlitter = 4\ngave_birth = 2026-10-03\n", "2027-11-25", nutrients.Adult, 0},
		// 40 kg are grown at 462 to 464 days by the curve, about 15 months.
		{pup, "2027-08-30", nutrients.Growth, 0},
		{pup, "2027-09-15", nutrients.Adult, 0},
		{pup + "stage = \"growth\"\n", "2031-06-01", nutrients.Adult, 0},
		{pup + "stage = \"adult\"\n", "2026-12-01", nutrients.Adult, 0},
	} {
		p := marlow(t, c.lines, "")
		if a := p.On(day(c.on)); a.Stage != c.stage || a.Week != c.week && c.stage != nutrients.Growth {
			t.Errorf("%q on %s: %s, week %d, not %s, week %d", c.lines, c.on, a.Stage, a.Week, c.stage, c.week)
		}
	}
}

func TestPlansEndWithTheirStage(t *testing.T) {
	litter := "sex = \"female\"\nmated = 2026-11-01\n"
	for _, c := range []struct {
		lines, made, until string
	}{
		{"", "2026-11-25", "2027-01-20"},
		// The energy of a bitch changes with the fifth week, on day 28.
		{litter, "2026-11-25", "2026-11-28"},
		{litter, "2026-11-30", "2026-12-14"},
		{"sex = \"female\"\ngave_birth = 2026-11-20\nlitter = 3\n", "2026-11-25", "2026-11-26"},
		// From the second birthday on a dog is no young dog any more: 104 weeks.
		{"born = 2024-12-10\n", "2026-11-25", "2026-12-07"},
		// An energy that the household gives does not hide the day.
		{"energy = \"1500 kcal\"\nborn = 2024-12-10\n", "2026-11-25", "2026-12-07"},
	} {
		made, _ := ParseDate(c.made)
		p := marlow(t, c.lines, "")
		if got := p.GoodUntil(made); got.String() != c.until {
			t.Errorf("%q made on %s: good until %s, not %s", c.lines, c.made, got, c.until)
		}
	}
	undated := marlow(t, "sex = \"female\"\nstage = \"lactation\"\nweek = 3\nlitter = 4\n", "")
	undated.StageSince = testDay.AddDays(-10)
	if got := undated.GoodUntil(testDay); got != testDay.AddDays(4) {
		t.Errorf("an undated week that was first planned ten days ago is good until %s", got)
	}
}

// TestLogsOfBothKinds reads lines of four, five and six columns.
func TestLogsOfBothKinds(t *testing.T) {
	for line, want := range map[string]WeighIn{
		"2026-11-01,Marlow,31.5,":                     {},
		"2026-11-01,Marlow,31.5,after a walk, wet":    {Note: "after a walk, wet"},
		"2026-11-01,Marlow,31.5,,7,":                  {Condition: 7},
		"2026-11-01,Marlow,31.5,,,3":                  {OffPlanDays: 3},
		"2026-11-01,Marlow,31.5,a, b,7,3":             {Note: "a, b", Condition: 7, OffPlanDays: 3},
		"2026-11-01,Marlow,31.5,weighed twice, 5 min": {Note: "weighed twice, 5 min"},
	} {
		for _, header := range []string{oldWeightsHeader, WeightsHeader} {
			log, bad := ParseWeights(header + "\n" + line + "\n")
			want.Date, want.Pet, want.Kg = NewDate(2026, time.November, 1), "Marlow", 31.5
			if len(bad) > 0 || len(log) != 1 || log[0] != want {
				t.Errorf("%s under %s: %+v, %v", line, header, log, bad)
			}
			// What is read is written again as it was meant.
			again, _ := ParseWeights(header + "\n" + want.Line(header+"\n"))
			if len(again) != 1 || again[0] != want {
				t.Errorf("%+v is written as %q under %s", want, want.Line(header+"\n"), header)
			}
		}
	}
	for _, line := range []string{"2026-11-01,Marlow,31.5,,10,", "2026-11-01,Marlow,31.5,,5,91"} {
		if log, bad := ParseWeights(WeightsHeader + "\n" + line + "\n"); len(log) != 0 || len(bad) != 1 {
			t.Errorf("%s went through: %v", line, log)
		}
	}
}
