package upkeep

import (
	"slices"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

const checkHome = goodHousehold + `activity = "moderate"
condition = 5
born = 2020-03-14
[[pet.extra]]
food = "carrot-raw"
amount = "20 g"
[[addon]]
food = "taurine-powder"
[[addon]]
food = "eggshell-powder"
price = "3 per kg"
`

// planFor makes a plan that fits the household, with the energy of the equations.
func planFor(t *testing.T, h *household.Household) *household.Plan {
	t.Helper()
	plan := testPlan(h, "Marlow", 400)
	need, err := nutrients.EnergyFor(h.Pets[0].Animal)
	if err != nil {
		t.Fatal(err)
	}
	plan.Pet.EnergyKcal = need.Kcal
	for _, e := range h.Pets[0].Extras {
		plan.Pet.Extras = append(plan.Pet.Extras, household.ExtraAmount{Food: e.Food.ID, G: e.Grams, Digest: e.Food.Digest()})
	}
	return plan
}

func codes(found []household.Finding) []string {
	var all []string
	for _, f := range found {
		all = append(all, f.Code)
	}
	slices.Sort(all)
	return all
}

// TestCheckTellsEachApart makes one change to the household after the plan and
// expects exactly the finding for it.
func TestCheckTellsEachApart(t *testing.T) {
	log := "date,pet,kg,note\n2026-11-20,Marlow,31.5,\n"
	for name, c := range map[string]struct {
		old, new string
		file     string
		days     int
		plan     func(*household.Plan)
		want     []string
	}{
		"nothing":           {want: nil},
		"name of the base":  {file: "bases/pot.toml", old: "[[ingredient]]", new: "name = \"New\"\n[[ingredient]]"},
		"order and price":   {file: "household.toml", old: "price = \"3 per kg\"", new: "price = \"4 per kg\""},
		"twice the batch":   {file: "bases/pot.toml", old: "400 g", new: "800 g"},
		"other ingredient":  {file: "bases/pot.toml", old: "beef-heart-raw", new: "beef-liver-raw", want: []string{"other-base"}},
		"method":            {file: "bases/pot.toml", old: "simmered", new: "boiled", want: []string{"other-base"}},
		"weight 2 %":        {file: "weights.csv", old: "31.5", new: "32.1"},
		"weight 4 %":        {file: "weights.csv", old: "31.5", new: "32.8", want: []string{"weight-moved"}},
		"weight, own limit": {file: "household.toml", old: "[[pet]]", new: "[kitchen]\nweight_moved = \"1 %\"\n[[pet]]", plan: func(p *household.Plan) { p.Pet.WeightKg = 32 }, want: []string{"weight-moved"}},
		"condition":         {file: "household.toml", old: "condition = 5", new: "condition = 6", want: []string{"condition-changed"}},
		"standard":          {file: "household.toml", old: "base = ", new: "standard = \"fediaf2021\"\nbase = ", want: []string{"standard-changed"}},
		"activity":          {file: "household.toml", old: "moderate", new: "high", want: []string{"energy-changed"}},
		// 1 % of rounding is no change, and the weight may carry the energy along, once.
		"energy by 2 %":     {plan: func(p *household.Plan) { p.Pet.EnergyKcal /= 1.02 }, want: []string{"energy-changed"}},
		"energy by 0.9 %":   {plan: func(p *household.Plan) { p.Pet.EnergyKcal /= 1.009 }},
		"weight and energy": {file: "weights.csv", old: "31.5", new: "32.13", plan: func(p *household.Plan) { p.Pet.EnergyKcal /= 1.03 }, want: []string{"energy-changed"}},
		"an own limit":      {file: "household.toml", old: "[[addon]]", new: "[[pet.limit]]\nnutrient = \"phosphorus\"\nmaximum = \"3 g per 1000 kcal\"\nreason = \"kidneys\"\n[[addon]]", want: []string{"limits-changed"}},
		"stage":             {plan: func(p *household.Plan) { p.Pet.Stage = nutrients.Gestation }, want: []string{"stage-changed"}},
		"shelf":             {file: "household.toml", old: "[[addon]]\nfood = \"taurine-powder\"\n", new: "", want: []string{"shelf-changed"}},
		"a cap":             {file: "household.toml", old: "price = ", new: "max = \"1 g\"\nprice = ", want: []string{"shelf-changed"}},
		"the scale":         {file: "household.toml", old: "[[pet]]", new: "[kitchen]\nfine_scale = \"0.01 g\"\n[[pet]]", want: []string{"shelf-changed"}},
		"extra amount":      {file: "household.toml", old: "20 g", new: "25 g", want: []string{"extras-changed"}},
		"old":               {days: 57, want: []string{"plan-old", "weigh-in-overdue"}},
		"weigh-in overdue":  {days: 24, want: []string{"weigh-in-overdue"}},
		"just in time":      {days: 23, want: nil},
		"short":             {plan: func(p *household.Plan) { p.Pet.Status = household.Short }, want: []string{"plan-short"}},
		"corrected figures": {plan: func(p *household.Plan) { p.Base.FiguresDigest = "sha256:0" }, want: []string{"figures-changed"}},
		"losing fast": {file: "weights.csv", old: "2026-11-20,Marlow,31.5,", new: "2026-10-30,Marlow,34.2,\n2026-11-06,Marlow,33.3,\n2026-11-13,Marlow,32.0,\n2026-11-20,Marlow,31.5,",
			want: []string{"losing-too-fast"}},
	} {
		t.Run(name, func(t *testing.T) {
			files := map[string]string{"household.toml": checkHome, "bases/pot.toml": goodBase, "weights.csv": log}
			plan := planFor(t, mustLoad(t, folder(t, files)))
			if c.plan != nil {
				c.plan(plan)
			}
			if c.file != "" {
				if !strings.Contains(files[c.file], c.old) {
					t.Fatalf("%s holds no %q", c.file, c.old)
				}
				files[c.file] = strings.Replace(files[c.file], c.old, c.new, 1)
			}
			found := Check(mustLoad(t, folder(t, files)), map[string]*household.Plan{"Marlow": plan}, testDay.AddDays(c.days))
			if got := codes(found); !slices.Equal(got, c.want) {
				t.Errorf("got %v, want %v: %+v", got, c.want, found)
			}
			for _, f := range found {
				if f.Hint.IsZero() || f.Pet != "Marlow" || f.Message == "" {
					t.Errorf("%+v does not say enough", f)
				}
				if (f.Code == "other-base") != (f.Severity == household.Refusal) {
					t.Errorf("%s is a %s", f.Code, f.Severity)
				}
			}
		})
	}
}

func TestCheckWithoutPlans(t *testing.T) {
	h := mustLoad(t, folder(t, nil))
	gone := testPlan(h, "Marlow", 1)
	if got := codes(Check(h, map[string]*household.Plan{"Rex": gone}, testDay)); !slices.Equal(got, []string{"no-plan", "pet-gone"}) {
		t.Error(got)
	}
}

func TestWeighAgainBy(t *testing.T) {
	for _, c := range []struct {
		a    nutrients.Animal
		days int
	}{
		{nutrients.Animal{Stage: nutrients.Adult}, 28}, {nutrients.Animal{Stage: nutrients.Adult, Condition: 5}, 28}, {nutrients.Animal{Stage: nutrients.Adult, Condition: 7}, 14},
		{nutrients.Animal{Stage: nutrients.Adult, Condition: 3}, 14}, {nutrients.Animal{Stage: nutrients.Growth, AdultKg: 22}, 14}, {nutrients.Animal{Stage: nutrients.Growth, AdultKg: 40}, 7},
		{nutrients.Animal{Stage: nutrients.Lactation}, 14},
	} {
		if got := WeighAgainBy(&household.Pet{Animal: c.a}, testDay, household.Date{}).DaysSince(testDay); got != c.days {
			t.Errorf("%+v: %d days, want %d", c.a, got, c.days)
		}
	}
}

// TestRefusalSaysWhatAndHowMuch: the words of one refusal in full.
func TestRefusalSaysWhatAndHowMuch(t *testing.T) {
	files := map[string]string{"bases/pot.toml": "name = \"Pot\"\n" + goodBase + "[[ingredient]]\nfood = \"kale-raw\"\namount = \"600 g\"\nmethod = \"boiled\"\n"}
	dir := folder(t, files)
	plan := testPlan(mustLoad(t, dir), "Marlow", 400)
	files["bases/before.toml"] = files["bases/pot.toml"]
	files["bases/pot.toml"] = strings.Replace(files["bases/pot.toml"], "600 g", "400 g", 1)
	h := mustLoad(t, folder(t, files))
	_, err := h.PairIn(household.Unexamined(t, plan))
	mix, ok := err.(*household.MixUpError)
	if !ok {
		t.Fatal(err)
	}
	want := []string{
		"kale-raw (boiled): 600 g in the plan's base, 400 g now (60.0 % of the raw weight then, 50.0 % now)",
	}
	if !slices.Equal(mix.Differences, want) {
		t.Errorf("%q", mix.Differences)
	}
	for i, word := range []string{"bowlwright plan Marlow", `base = "before"`, "bowlwright restore " + plan.Base.Code} {
		if !strings.Contains(mix.Ways[i].Render(diag.Plain), word) {
			t.Errorf("way %d does not say %q: %v", i, word, mix.Ways[i])
		}
	}
	delete(files, "bases/before.toml")
	if _, err := mustLoad(t, folder(t, files)).PairIn(household.Unexamined(t, plan)); !strings.Contains(err.(*household.MixUpError).Ways[1].Text, "undo the change in bases/pot.toml") {
		t.Errorf("%v", err.(*household.MixUpError).Ways)
	}
	if msg := mix.Error(); !strings.Contains(msg, plan.Base.Code) || !strings.Contains(msg, h.Base.Identity().Code) || !strings.Contains(msg, "kale-raw") {
		t.Error(msg)
	}
}

// TestShortPlanNamesItsRatio: a plan that misses only a ratio says so.
func TestShortPlanNamesItsRatio(t *testing.T) {
	h := mustLoad(t, folder(t, nil))
	plan := planFor(t, h)
	plan.Pet.Status = household.Short
	plan.Pet.Ratios = []household.RatioLine{{ID: "calcium-phosphorus", State: household.StateHigh}}
	for _, f := range Check(h, map[string]*household.Plan{"Marlow": plan}, testDay) {
		if f.Code == "plan-short" && f.Message == "the plan in use is short: calcium to phosphorus" {
			return
		}
	}
	t.Error("the ratio is not named")
}
