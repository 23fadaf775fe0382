package nutrients

import (
	"math"
	"testing"
)

// A weight that a pure compound accounts for may miss 100 g by what four printed
// digits and the assay of a feed or food grade leave open (pharmacopoeial assays
// allow from 95 to 101 %).
const leastOfHundred, mostOfHundred = 95.0, 101.0

// insideOthers are nutrients that are part of another one: their grams are counted
// there.
var insideOthers = map[ID][]ID{
	Protein: {Arginine, Histidine, Isoleucine, Leucine, Lysine, Methionine, Cystine, Phenylalanine, Tyrosine, Threonine, Tryptophan, Valine},
	Fat: {LinoleicAcid, AlphaLinolenicAcid, ArachidonicAcid, EPA, DHA, DPA, Saturated, Monounsaturated, Polyunsaturated,
		Cholesterol},
	Carbohydrate: {DigestibleCarbohydrate, Fiber, Sugars},
	Retinol:      {VitaminARAE},
}

// gramsNamed adds up the weight of everything that 100 g are said to hold.
func gramsNamed(p *Profile) float64 {
	counted := map[ID]bool{}
	for whole, parts := range insideOthers {
		if p[whole].Lo > 0 {
			for _, id := range parts {
				counted[id] = true
			}
		}
	}
	sum := 0.0
	for id := ID(0); id < firstDerived; id++ {
		if counted[id] || id == Ash || id == DigestibleCarbohydrate && p[Carbohydrate].Lo > 0 {
			continue
		}
		sum += p[id].Lo * 100 / perHundred(id.Info().Unit)
	}
	return sum
}

// TestNoMassIsUnexplained: a pure compound is known to hold its parts and nothing
// else, so its parts and what its block calls the rest weigh 100 g. The law is the
// conservation of mass; the rest of a compound with a formula is worked out here
// from standard atomic masses (IUPAC 2021).
func TestNoMassIsUnexplained(t *testing.T) {
	pure := 0
	for _, f := range Default().All() {
		if f.State != pureState {
			if f.Rest != (Rest{}) {
				t.Errorf("%s is a mixture and names a rest", f.ID)
			}
			continue
		}
		pure++
		named := gramsNamed(&f.Per100g)
		if sum := named + f.Rest.Grams; sum < leastOfHundred || sum > mostOfHundred {
			t.Errorf("%s: its parts weigh %.2f g of 100 g and its rest %.2f g (%s)", f.ID, named, f.Rest.Grams, f.Rest.What)
		}
		if (f.Rest.Grams > 0) != (f.Rest.What != "") {
			t.Errorf("%s: a rest of %g g is called %q", f.ID, f.Rest.Grams, f.Rest.What)
		}
		c, ok := compounds[f.ID]
		if !ok {
			continue
		}
		rest := 100.0
		for _, p := range c.parts {
			rest -= 100 * p.times * mass(p.of) / mass(c.formula)
		}
		if rest > 1 && math.Abs(rest-f.Rest.Grams) > 0.1 {
			t.Errorf("%s: the rest weighs %.2f g, %s leaves %.2f g", f.ID, f.Rest.Grams, c.formula, rest)
		}
	}
	if pure < 55 {
		t.Errorf("only %d pure compounds", pure)
	}
}

// TestDilutions: what is diluted at home holds the share of its pure compound that the
// steps leave, 1 in 100 each, and only vitamins for which no standard prints a maximum
// are diluted: a slip with selenium, iodine, copper or vitamin A and D poisons.
func TestDilutions(t *testing.T) {
	found := 0
	for _, f := range Default().All() {
		if f.Dilution == nil {
			continue
		}
		found++
		of, ok := Default().Food(f.Dilution.Of)
		if !ok || of.State != pureState {
			t.Fatalf("%s is made of %s, which is no pure compound", f.ID, f.Dilution.Of)
		}
		share := math.Pow(0.01, float64(f.Dilution.Times))
		if math.Abs(f.Dilution.Share()-share) > 1e-15 || len(f.Dilution.Recipe(f)) != f.Dilution.Times+1 {
			t.Errorf("%s: a share of %g", f.ID, f.Dilution.Share())
		}
		for id := ID(0); id < firstDerived; id++ {
			x := of.Per100g[id].Lo
			if x == 0 || id == Chloride {
				continue
			}
			if got := f.Per100g[id].Lo; math.Abs(got-x*share) > 1e-9*x*share {
				t.Errorf("%s %s: %g, the steps leave %g", f.ID, id, got, x*share)
			}
			for _, std := range Standards() {
				for _, r := range Rows(std) {
					if r.Nutrient == id.String() && (r.Bound == SUL || r.Bound == Max || r.Bound == Harm) {
						t.Errorf("%s: %s has a maximum, and must be bought diluted", f.ID, id)
					}
				}
			}
		}
	}
	if found < 3 {
		t.Errorf("only %d dilutions", found)
	}
}

// TestIodisedSaltIsSalt: 18.6 mg iodine per kg are 31.4 mg of potassium iodate;
// the rest of the pack is NaCl, 22.990/58.44 sodium and 35.45/58.44 chloride (IUPAC
// 2021). Anses Ciqual 2020 code 11058 prints the salt as such.
func TestIodisedSaltIsSalt(t *testing.T) {
	for _, id := range []string{"salt-iodized-eu", "salt-iodized-us"} {
		f, _ := Default().Food(id)
		iodine := f.Per100g[Iodine].Lo // ug per 100 g
		salt := 100 - iodine*1e-6*mass("KIO3")/mass("I")
		for nutrient, share := range map[ID]float64{Sodium: mass("Na"), Chloride: mass("Cl")} {
			want := salt * 1000 * share / mass("NaCl")
			if got := f.Per100g[nutrient].Lo; math.Abs(got-want) > 15 {
				t.Errorf("%s %s: %g mg per 100 g, salt holds %.0f", id, nutrient, got, want)
			}
		}
	}
}
