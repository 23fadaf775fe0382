package optimize

import (
	"context"
	"fmt"
	"math"
	"math/rand"
	"os"
	"slices"
	"testing"

	"bowlwright/fixtures/outside"
	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize/diet"
)

// houseJar asks for one jar for all pets of a household.
func houseJar(h *household.Household) {
	h.Jars = []household.JarSpec{{Name: "house jar", Pets: h.PetNames(), Days: 28}}
}

func mixes(t testing.TB, h *household.Household, current []household.Jar) *Mixed {
	t.Helper()
	all, err := Mixes(context.Background(), MixRequest{Household: h, Today: household.DateOf(sample.Day), Version: "test", Current: current})
	if err != nil {
		t.Fatal(err)
	}
	return all[0]
}

// withTheJars is the household with jars on its shelf.
func withTheJars(t testing.TB, h *household.Household, jars []household.Jar) *household.Household {
	t.Helper()
	with, unusable := h.WithJars(jars)
	if len(unusable) > 0 {
		t.Fatal(unusable)
	}
	return with
}

func TestOneJarForTheExample(t *testing.T) {
	h := sample.QuinceLane(t)
	houseJar(h)
	m := mixes(t, h, nil)
	if len(m.Jars) != 1 || !m.New {
		t.Fatalf("%d jars, new %v", len(m.Jars), m.New)
	}
	if m.WeighingsTogether*2 > m.WeighingsAlone {
		t.Errorf("%d powders to weigh out in place of %d", m.WeighingsTogether, m.WeighingsAlone)
	}
	j := &m.Jars[0]
	if !j.Sound() {
		t.Error("the code of the jar is not that of what it holds")
	}
	with := withTheJars(t, h, m.Jars)
	shared := Share(with)
	sum := 0.0
	for i := range with.Pets {
		plan := solve(t, with, &with.Pets[i])
		if plan.Pet.Status != household.Met {
			t.Errorf("%s is %s", plan.Pet.Pet, plan.Pet.Status)
		}
		if plan.Pet.Jar == nil || plan.Pet.Jar.Mix.Digest != j.Digest {
			t.Fatalf("%s has no dose of the jar", plan.Pet.Pet)
		}
		for _, a := range plan.Pet.Addons {
			if slices.Contains(j.Replaces, a.Food) {
				t.Errorf("%s gets %s beside the jar", plan.Pet.Pet, a.Food)
			}
		}
		for _, f := range Deep(plan, shared, &with.Pets[i]) {
			t.Errorf("%s: %s", plan.Pet.Pet, f.Message)
		}
		sum += addonGrams(plan)
	}
	if math.Abs(sum-m.Together) > 1e-9 {
		t.Errorf("the plans need %.4f g, %.4f were counted", sum, m.Together)
	}
	taken := 0.0
	for i := range with.Pets {
		taken += solve(t, with, &with.Pets[i]).Pet.Jar.DoseG * 28
	}
	if j.MakesG < taken || j.MakesG > 1.1*taken {
		t.Errorf("the recipe makes %.1f g, the doses of 28 days take %.1f", j.MakesG, taken)
	}
	if b := m.Bound(10); b > m.Together || b < m.Least {
		t.Errorf("bound %.2f g, with the jar %.2f, least alone %.2f", b, m.Together, m.Least)
	}
}

