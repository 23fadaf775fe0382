package sample

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"bowlwright/household"
	"bowlwright/nutrients"

	"github.com/google/go-cmp/cmp"
)

func Known(x float64) *float64 { return &x }

// Base is an invented batch of foods from the catalogue.
func Base(t testing.TB) *household.Batch {
	t.Helper()
	b := &household.Batch{File: "turkey-oats", Name: "Turkey and oats", YieldG: 5200, Days: 4}
	for i, id := range []string{"turkey-thigh-skinless-raw", "oats-rolled-dry", "kale-raw"} {
		f, ok := nutrients.Default().Food(id)
		if !ok {
			t.Fatalf("the catalogue has no %s", id)
		}
		b.Ingredients = append(b.Ingredients, household.Ingredient{Food: f, Grams: 2000 + 500*float64(i), PricePerG: 0.008})
	}
	return b
}

// otherNutrients fill a plan to the length of a real one.
var otherNutrients = []nutrients.ID{nutrients.Protein, nutrients.Arginine, nutrients.Histidine, nutrients.Isoleucine, nutrients.Leucine, nutrients.Lysine,
	nutrients.Methionine, nutrients.Phenylalanine, nutrients.Threonine, nutrients.Tryptophan, nutrients.Valine, nutrients.Fat, nutrients.LinoleicAcid,
	nutrients.AlphaLinolenicAcid, nutrients.Phosphorus, nutrients.Magnesium, nutrients.Sodium, nutrients.Potassium, nutrients.Iron, nutrients.Copper,
	nutrients.Zinc, nutrients.Manganese, nutrients.Selenium, nutrients.VitaminD, nutrients.VitaminE, nutrients.Thiamin, nutrients.Riboflavin,
	nutrients.VitaminB6, nutrients.Niacin, nutrients.PantothenicAcid, nutrients.VitaminB12, nutrients.Folate, nutrients.Choline,
	nutrients.MethionineCystine, nutrients.EPADHA, nutrients.VitaminA}

// Plan is an invented plan with every kind of line: met, unknown, partly
// known, counted, weighed and mixed. Its figures prove nothing about nutrition.
func Plan(name string, base *household.Batch) *household.Plan {
	day := household.NewDate(2026, time.November, 25)
	p := &household.Plan{Format: household.PlanFormat, Household: "Quince Lane", Date: day, Base: base.Snapshot()}
	p.Pet = household.PetPlan{Pet: name, Species: "dog", Stage: "adult", Standard: "nrc2006", WeightKg: 31.5, IdealWeightKg: 31.5,
		WeightDate: day, EnergyKcal: 1310, PlannedKcal: 1312, EnergyMethod: "given by the household: 1310 kcal", ReferenceKcal: 1729, Status: household.Met, BaseG: 813, BaseKcalPerG: base.Snapshot().EnergyKcalPerG, Meals: 2, Makeup: &household.Makeup{WeightG: 861, WaterG: Known(600), DryMatterG: Known(261)},
		Scales: household.ScalesUsed{ScaleG: 1, FineScaleG: 0.01}, WeighAgainBy: day.AddDays(30),
		Cautions: []string{"This plan is for a healthy animal.", "A veterinarian decides in illness."},
		Addons: []household.AddonAmount{
			{Food: "eggshell-powder", Name: "Eggshell powder", G: 3.02, StepG: 0.01, ServedAs: household.ServedPremix},
			{Food: "sardine", Name: "Sardine, canned in water", G: 24, StepG: 1, ServedAs: household.ServedWeighed, Measure: "about 2 tbsp"},
			{Food: "e-capsule", Name: "Vitamin E", G: 1.2, StepG: 0.6, ServedAs: household.ServedByUnit, Unit: "capsule", Units: 2},
			{Food: "oil-wheat-germ", Name: "Wheat germ oil", G: 0.1, StepG: 0.1, ServedAs: household.ServedWeighed, EveryDays: 7, Measure: "once a week"},
		},
		Extras: []household.ExtraAmount{{Food: "carrot-raw", Name: "Carrot, raw", G: 20}},
		Premix: &household.Premix{Days: 28, Items: []household.PremixItem{{Food: "eggshell-powder", Name: "Eggshell powder", G: 84.56},
			{Food: "oat-flour", Name: "Oat flour", G: 27.44, Carrier: true}}, TotalG: 112, ServeG: 4},
		Ratios: []household.RatioLine{{ID: "calcium-phosphorus", Amount: Known(1.284), Lower: Known(1), Upper: Known(2), State: household.StateMet}},
	}
	line := func(id nutrients.ID, amount, lower, upper *float64, coverage float64, s household.State) {
		about := id.Info()
		p.Pet.Nutrients = append(p.Pet.Nutrients, household.NutrientLine{ID: id, Name: about.Name, Unit: string(about.Unit),
			Amount: amount, Lower: lower, Upper: upper, Coverage: coverage, State: s, UpperChecked: upper == nil || coverage == 1,
			LowerSource: "NRC 2006", Recalled: id == nutrients.Chloride, From: household.Contribution{Base: 500}})
	}
	line(nutrients.Calcium, Known(1804.2), Known(1801), nil, 1, household.StateMet)
	line(nutrients.Iodine, Known(413.4), Known(394), Known(1310), 0.412, household.StateMet)
	line(nutrients.VitaminK, nil, Known(718), nil, 0, household.StateUnknown)
	line(nutrients.Chloride, Known(544), Known(532), Known(7703), 0.6, household.StateMet)
	line(nutrients.PhenylalanineTyrosine, Known(6.68), Known(3.2), nil, 0.998, household.StateMet)
	for i, id := range otherNutrients {
		lower := 0.984 * float64(i*i+1)
		line(id, Known(lower*(1.0026+0.2*float64(i%7))), &lower, nil, 1, household.StateMet)
	}
	p.Pet.Binding = []household.Binding{{Limit: nutrients.MinimumOf(nutrients.Calcium), Costs: "0.0026 g of add-on per mg"}}
	p.Pet.Certificate = &household.Certificate{Program: &household.Program{
		Columns: []household.ProgramColumn{{Food: "base"}, {Food: "eggshell-powder"}},
		Rows:    []household.ProgramRow{{Limit: nutrients.MinimumOf(nutrients.Calcium), A: household.CoefficientsOf([]float64{2, 364})}}}}
	return p
}

