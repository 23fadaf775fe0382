package household

import (
	"encoding/json"
	"errors"
	"testing"

	"bowlwright/nutrients"

	"pgregory.net/rapid"
)

// soundPlan is a plan whose numbers were added up by hand: 400 g of base, 2 g of
// eggshell in a premix for 28 days, 1.5 g of taurine and 20 g of carrot. Of calcium the
// base brings what its composition says, the eggshell 380 mg a gram, the carrot 6.6 mg.
func soundPlan(t *testing.T) *Plan {
	t.Helper()
	h := mustLoad(t, folder(t, map[string]string{"bases/pot.toml": goodBase + "[[ingredient]]\nbatch = \"broth\"\namount = \"100 g\"\n", "bases/broth.toml": goodBase}))
	plan := testPlan(h, "Marlow", 400)
	p := &plan.Pet
	known := func(x float64) *float64 { return &x }
	base := func(id nutrients.ID) float64 { return plan.Base.Composition[id].Lo * 4 }
	p.Addons = []AddonAmount{{Food: "eggshell-powder", Name: "Eggshell", G: 2, StepG: 0.01, ServedAs: ServedPremix},
		{Food: "taurine-powder", Name: "Taurine", G: 1.5, StepG: 0.01, ServedAs: ServedWeighed, Kcal: 6}}
	p.Extras = []ExtraAmount{{Food: "carrot-raw", Name: "Carrot", G: 20, Kcal: 8}}
	p.Premix = &Premix{Days: 28, Items: []PremixItem{{Food: "eggshell-powder", Name: "Eggshell", G: 56}}, TotalG: 56, ServeG: 2}
	p.PlannedKcal += 6 + 8
	p.Makeup = &Makeup{WeightG: 400 + 2 + 1.5 + 20}
	calcium, phosphorus := base(nutrients.Calcium)+2*380+6.6, base(nutrients.Phosphorus)+7
	p.Nutrients = []NutrientLine{
		{ID: nutrients.Calcium, Name: "Calcium", Amount: &calcium, High: known(calcium + 1), Lower: known(500), Upper: known(3000), State: StateMet,
			From: Contribution{Base: base(nutrients.Calcium), Addons: 2 * 380, Extras: 6.6}},
		{ID: nutrients.Phosphorus, Name: "Phosphorus", Amount: &phosphorus, Lower: known(100), State: StateMet,
			From: Contribution{Base: base(nutrients.Phosphorus), Extras: 7}},
	}
	quotient := calcium / phosphorus
	p.Ratios = []RatioLine{{ID: "calcium-phosphorus", Amount: &quotient, Lower: known(quotient * 0.9), Upper: known(quotient * 1.1), State: StateMet}}
	p.Certificate = &Certificate{Program: &Program{Columns: []ProgramColumn{{Food: "base"}, {Food: "eggshell-powder"}, {Food: "taurine-powder"}},
		Rows: []ProgramRow{{Limit: nutrients.EnergyOfDay, A: CoefficientsOf([]float64{p.BaseKcalPerG, 0, 4})}, {Limit: nutrients.MinimumOf(nutrients.Calcium), A: CoefficientsOf([]float64{base(nutrients.Calcium) / 400, 380, 0})}}}}
	return plan
}