// What is in a jar is judged by its parts: what a pet avoids, what harms its species, the
// cap of a part.
func TestJarHoldsWhatItsPartsAllow(t *testing.T) {
	h := sample.QuinceLane(t)
	houseJar(h)
	j := mixes(t, h, nil).Jars[0]
	with := withTheJars(t, h, []household.Jar{j})
	pip := sample.PetNamed(t, with, "Pip")
	pip.Avoid = []string{"kelp"}
	if slices.ContainsFunc(household.Offered(with, pip), func(a household.Addon) bool { return a.Jar != nil }) {
		t.Error("Pip avoids kelp and is offered a jar with kelp")
	}
	pip.Avoid = nil
	var kelp float64
	for _, p := range j.Parts {
		if p.Food == "kelp-powder-ascophyllum" {
			kelp = p.G / j.MakesG
		}
	}
	if kelp == 0 {
		t.Fatal("the jar holds no kelp")
	}
	for i := range h.Addons {
		if h.Addons[i].Food.ID == "kelp-powder-ascophyllum" {
			h.Addons[i].MaxG = 0.001
		}
	}
	with = withTheJars(t, h, []household.Jar{j})
	for _, a := range household.Offered(with, sample.PetNamed(t, with, "Pip")) {
		if a.Jar != nil && math.Abs(a.MaxG-0.001/kelp) > 1e-9 {
			t.Errorf("a cap of 0.001 g of kelp lets Pip have %.5f g of the jar, want %.5f", a.MaxG, 0.001/kelp)
		}
	}
}

// A jar in hand goes on being used after a new weight, a changed base and for a new pet.
func TestJarInHandIsDosedAnew(t *testing.T) {
	for name, change := range map[string]func(h *household.Household){
		"lighter by 10 %":  func(h *household.Household) { h.Pets[2].Animal.WeightKg *= 0.9 },
		"heavier by 10 %":  func(h *household.Household) { h.Pets[3].Animal.WeightKg *= 1.1 },
		"base of 5 % more": func(h *household.Household) { h.Base.Ingredients[0].Grams *= 1.05 },
	} {
		t.Run(name, func(t *testing.T) {
			h := sample.QuinceLane(t)
			houseJar(h)
			j := mixes(t, h, nil).Jars
			change(h)
			m := mixes(t, h, j)
			if m.New || m.Why != "" || len(m.Jars) != 1 || m.Jars[0].Digest != j[0].Digest {
				t.Errorf("the jar is not kept: %s", m.Why)
			}
		})
	}
}

// A jar with which somebody falls short is not kept, unless it is asked to be.
func TestUnsuitableJarIsNotKept(t *testing.T) {
	h := sample.QuinceLane(t)
	houseJar(h)
	j := mixes(t, h, nil).Jars
	for k := range j[0].Parts {
		if j[0].Parts[k].Food == "choline-bitartrate" {
			j[0].Parts[k].G = 0.2
		}
	}
	j[0].Identify()
	m := mixes(t, h, j)
	if !m.New || m.Why == "" || m.Jars[0].Digest == j[0].Digest {
		t.Errorf("a jar without choline is kept (%q)", m.Why)
	}
	all, err := Mixes(context.Background(), MixRequest{Household: h, Today: household.DateOf(sample.Day), Current: j, Keep: true})
	if err != nil || all[0].New {
		t.Errorf("asked to keep the jar, a new one is composed (%v)", err)
	}
}

// drawHousehold draws pets for the pot and the shelf of the example, the pot's amounts
// moved by up to a third.
func drawHousehold(t testing.TB, r *rand.Rand) *household.Household {
	t.Helper()
	h := sample.QuinceLane(t)
	for i := range h.Base.Ingredients {
		h.Base.Ingredients[i].Grams *= 0.75 + 0.5*r.Float64()
	}
	h.Pets = nil
	for k := range 2 + r.Intn(4) {
		pet := sample.DrawPet(r)
		pet.Name = fmt.Sprintf("Pet %d", k)
		pet.Animal.Standard = h.Standard
		h.Pets = append(h.Pets, pet)
	}
	for i := range h.Addons {
		h.Addons[i].Pets = nil
	}
	houseJar(h)
	return h
}

