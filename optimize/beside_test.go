package optimize

import (
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/verify"
)

func lineOf(t *testing.T, plan *household.Plan, id nutrients.ID) *household.NutrientLine {
	t.Helper()
	for i := range plan.Pet.Nutrients {
		if plan.Pet.Nutrients[i].ID == id {
			return &plan.Pet.Nutrients[i]
		}
	}
	t.Fatalf("no line of %s", id)
	return nil
}

// TestLeanMeatIsPlannedForPuppies: lysine of puppies is printed with ">" at 5 g per 1000
// kcal (NRC 2006, table 15-3): lean meat and rice bring more, which was refused. The plan
// is made, says so, and no add-on adds to it.
func TestLeanMeatIsPlannedForPuppies(t *testing.T) {
	h := sample.QuinceLane(t)
	food := func(id string) *nutrients.Food {
		f, ok := h.Catalogue.Food(id)
		if !ok {
			t.Fatal(id)
		}
		return f
	}
	h.Base.Ingredients = []household.Ingredient{
		{Food: food("chicken-breast-skinless-raw"), Grams: 3000, Method: "simmered"},
		{Food: food("rice-white-long-unenriched-raw"), Grams: 700, Method: "boiled"},
		{Food: food("oil-canola"), Grams: 150},
	}
	lysine := household.Addon{Food: food("l-lysine-hcl")}
	h.Addons = append(h.Addons, lysine)
	pet := sample.PetNamed(t, h, "Juno")
	plan := solve(t, h, pet)
	if !plan.Pet.Status.Printable() {
		t.Fatalf("%s: %v", plan.Pet.Status, plan.Pet.Conflict)
	}
	line := lineOf(t, plan, nutrients.Lysine)
	if *line.Amount <= *line.NoHarm || line.State != household.StateMet {
		t.Fatalf("lysine %g of %g, %s: the base was to bring more than is known to do no harm", *line.Amount, *line.NoHarm, line.State)
	}
	if !strings.Contains(strings.Join(plan.Pet.Cautions, "\n"), "No harm was seen up to") {
		t.Errorf("nothing says so: %v", plan.Pet.Cautions)
	}
	for _, a := range plan.Pet.Addons {
		if a.Food == "l-lysine-hcl" {
			t.Errorf("%g g of lysine on top of it", a.G)
		}
	}
	// Put there by hand it is found.
	plan.Pet.Addons = append(plan.Pet.Addons, household.AddonAmount{Food: lysine.Food.ID, Name: lysine.Food.Name, G: 2, StepG: 0.01, ServedAs: "weighed", Digest: lysine.Food.Digest()})
	found := false
	for _, f := range verify.Verify(plan, h, pet) {
		found = found || f.Code == "verify-no-harm"
	}
	if !found {
		t.Error("an add-on past the amount without harm passes")
	}
}

// TestArginineRisesWithProtein: a gram more of protein asks for 0.01 g more of arginine
// for a dog (NRC 2006, tables 15-3 to 15-14; FEDIAF table VII-13); the plan shows the
// higher minimum and what it was before.
func TestArginineRisesWithProtein(t *testing.T) {
	h := sample.QuinceLane(t)
	for i := range h.Pets {
		plan := solve(t, h, &h.Pets[i])
		line, protein := lineOf(t, plan, nutrients.Arginine), lineOf(t, plan, nutrients.Protein)
		each := 0.01
		if h.Pets[i].Animal.Species == nutrients.Cat {
			each = 0.02
		}
		if line.LowerBase == nil {
			t.Errorf("%s: %g g of protein over the minimum of %g add nothing", plan.Pet.Pet, *protein.Amount, *protein.Lower)
			continue
		}
		if want := *line.LowerBase + each*(*protein.Amount-*protein.Lower); *line.Lower < want*(1-1e-9) || *line.Lower > want*(1+1e-3) {
			t.Errorf("%s: at least %g g of arginine, %g wanted", plan.Pet.Pet, *line.Lower, want)
		}
		*line.Lower = *line.LowerBase
		line.LowerBase = nil
		found := false
		for _, f := range verify.Verify(plan, h, &h.Pets[i]) {
			found = found || f.Code == "verify-limit"
		}
		if !found {
			t.Errorf("%s: the plain minimum passes", plan.Pet.Pet)
		}
	}
}
