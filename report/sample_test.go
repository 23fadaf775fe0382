package report

import (
	"testing"
	"time"

	"bowlwright/household"
	"bowlwright/nutrients"
)

func known(x float64) *float64 { return &x }

// testBase is an invented batch of foods from the catalogue.
func testBase(t *testing.T) *household.Batch {
	t.Helper()
	b := &household.Batch{File: "turkey-oats", Name: "Turkey and oats", YieldG: 5200, Days: 4}
	for i, f := range nutrients.Default().All() {
		if len(b.Ingredients) == 3 {
			break
		}
		if i%40 == 0 && !f.Supplement() {
			b.Ingredients = append(b.Ingredients, household.Ingredient{Food: f, Grams: 1000 + 500*float64(i), PricePerG: 0.008})
		}
	}
	if len(b.Ingredients) != 3 {
		t.Fatalf("the catalogue gave %d foods", len(b.Ingredients))
	}
	return b
}

// testPlan is an invented plan with every kind of line: met, unknown, partly
// known, counted, weighed and mixed. Its figures prove nothing about nutrition.
func testPlan(name string, base *household.Batch) *household.Plan {
	day := household.NewDate(2026, time.November, 25)
	p := &household.Plan{Format: household.PlanFormat, Household: "Quince Lane", Date: day, Base: base.Snapshot()}
	p.Pet = household.PetPlan{Pet: name, Species: "dog", Stage: "adult", Standard: "nrc2006", WeightKg: 31.5, IdealWeightKg: 31.5,
		WeightDate: day, EnergyKcal: 1310, PlannedKcal: 1312, Status: household.Met, BaseG: 813, BaseKcalPerG: 1.5, Meals: 2,
		Scales: household.ScalesUsed{ScaleG: 1, FineScaleG: 0.01}, WeighAgainBy: day.AddDays(30),
		Cautions: []string{"This plan is for a healthy animal.", "A veterinarian decides in illness."},
		Addons: []household.AddonAmount{
			{Food: "eggshell-powder", Name: "Eggshell powder", G: 3.02, StepG: 0.01, ServedAs: "premix"},
			{Food: "sardine", Name: "Sardine, canned in water", G: 24, StepG: 1, ServedAs: "weighed", Measure: "about 2 tbsp"},
			{Food: "e-capsule", Name: "Vitamin E", G: 1.2, StepG: 0.6, ServedAs: "unit", Unit: "capsule", Units: 2},
		},
		Extras: []household.ExtraAmount{{Food: "carrot-raw", Name: "Carrot, raw", G: 20}},
		Premix: &household.Premix{Days: 28, Items: []household.PremixItem{{Food: "eggshell-powder", Name: "Eggshell powder", G: 84.56},
			{Food: "oat-flour", Name: "Oat flour", G: 27.44, Carrier: true}}, TotalG: 112, ServeG: 4},
		Ratios: []household.RatioLine{{ID: "calcium-phosphorus", Amount: known(1.284), Lower: known(1), Upper: known(2), State: household.StateMet}},
	}
	line := func(name, unit string, amount, lower, upper *float64, coverage float64, s household.State) {
		p.Pet.Nutrients = append(p.Pet.Nutrients, household.NutrientLine{ID: nutrients.ID(len(p.Pet.Nutrients)), Name: name, Unit: unit,
			Amount: amount, Lower: lower, Upper: upper, Coverage: coverage, State: s, UpperChecked: upper == nil || coverage == 1,
			LowerSource: "NRC 2006", Recalled: name == "Chloride"})
	}
	line("Calcium", "mg", known(1804.2), known(1801), nil, 1, household.StateMet)
	line("Iodine", "ug", known(413.4), known(394), known(1310), 0.412, household.StateMet)
	line("Vitamin K", "ug", nil, known(718), nil, 0, household.StateUnknown)
	line("Chloride", "mg", known(544), known(532), known(7703), 0.6, household.StateMet)
	line("Phenylalanine + tyrosine", "g", known(6.68), known(3.2), nil, 0.998, household.StateMet)
	for range 36 {
		line("Thiamin", "mg", known(0.98651), known(0.984), nil, 1, household.StateMet)
	}
	return p
}

func short(p *household.Plan) *household.Plan {
	p.Pet.Status = household.Short
	n := &p.Pet.Nutrients[1]
	n.Amount, n.State = known(300), household.StateLow
	return p
}

func over(p *household.Plan) *household.Plan {
	p.Pet.Status = household.Over
	p.Pet.Conflict = []string{"vitamin A of the base alone is over the upper limit"}
	return p
}

func testWeights(pet string) []household.WeighIn {
	day := household.NewDate(2026, time.September, 1)
	return []household.WeighIn{{Date: day.AddDays(60), Pet: pet, Kg: 31.5}, {Date: day, Pet: pet, Kg: 33}, {Date: day.AddDays(30), Pet: pet, Kg: 32.1}, {Date: day, Pet: "Somebody", Kg: 2}}
}

func pair(t *testing.T, p *household.Plan, base *household.Batch) household.Paired {
	t.Helper()
	paired, err := household.Pair(p, base)
	if err != nil {
		t.Fatal(err)
	}
	return paired
}

// hardNames are names that break pages: long, joined, emoji, right to left,
// controls, a script that the font lacks.
var hardNames = []string{"Marlow", "Tansy the very long named dog of the house at the end of Quince Lane by the old well",
	"Unbrokenlongnamewithoutanyspacesatallthatgoesonandonandonandon", "Pip 🐱👩‍🚀", "جونو", "Žofie Łuczak", "犬太郎", "Juno\x1b[31m\u202etxt\n"}