// Drawn households with one jar: each plan is verified as any other, nobody who is met
// alone falls short, who is short alone misses no more than was promised, and HiGHS finds
// the same least grams with the jar.
func TestDrawnHouseholdsWithOneJar(t *testing.T) {
	households := 8
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		households = 60
	}
	r := rand.New(rand.NewSource(16))
	var programs []outside.Program
	var least []float64
	var ratios []float64
	served, met, apart, several := 0, 0, 0, 0
	weighed, weighedAlone := 0, 0
	for k := range households {
		h := drawHousehold(t, r)
		m := mixes(t, h, nil)
		if len(m.Jars) == 0 {
			continue
		}
		served++
		weighed, weighedAlone = weighed+m.WeighingsTogether, weighedAlone+m.WeighingsAlone
		ratios = append(ratios, m.Together/m.Alone)
		if len(m.Jars[0].Apart) > 0 {
			apart++
		}
		if len(m.Jars) > 1 {
			several++
		}
		with := withTheJars(t, h, m.Jars)
		all := true
		for i := range h.Pets {
			alone, together := solve(t, h, &h.Pets[i]), solve(t, with, &with.Pets[i])
			if with.JarOf(h.Pets[i].Name) == nil {
				continue
			}
			if alone.Pet.Status == household.Met && together.Pet.Status != household.Met {
				all = false
			}
			if err := VerifyCertificate(together); err != nil {
				t.Errorf("household %d, %s: %v", k, h.Pets[i].Name, err)
			}
			p, err := diet.Formulate(with, &with.Pets[i])
			if err != nil {
				t.Fatal(err)
			}
			s := solved(t, p)
			own, err := diet.Formulate(h, &h.Pets[i])
			if err != nil {
				t.Fatal(err)
			}
			if more := s.Violation - solved(t, own).Violation; more > 0.01+0.002 {
				t.Errorf("household %d, %s misses %.4f of a limit more than with a premix of its own", k, h.Pets[i].Name, more)
			}
			programs, least = append(programs, outside.Of(s.Problem)), append(least, s.LeastG)
		}
		if all {
			met++
		}
	}
	slices.Sort(ratios)
	t.Logf("%d of %d households have a jar, %d with a powder apart, %d with several jars; in %d nobody falls short who is met alone", served, households, apart, several, met)
	t.Logf("add-on with the jar over alone: median %.3f, nine of ten %.3f; %d powders weighed out in place of %d", ratios[len(ratios)/2], ratios[9*(len(ratios)-1)/10], weighed, weighedAlone)
	if float64(met) < 0.97*float64(served) {
		t.Errorf("in %d of %d households somebody falls short", served-met, served)
	}
	python := outside.Python(t, "scipy")
	for i, a := range outside.Ask[outside.Program, outside.Answer](t, python, "lp/testdata/highs.py", programs) {
		if a.Objective == nil || math.Abs(*a.Objective-least[i]) > 1e-5*(1+least[i]) {
			t.Errorf("program %d: %.9g g, HiGHS %v %v", i, least[i], a.Status, a.Objective)
		}
	}
}

// Doses in whole scoops, or weighed and said where no scoops of that size do.
func TestDosesInScoops(t *testing.T) {
	h := sample.QuinceLane(t)
	houseJar(h)
	h.Jars[0].ScoopG = 3.4
	m := mixes(t, h, nil)
	if len(m.Jars) != 1 || m.Jars[0].ScoopG != 3.4 {
		t.Fatalf("no jar in scoops: %v", m.Notes)
	}
	with := withTheJars(t, h, m.Jars)
	taken := 0.0
	for i := range with.Pets {
		plan := solve(t, with, &with.Pets[i])
		j := plan.Pet.Jar
		if plan.Pet.Status != household.Met || j == nil || j.Scoops < 1 || math.Abs(float64(j.Scoops)*3.4-j.DoseG) > 1e-9 {
			t.Errorf("%s is %s with %+v", plan.Pet.Pet, plan.Pet.Status, j)
			continue
		}
		taken += 28 * j.DoseG
	}
	if m.Jars[0].MakesG < taken {
		t.Errorf("the recipe makes %.1f g, the scoops of 28 days take %.1f", m.Jars[0].MakesG, taken)
	}
	h.Jars[0].ScoopG = 1.2
	m = mixes(t, h, nil)
	if len(m.Jars) != 1 || m.Jars[0].ScoopG != 0 || len(m.Notes) == 0 {
		t.Errorf("scoops of 1.2 g, of which Juno would need 17: %v %v", m.Jars, m.Notes)
	}
}

