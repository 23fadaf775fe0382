package fdc

import (
	"strings"
	"testing"

	"bowlwright/nutrients"
)

// The figures below are invented; the layout is that of the published downloads.
const legacyJSON = `{"SRLegacyFoods":[
 {"fdcId":101,"description":"Otter cutlet, raw","foodCategory":{"description":"Game Products"},
  "foodNutrients":[
   {"nutrient":{"number":"203","name":"Protein","unitName":"g"},"amount":20.5},
   {"nutrient":{"number":"301","name":"Calcium, Ca","unitName":"mg"},"amount":7},
   {"nutrient":{"number":"324","name":"Vitamin D","unitName":"IU"},"amount":40},
   {"nutrient":{"number":"618","name":"18:2 undifferentiated","unitName":"g"},"amount":0.9},
   {"nutrient":{"number":"675","name":"18:2 n-6 c,c","unitName":"g"},"amount":0.8},
   {"nutrient":{"number":"430","name":"Vitamin K","unitName":"µg"},"amount":0,"foodNutrientDerivation":{"code":"Z"}},
   {"nutrient":{"number":"210","name":"Sucrose","unitName":"g"},"amount":0},
   {"nutrient":{"number":"309","name":"Zinc, Zn","unitName":"IU"},"amount":3},
   {"nutrient":{"number":"303","name":"Iron, Fe","unitName":"mg"}}],
  "foodPortions":[{"amount":1,"modifier":"cutlet","measureUnit":{"name":"undetermined"},"gramWeight":85}]},
 {"fdcId":102,"description":"Otter cutlet, raw","foodNutrients":[]}]}`

func TestReadJSON(t *testing.T) {
	r, err := ReadJSON(strings.NewReader(legacyJSON))
	if err != nil {
		t.Fatal(err)
	}
	checkOtter(t, r)
	if len(r.Foods) != 2 || r.Foods[1].ID != "otter-cutlet-raw-102" {
		t.Errorf("the second food of one name must keep its own id: %v", r.Foods)
	}
	for _, broken := range []string{"", "[]", "{}", `{"BrandedFoods":[]}`, legacyJSON[:300], `{"SRLegacyFoods":{}}`} {
		if _, err := ReadJSON(strings.NewReader(broken)); err == nil {
			t.Errorf("%.30q was read without an error", broken)
		}
	}
}

// checkOtter holds the food that the JSON and the CSV sample both describe.
func checkOtter(t *testing.T, r Result) {
	t.Helper()
	f := r.Foods[0]
	if f.ID != "otter-cutlet-raw" || f.Group != "game-products" || !strings.Contains(f.Source.Text, "FDC id 101") {
		t.Errorf("%s, group %s, source %s", f.ID, f.Group, f.Source.Text)
	}
	want := map[nutrients.ID]nutrients.Figure{
		nutrients.Protein: nutrients.Known(20.5),
		nutrients.Calcium: nutrients.Known(7),
		// 40 IU of vitamin D are 1 ug by definition.
		nutrients.VitaminD: nutrients.Known(1),
		// The exact isomer wins over the undifferentiated sum.
		nutrients.LinoleicAcid:  nutrients.Known(0.8),
		nutrients.Phylloquinone: nutrients.Unknown,
		nutrients.Zinc:          nutrients.Unknown,
		nutrients.Iron:          nutrients.Unknown,
		nutrients.Energy:        nutrients.Unknown,
	}
	for id, w := range want {
		if f.Per100g[id] != w {
			t.Errorf("%s is %v, want %v", id, f.Per100g[id], w)
		}
	}
	if len(f.Measures) != 1 || f.Measures[0] != (nutrients.Measure{Name: "1 cutlet", Grams: 85}) {
		t.Errorf("measures %v", f.Measures)
	}
	for _, what := range []string{"210 Sucrose", "309 Zinc, Zn", "430 Vitamin K", "303 Iron, Fe"} {
		if !noted(r, what) {
			t.Errorf("nothing said about %s: %v", what, r.Unused)
		}
	}
}

func noted(r Result, what string) bool {
	for _, u := range r.Unused {
		if u.What == what && u.Count == 1 && u.Reason != "" {
			return true
		}
	}
	return false
}

