package nutrients

import (
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// Standard atomic masses, abridged (IUPAC 2021).
var atomicMass = map[string]float64{
	"H": 1.008, "C": 12.011, "N": 14.007, "O": 15.999, "Na": 22.990, "Mg": 24.305, "P": 30.974, "S": 32.06,
	"Cl": 35.45, "K": 39.098, "Ca": 40.078, "Mn": 54.938, "Fe": 55.845, "Co": 58.933, "Cu": 63.546, "Zn": 65.38,
	"Se": 78.971, "I": 126.904,
}

// atoms counts the atoms of a formula such as "Ca3(C6H5O7)2.4H2O".
func atoms(formula string) map[string]float64 {
	total := map[string]float64{}
	for _, part := range strings.Split(formula, ".") {
		times := 1.0
		i := 0
		for i < len(part) && unicode.IsDigit(rune(part[i])) {
			i++
		}
		if i > 0 {
			times, _ = strconv.ParseFloat(part[:i], 64)
		}
		counted, rest := group(part[i:])
		if rest != "" {
			panic("formula " + formula)
		}
		for el, n := range counted {
			total[el] += n * times
		}
	}
	return total
}

func group(s string) (map[string]float64, string) {
	count := map[string]float64{}
	for s != "" && s[0] != ')' {
		var inner map[string]float64
		if s[0] == '(' {
			inner, s = group(s[1:])
			s = s[1:]
		} else {
			n := 1
			if len(s) > 1 && unicode.IsLower(rune(s[1])) {
				n = 2
			}
			inner, s = map[string]float64{s[:n]: 1}, s[n:]
		}
		digits := 0
		for digits < len(s) && unicode.IsDigit(rune(s[digits])) {
			digits++
		}
		times := 1.0
		if digits > 0 {
			times, _ = strconv.ParseFloat(s[:digits], 64)
			s = s[digits:]
		}
		for el, n := range inner {
			count[el] += n * times
		}
	}
	return count, s
}

func mass(formula string) float64 {
	m := 0.0
	for el, n := range atoms(formula) {
		if atomicMass[el] == 0 {
			panic("no mass for " + el)
		}
		m += n * atomicMass[el]
	}
	return m
}

// part says that the nutrient is the given element or molecule of a compound,
// so many times.
type part struct {
	id    ID
	of    string
	times float64
}

// compounds holds the formula of each pure compound of the catalogue and what of
// it is a nutrient. Formulas are chemistry; the sums are worked out here.
var compounds = map[string]struct {
	formula string
	parts   []part
}{
	"calcium-carbonate":                 {"CaCO3", []part{{Calcium, "Ca", 1}}},
	"dicalcium-phosphate-dihydrate":     {"CaHPO4.2H2O", []part{{Calcium, "Ca", 1}, {Phosphorus, "P", 1}}},
	"dicalcium-phosphate-anhydrous":     {"CaHPO4", []part{{Calcium, "Ca", 1}, {Phosphorus, "P", 1}}},
	"monocalcium-phosphate-monohydrate": {"Ca(H2PO4)2.H2O", []part{{Calcium, "Ca", 1}, {Phosphorus, "P", 2}}},
	"tricalcium-phosphate":              {"Ca10(PO4)6(OH)2", []part{{Calcium, "Ca", 10}, {Phosphorus, "P", 6}}},
	"calcium-citrate-tetrahydrate":      {"Ca3(C6H5O7)2.4H2O", []part{{Calcium, "Ca", 3}}},
	"calcium-lactate-pentahydrate":      {"Ca(C3H5O3)2.5H2O", []part{{Calcium, "Ca", 1}}},
	"calcium-gluconate-monohydrate":     {"Ca(C6H11O7)2.H2O", []part{{Calcium, "Ca", 1}}},
	"sodium-chloride":                   {"NaCl", []part{{Sodium, "Na", 1}, {Chloride, "Cl", 1}}},
	"potassium-chloride":                {"KCl", []part{{Potassium, "K", 1}, {Chloride, "Cl", 1}}},
	"potassium-citrate-monohydrate":     {"K3C6H5O7.H2O", []part{{Potassium, "K", 3}}},
	"potassium-citrate-anhydrous":       {"K3C6H5O7", []part{{Potassium, "K", 3}}},
	"potassium-gluconate":               {"KC6H11O7", []part{{Potassium, "K", 1}}},
	"magnesium-oxide":                   {"MgO", []part{{Magnesium, "Mg", 1}}},
	"magnesium-citrate-anhydrous":       {"Mg3(C6H5O7)2", []part{{Magnesium, "Mg", 3}}},
	"magnesium-citrate-nonahydrate":     {"Mg3(C6H5O7)2.9H2O", []part{{Magnesium, "Mg", 3}}},
	"zinc-gluconate":                    {"Zn(C6H11O7)2", []part{{Zinc, "Zn", 1}}},
	"zinc-sulfate-monohydrate":          {"ZnSO4.H2O", []part{{Zinc, "Zn", 1}}},
	"zinc-sulfate-heptahydrate":         {"ZnSO4.7H2O", []part{{Zinc, "Zn", 1}}},
	"zinc-picolinate":                   {"Zn(C6H4NO2)2", []part{{Zinc, "Zn", 1}}},
	"zinc-bisglycinate":                 {"Zn(C2H4NO2)2", []part{{Zinc, "Zn", 1}}},
	"zinc-oxide":                        {"ZnO", []part{{Zinc, "Zn", 1}}},
	"copper-gluconate":                  {"Cu(C6H11O7)2", []part{{Copper, "Cu", 1}}},
	"copper-sulfate-pentahydrate":       {"CuSO4.5H2O", []part{{Copper, "Cu", 1}}},
	"copper-bisglycinate":               {"Cu(C2H4NO2)2", []part{{Copper, "Cu", 1}}},
	"manganese-gluconate-anhydrous":     {"Mn(C6H11O7)2", []part{{Manganese, "Mn", 1}}},
	"manganese-gluconate-dihydrate":     {"Mn(C6H11O7)2.2H2O", []part{{Manganese, "Mn", 1}}},
	"manganese-bisglycinate":            {"Mn(C2H4NO2)2", []part{{Manganese, "Mn", 1}}},
	"manganese-sulfate-monohydrate":     {"MnSO4.H2O", []part{{Manganese, "Mn", 1}}},
	"ferrous-bisglycinate":              {"Fe(C2H4NO2)2", []part{{Iron, "Fe", 1}}},
	"ferrous-fumarate":                  {"FeC4H2O4", []part{{Iron, "Fe", 1}}},
	"ferrous-sulfate-heptahydrate":      {"FeSO4.7H2O", []part{{Iron, "Fe", 1}}},
	"ferrous-sulfate-dried":             {"FeSO4.H2O", []part{{Iron, "Fe", 1}}},
	"ferrous-gluconate-dihydrate":       {"Fe(C6H11O7)2.2H2O", []part{{Iron, "Fe", 1}}},
	"selenomethionine":                  {"C5H11NO2Se", []part{{Selenium, "Se", 1}}},
	"sodium-selenite":                   {"Na2SeO3", []part{{Selenium, "Se", 1}, {Sodium, "Na", 2}}},
	"potassium-iodide":                  {"KI", []part{{Iodine, "I", 1}, {Potassium, "K", 1}}},
	"potassium-iodate":                  {"KIO3", []part{{Iodine, "I", 1}, {Potassium, "K", 1}}},
	"choline-bitartrate":                {"C9H19NO7", []part{{Choline, "C5H14NO", 1}}},
	"choline-chloride":                  {"C5H14ClNO", []part{{Choline, "C5H14NO", 1}, {Chloride, "Cl", 1}}},
	"vitamin-a-retinyl-palmitate":       {"C36H60O2", []part{{Retinol, "C20H30O", 1}}},
	"vitamin-a-retinyl-acetate":         {"C22H32O2", []part{{Retinol, "C20H30O", 1}}},
	"thiamin-hydrochloride":             {"C12H18Cl2N4OS", []part{{Thiamin, "C12H17N4OS", 1}, {Chloride, "Cl", 2}}},
	"thiamin-mononitrate":               {"C12H17N5O4S", []part{{Thiamin, "C12H17N4OS", 1}}},
	"calcium-pantothenate":              {"CaC18H32N2O10", []part{{PantothenicAcid, "C9H17NO5", 2}, {Calcium, "Ca", 1}}},
	"pyridoxine-hydrochloride":          {"C8H12ClNO3", []part{{VitaminB6, "C8H11NO3", 1}, {Chloride, "Cl", 1}}},
	"cyanocobalamin":                    {"C63H88CoN14O14P", []part{{VitaminB12, "C63H88CoN14O14P", 1}}},
	"folic-acid":                        {"C19H19N7O6", []part{{Folate, "C19H19N7O6", 1}}},
	"riboflavin":                        {"C17H20N4O6", []part{{Riboflavin, "C17H20N4O6", 1}}},
	"nicotinamide":                      {"C6H6N2O", []part{{Niacin, "C6H6N2O", 1}}},
	"biotin":                            {"C10H16N2O3S", []part{{Biotin, "C10H16N2O3S", 1}}},
	"phylloquinone":                     {"C31H46O2", []part{{Phylloquinone, "C31H46O2", 1}}},
	"l-carnitine":                       {"C7H15NO3", []part{{Carnitine, "C7H15NO3", 1}}},
	"l-carnitine-tartrate":              {"C18H36N2O12", []part{{Carnitine, "C7H15NO3", 2}}},
	"l-methionine":                      {"C5H11NO2S", []part{{Methionine, "C5H11NO2S", 1}}},
	"dl-methionine":                     {"C5H11NO2S", []part{{Methionine, "C5H11NO2S", 1}}},
	"l-lysine-hcl":                      {"C6H15ClN2O2", []part{{Lysine, "C6H14N2O2", 1}, {Chloride, "Cl", 1}}},
	"l-tryptophan":                      {"C11H12N2O2", []part{{Tryptophan, "C11H12N2O2", 1}}},
	"l-arginine":                        {"C6H14N4O2", []part{{Arginine, "C6H14N4O2", 1}}},
	"taurine-powder":                    {"C2H7NO3S", []part{{Taurine, "C2H7NO3S", 1}}},
}

// roundedShare is how far a printed four-digit mass fraction may be from the one
// computed from the masses.
const roundedShare = 1.5e-3

// TestChemistryOfPureCompounds works out every mass fraction from atomic masses.
func TestChemistryOfPureCompounds(t *testing.T) {
	for name, c := range compounds {
		f, ok := Default().Food(name)
		if !ok {
			t.Errorf("%s is not in the catalogue", name)
			continue
		}
		for _, p := range c.parts {
			grams := 100 * p.times * mass(p.of) / mass(c.formula)
			want, err := Convert(grams, "g", p.id)
			if err != nil {
				t.Fatal(err)
			}
			if got := f.Per100g[p.id].Lo; math.Abs(got-want) > roundedShare*want {
				t.Errorf("%s %s: %g per 100 g, chemistry gives %.6g", name, p.id, got, want)
			}
		}
		if water := f.Per100g[Iron]; !water.IsKnown() {
			t.Errorf("%s: what a pure compound does not hold must be known to be zero", name)
		}
	}
	for _, f := range Default().All() {
		if _, checked := compounds[f.ID]; f.State == "pure" && !checked && !strings.HasPrefix(f.ID, "salt-") && !strings.HasPrefix(f.ID, "vitamin-e-") {
			t.Errorf("%s is pure and its chemistry is not checked", f.ID)
		}
	}
}

// TestSupplementsAgainstReference compares each row of the supplement table.
func TestSupplementsAgainstReference(t *testing.T) {
	rename := map[string]string{"vitamin_e": "vitamin-e", "vitamin_d": "vitamin-d", "vitamin_b6": "vitamin-b6",
		"vitamin_b12": "vitamin-b12", "pantothenic_acid": "pantothenic-acid", "folic_acid": "folate", "vitamin_e_iu": "vitamin-e"}
	left := map[string]string{
		"vitamin-d3-drops":            "no weight is published; a household enters its label",
		"kelp-powder-unspecified":     "a caution without a figure",
		"vitamin-e-mixed-tocopherols": "a caution without a figure",
	}
	compared := 0
	for _, row := range reference(t, "supplements.csv") {
		name := row["nutrient"]
		if name == "caution" || name == "energy" || name == "vitamin_a_iu" || left[row["id"]] != "" {
			continue
		}
		f, ok := Default().Food(row["id"])
		if !ok {
			t.Errorf("%s is not in the catalogue", row["id"])
			continue
		}
		if r, ok := rename[name]; ok {
			name = r
		}
		id, ok := ParseID(name)
		if !ok {
			t.Errorf("no nutrient %q", name)
			continue
		}
		printed, err := strconv.ParseFloat(row["amount"], 64)
		if err != nil {
			t.Fatal(err)
		}
		want, err := Convert(printed, row["unit"], id)
		if err != nil {
			t.Fatal(err)
		}
		per := row["per_gram_or_unit"]
		profile, times := &f.Per100g, 100.0
		switch {
		case strings.Contains(per, "tablet") || strings.Contains(per, "capsule"):
			profile, times = f.PerUnit, 1
		case per == "1 mg":
			times = 100e3
		}
		compared++
		// Printed oil figures are rounded to a tenth of a milligram per gram.
		if got := profile[id].Lo; math.Abs(got-want*times) > 2e-3*want*times {
			t.Errorf("%s %s: %g, the table gives %g", row["id"], id, got, want*times)
		}
		if src := f.SourceOf(id); (row["checked"] == "memory") != src.Recalled {
			t.Errorf("%s %s: recalled=%v, the table says %s", row["id"], id, src.Recalled, row["checked"])
		}
	}
	if compared < 95 {
		t.Errorf("only %d figures compared", compared)
	}
	t.Logf("%d figures compared", compared)
}