// Who cannot be planned at all is left out, and the others get their jar.
func TestJarWithoutThoseWhoCannotBePlanned(t *testing.T) {
	h := sample.QuinceLane(t)
	houseJar(h)
	h.Pets[3].Animal.AgeWeeks, h.Pets[3].Animal.WeightKg = 2, 0.4
	over := &h.Pets[0]
	over.Extras = append(over.Extras, household.Portion{Food: h.Base.Ingredients[0].Food, Grams: 3000})
	m := mixes(t, h, nil)
	if len(m.Jars) != 1 || !slices.Equal(m.Jars[0].Pets, []string{"Tansy", "Pip"}) || len(m.Notes) < 2 {
		t.Errorf("%v %v", m.Jars, m.Notes)
	}
}

// A newcomer whom the jar in use does not meet keeps a premix of its own, and again the
// next time; the others keep the jar.
func TestNewcomerThatTheJarDoesNotMeet(t *testing.T) {
	h := sample.QuinceLane(t)
	h.Jars = []household.JarSpec{{Name: "house jar", Pets: []string{"Marlow", "Tansy"}, Days: 28}}
	j := mixes(t, h, nil).Jars
	h.Jars[0].Pets = h.PetNames()
	for round := range 2 {
		m := mixes(t, h, j)
		if m.New {
			t.Fatalf("round %d: the jar is composed anew: %s", round, m.Why)
		}
		with := withTheJars(t, h, m.Jars)
		for i := range with.Pets {
			plan := solve(t, with, &with.Pets[i])
			if plan.Pet.Status != household.Met {
				t.Errorf("round %d: %s is %s", round, plan.Pet.Pet, plan.Pet.Status)
			}
			if (plan.Pet.Jar != nil) != m.Jars[0].Serves(plan.Pet.Pet) {
				t.Errorf("round %d: %s has a jar: %v", round, plan.Pet.Pet, plan.Pet.Jar != nil)
			}
		}
		t.Logf("round %d: %v serves %v", round, m.Jars[0].Code, m.Jars[0].Pets)
	}
}

// One rate: as many grams of jar to a gram of base for all, to half a step of the scale,
// and every plan proved with that row in its program.
func TestOneRateForAll(t *testing.T) {
	h := sample.QuinceLane(t)
	houseJar(h)
	h.Jars[0].PerBase = true
	m := mixes(t, h, nil)
	if len(m.Jars) != 1 || m.Jars[0].RateG <= 0 || len(m.Jars[0].Pets) < 3 {
		t.Fatalf("no jar with one rate: %v", m.Notes)
	}
	with := withTheJars(t, h, m.Jars)
	shared := Share(with)
	for i := range with.Pets {
		plan := solve(t, with, &with.Pets[i])
		if plan.Pet.Status != household.Met {
			t.Errorf("%s is %s", plan.Pet.Pet, plan.Pet.Status)
		}
		if with.JarOf(plan.Pet.Pet) == nil {
			continue
		}
		if off := math.Abs(plan.Pet.Jar.DoseG - m.Jars[0].RateG/100*plan.Pet.BaseG); off > 0.005+1e-6 {
			t.Errorf("%s gets %.2f g of the jar to %.0f g of base: %.4f g off the rate", plan.Pet.Pet, plan.Pet.Jar.DoseG, plan.Pet.BaseG, off)
		}
		for _, f := range Deep(plan, shared, &with.Pets[i]) {
			t.Errorf("%s: %s", plan.Pet.Pet, f.Message)
		}
		plan.Pet.Jar.Mix.RateG *= 1.1
		if VerifyCertificate(plan) == nil {
			t.Errorf("%s: another rate than the program's goes unnoticed", plan.Pet.Pet)
		}
	}
}