func sampleFiles() Files {
	s := strings.NewReader
	return Files{
		Food: s("fdc_id,data_type,description,food_category_id,publication_date\n" +
			"101,sr_legacy_food,\"Otter cutlet, raw\",7,2019-04-01\n900,branded_food,Bar,,2020-01-01\n"),
		Nutrient: s("id,name,unit_name,nutrient_nbr,rank\n1003,Protein,G,203,600\n1087,\"Calcium, Ca\",MG,301,5300\n" +
			"1110,Vitamin D,IU,324,8650\n1269,18:2 undifferentiated,G,618,13100\n1316,\"18:2 n-6 c,c\",G,675,13300\n" +
			"1185,Vitamin K,UG,430,8800\n1010,Sucrose,G,210,1600\n1095,\"Zinc, Zn\",IU,309,5900\n1089,\"Iron, Fe\",MG,303,5400\n"),
		FoodNutrient: s("id,fdc_id,nutrient_id,amount,data_points,derivation_id\n1,101,1003,20.5,,1\n2,101,1087,7,,1\n" +
			"3,101,1110,40,,1\n4,101,1269,0.9,,1\n5,101,1316,0.8,,1\n6,101,1185,0,,49\n7,101,1010,0,,1\n8,101,1095,3,,1\n" +
			"9,101,1089,,,1\n10,900,1003,5,,1\n"),
		Category:    s("id,code,description\n7,1700,Game Products\n"),
		Derivation:  s("id,code,description\n1,A,Analytical\n49,Z,Assumed zero\n"),
		MeasureUnit: s("id,name\n9999,undetermined\n"),
		Portion: s("id,fdc_id,seq_num,amount,measure_unit_id,portion_description,modifier,gram_weight\n" +
			"1,101,1,1,9999,,cutlet,85\n"),
	}
}

func TestReadCSV(t *testing.T) {
	r, err := ReadCSV(sampleFiles())
	if err != nil {
		t.Fatal(err)
	}
	checkOtter(t, r)
	if len(r.Foods) != 1 || r.Skipped["branded_food"] != 1 {
		t.Errorf("%d foods, skipped %v", len(r.Foods), r.Skipped)
	}
	if _, err := ReadCSV(Files{}); err == nil {
		t.Error("no files, no error")
	}
	in := sampleFiles()
	in.Nutrient = strings.NewReader("id,name\n1003,Protein\n")
	if _, err := ReadCSV(in); err == nil || !strings.Contains(err.Error(), `nutrient.csv: no column "unit_name"`) {
		t.Errorf("a missing column is said as %v", err)
	}
}

// TestZeroNeedsAnOrigin: without the table of derivations nobody knows whether a
// zero was measured, so it does not count.
func TestZeroNeedsAnOrigin(t *testing.T) {
	for _, c := range []struct {
		derivations string
		want        nutrients.Figure
	}{
		{"id,code\n49,Z\n", nutrients.Unknown},
		{"id,code\n49,A\n", nutrients.Known(0)},
		{"id,code\n1,A\n", nutrients.Unknown},
	} {
		in := sampleFiles()
		in.Derivation = strings.NewReader(c.derivations)
		r, err := ReadCSV(in)
		if err != nil {
			t.Fatal(err)
		}
		if got := r.Foods[0].Per100g[nutrients.Phylloquinone]; got != c.want {
			t.Errorf("with the derivations %q a zero became %v, want %v", c.derivations, got, c.want)
		}
	}
	in := sampleFiles()
	in.Derivation = nil
	r, err := ReadCSV(in)
	if err != nil {
		t.Fatal(err)
	}
	if r.Foods[0].Per100g[nutrients.Phylloquinone].IsKnown() {
		t.Error("a zero of no known origin counts as measured")
	}
}

func TestReadPlain(t *testing.T) {
	r, err := ReadPlain(strings.NewReader("id,name,group,protein_g,vitamin-d (IU),zinc mg,selenium_ug,colour,biotin_IU\n" +
		"own-mince,Mince of the house,beef,19.5,20,\"4,2\",<5,red,3\n,Twin,,1,,,,,\n,Twin,,2,,,,,\n,,,3,,,,,\n"))
	if err != nil {
		t.Fatal(err)
	}
	f := r.Foods[0]
	if f.ID != "own-mince" || f.Group != "beef" {
		t.Errorf("%s, group %s", f.ID, f.Group)
	}
	if got := f.Per100g[nutrients.Protein]; got != nutrients.Known(19.5) {
		t.Errorf("protein %v", got)
	}
	if got := f.Per100g[nutrients.VitaminD]; got != nutrients.Known(0.5) {
		t.Errorf("vitamin D %v, want 20 IU = 0.5 ug", got)
	}
	if got := f.Per100g[nutrients.Selenium]; got != nutrients.Between(0, 5) {
		t.Errorf("selenium %v", got)
	}
	if f.Per100g[nutrients.Zinc].IsKnown() || f.Per100g[nutrients.Calcium].IsKnown() {
		t.Error("a decimal comma or a missing column became a figure")
	}
	for _, what := range []string{"column colour", "column biotin_IU", "zinc", "line"} {
		if !noted(r, what) {
			t.Errorf("nothing said about %s: %v", what, r.Unused)
		}
	}
	if len(r.Foods) != 3 || r.Foods[1].ID == r.Foods[2].ID {
		t.Errorf("two foods of one name need two ids: %v", r.Foods)
	}
	if _, err := ReadPlain(strings.NewReader("food,protein_g\nx,1\n")); err == nil {
		t.Error("a table without names was read")
	}
}