// TestExamine changes one number at a time of a plan that holds.
func TestExamine(t *testing.T) {
	if _, err := Examine(soundPlan(t)); err != nil {
		t.Fatal(err)
	}
	times := func(x *float64, k float64) { *x *= k }
	for name, forge := range map[string]func(*Plan){
		"more base":               func(p *Plan) { p.Pet.BaseG = 500 },
		"base in half steps":      func(p *Plan) { p.Pet.Scales.ScaleG = 3 },
		"base, energy and makeup": func(p *Plan) { p.Pet.BaseG, p.Pet.PlannedKcal, p.Pet.Makeup = 440, p.Pet.PlannedKcal*1.1-1.4, nil },
		"more of an add-on":       func(p *Plan) { p.Pet.Addons[1].G, p.Pet.Makeup.WeightG = 15, 437 },
		"more eggshell and premix": func(p *Plan) {
			p.Pet.Makeup = nil
			p.Pet.Addons[0].G *= 10
			times(&p.Pet.Premix.Items[0].G, 10)
			times(&p.Pet.Premix.TotalG, 10)
			times(&p.Pet.Premix.ServeG, 10)
		},
		"more in the premix":      func(p *Plan) { p.Pet.Premix.Items[0].G = 560 },
		"a heavier serving":       func(p *Plan) { p.Pet.Premix.ServeG = 20 },
		"a premix for fewer days": func(p *Plan) { p.Pet.Premix.Days = 14 },
		"a powder nobody gets": func(p *Plan) {
			p.Pet.Premix.Items = append(p.Pet.Premix.Items, PremixItem{Food: "x", G: 1})
			p.Pet.Premix.TotalG++
			p.Pet.Premix.ServeG = 57. / 28
		},
		"no premix":                   func(p *Plan) { p.Pet.Premix = nil },
		"served otherwise":            func(p *Plan) { p.Pet.Addons[1].ServedAs = "poured" },
		"an amount between the steps": func(p *Plan) { p.Pet.Addons[1].StepG = 0.7 },
		"a negative extra":            func(p *Plan) { p.Pet.Extras[0].G = -20; p.Pet.Makeup = nil },
		"energy of an add-on":         func(p *Plan) { p.Pet.Addons[1].Kcal = 60 },
		"energy of the base":          func(p *Plan) { p.Pet.BaseKcalPerG *= 1.01; p.Pet.PlannedKcal += p.Pet.BaseKcalPerG * 400 * 0.01 / 1.01 },
		"another need":                func(p *Plan) { p.Pet.EnergyKcal *= 1.2 },
		"weight of the food":          func(p *Plan) { p.Pet.Makeup.WeightG = 500 },
		"an amount":                   func(p *Plan) { times(p.Pet.Nutrients[0].Amount, 1.1) },
		"from the base":               func(p *Plan) { p.Pet.Nutrients[1].From.Base += 5; *p.Pet.Nutrients[1].Amount += 5 },
		"from the add-ons": func(p *Plan) {
			p.Pet.Nutrients[0].From.Addons += 5
			*p.Pet.Nutrients[0].Amount += 5
			*p.Pet.Ratios[0].Amount *= 1.001
		},
		"a minimum above":          func(p *Plan) { times(p.Pet.Nutrients[0].Lower, 4) },
		"a maximum below":          func(p *Plan) { times(p.Pet.Nutrients[0].Upper, 0.1) },
		"a high amount":            func(p *Plan) { times(p.Pet.Nutrients[0].High, 10) },
		"low, and said so":         func(p *Plan) { times(p.Pet.Nutrients[0].Lower, 4); p.Pet.Nutrients[0].State = StateLow },
		"high, and said so":        func(p *Plan) { times(p.Pet.Nutrients[0].Upper, 0.1); p.Pet.Nutrients[0].State = StateHigh },
		"short without a reason":   func(p *Plan) { p.Pet.Status = Short },
		"over with amounts":        func(p *Plan) { p.Pet.Status = Over },
		"unknown without a need":   func(p *Plan) { p.Pet.Nutrients[0].State = StateUnknown },
		"a ratio outside":          func(p *Plan) { times(p.Pet.Ratios[0].Lower, 2) },
		"a ratio of other amounts": func(p *Plan) { times(p.Pet.Ratios[0].Amount, 1.05) },
		"a ratio missed":           func(p *Plan) { p.Pet.Ratios[0].State = StateLow },
		"no meals":                 func(p *Plan) { p.Pet.Meals = 0 },
		"grams of an ingredient":   func(p *Plan) { p.Base.Ingredients[0].Grams++ },
		"a method":                 func(p *Plan) { p.Base.Ingredients[0].Method = "boiled" },
		"another ingredient":       func(p *Plan) { p.Base.Ingredients[0].Food = "beef-liver-raw" },
		"a share":                  func(p *Plan) { p.Base.Ingredients[0].Share = 0.5 },
		"the liquid":               func(p *Plan) { p.Base.KeepsLiquid = true },
		"the yield":                func(p *Plan) { p.Base.YieldDeclared = true },
		"the code":                 func(p *Plan) { p.Base.Code = "K7Q-2MX-K" },
		"the digest":               func(p *Plan) { p.Base.RecipeDigest = DigestOf("x") },
		"a batch within":           func(p *Plan) { p.Base.Ingredients[1].Of.Ingredients[0].Method = "boiled" },
		"the weight of the pot":    func(p *Plan) { p.Base.RawG *= 2 },
		"the composition":          func(p *Plan) { p.Base.Composition[nutrients.Calcium] = nutrients.Known(1000) },
	} {
		plan := soundPlan(t)
		forge(plan)
		sound, err := Examine(plan)
		var unsound *UnsoundError
		if !errors.As(err, &unsound) || unsound.Why == "" || unsound.Hint().IsZero() || sound.Plan() != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestExamineWithoutAmounts: a plan that is over may stand there without amounts, and
// with a nutrient of which nothing is known.
func TestExamineWithoutAmounts(t *testing.T) {
	plan := soundPlan(t)
	p := &plan.Pet
	p.Status, p.BaseG, p.Addons, p.Premix, p.Certificate = Over, 0, nil, nil, nil
	p.Nutrients = []NutrientLine{{ID: nutrients.Iodine, Name: "Iodine", Lower: new(float64), State: StateUnknown}}
	p.Ratios = nil
	if _, err := Examine(plan); err != nil {
		t.Error(err)
	}
}

// TestSnapshotKeepsItsRecipe: the digest of a recorded recipe is that of the batch,
// also after a turn through JSON.
func TestSnapshotKeepsItsRecipe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBatch(t, 2)
		text, err := json.Marshal(b.Snapshot())
		if err != nil {
			t.Fatal(err)
		}
		var s BaseSnapshot
		if err := json.Unmarshal(text, &s); err != nil {
			t.Fatal(err)
		}
		if got, ok := s.digestOfRecipe(); !ok || got != b.RecipeDigest() {
			t.Fatalf("%s, %v, was %s", got, ok, b.RecipeDigest())
		}
	})
}