// WithOwnLimits has a limit that the household lowered and one that a veterinarian raised.
func WithOwnLimits(p *household.Plan) *household.Plan {
	p.Pet.OwnLimits = []household.OwnLimit{{Text: "Phosphorus: maximum 900 mg a day, set by the household: kidney values."},
		{Text: "MAXIMUM LOOSENED. Vitamin D: no maximum, set by the household: a prescription (prescribed by the veterinarian).", LoosensMaximum: true}}
	return p
}

func Short(p *household.Plan) *household.Plan {
	p.Pet.Status = household.Short
	n := &p.Pet.Nutrients[1]
	n.Amount, n.State = Known(300), household.StateLow
	return p
}

func Over(p *household.Plan) *household.Plan {
	p.Pet.Status = household.Over
	p.Pet.Conflict = []string{"vitamin A of the base alone is over the upper limit"}
	return p
}

func Weights(pet string) []household.WeighIn {
	day := household.NewDate(2026, time.September, 1)
	return []household.WeighIn{{Date: day.AddDays(60), Pet: pet, Kg: 31.5}, {Date: day, Pet: pet, Kg: 33}, {Date: day.AddDays(30), Pet: pet, Kg: 32.1}, {Date: day, Pet: "Somebody", Kg: 2}}
}

func Pair(t testing.TB, p *household.Plan, base *household.Batch) household.Paired {
	t.Helper()
	paired, err := household.Pair(household.Unexamined(t, p), base)
	if err != nil {
		t.Fatal(err)
	}
	return paired
}

// HardNames are names that break pages: long, joined, emoji, right to left,
// controls, a script that the font lacks.
var HardNames = []string{"Marlow", "Tansy the very long named dog of the house at the end of Quince Lane by the old well",
	"Unbrokenlongnamewithoutanyspacesatallthatgoesonandonandonandon", "Pip 🐱👩‍🚀", "جونو", "Žofie Łuczak", "犬太郎", "כלבלב Rex", "Πλούτων", "e\u0301toile", "'\"<&>", "Juno\x1b[31m\u202etxt\n"}

// Crowded has more of everything than one page holds.
func Crowded(p *household.Plan) *household.Plan {
	pet := &p.Pet
	pet.Meals = 3
	for i := range 26 {
		pet.Addons = append(pet.Addons, household.AddonAmount{Name: fmt.Sprintf("Add-on number %d with a name that is far longer than a column", i), G: 0.25 + float64(i), ServedAs: household.ServedWeighed})
		pet.Premix.Items = append(pet.Premix.Items, household.PremixItem{Name: fmt.Sprintf("Powder number %d", i), G: 1000.25})
		pet.Notes = append(pet.Notes, fmt.Sprintf("Note %d, which says something at such a length that it does not fit on a line of the page and goes on for a while longer.", i))
	}
	for i := range 20 {
		pet.Nutrients = append(pet.Nutrients, household.NutrientLine{Name: fmt.Sprintf("Nutrient number %d", i), Unit: "ug", Amount: Known(12345.678),
			Lower: Known(10000), Upper: Known(123456), Coverage: 0.5, State: household.StateMet})
	}
	return p
}

var update = flag.Bool("update", false, "rewrite the golden files")

// Golden compares with a file in testdata.
func Golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v: run the test with -update", err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s (-want +got):\n%s", path, d)
	}
}
