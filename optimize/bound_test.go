package optimize

import (
	"context"
	"math/rand"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
)

// The certificate bounds what is printed: no plan, met or short, gives less add-on than
// it calls the least, whatever it is asked to prefer.
func TestCertificateBoundsWhatIsPrinted(t *testing.T) {
	r := rand.New(rand.NewSource(404))
	met, short := 0, 0
	for range sample.Count(40, 300) {
		h := [...]func(*rand.Rand) *household.Household{sample.Draw, sample.DrawStocked}[r.Intn(2)](r)
		pet := &h.Pets[0]
		pet.Prefer = [...]household.Preference{household.PreferLeast, household.PreferFewest, household.PreferCheapest}[r.Intn(3)]
		h.Kitchen.FineScaleG = [...]float64{0, 0.1, 0.01}[r.Intn(3)]
		plan, err := Solve(context.Background(), Request{Household: h, Pet: pet})
		if err != nil {
			t.Fatal(err)
		}
		if !plan.Pet.Status.Printable() {
			continue
		}
		given := 0.0
		for _, a := range plan.Pet.Addons {
			given += a.G
		}
		if least := plan.Pet.Certificate.LeastAddonG; given < least*(1-1e-7)-1e-7 {
			t.Errorf("%s, %s: %.9g g are printed, %.9g g called the least", plan.Pet.Status, pet.Prefer, given, least)
		}
		if err := VerifyCertificate(plan); err != nil {
			t.Errorf("%s, %s: %v", plan.Pet.Status, pet.Prefer, err)
		}
		if plan.Pet.Status == household.Met {
			met++
		} else {
			short++
		}
	}
	t.Logf("%d met, %d short", met, short)
	if met < 3 || short < 5 {
		t.Errorf("%d met, %d short: too few of a kind", met, short)
	}
}

// A plan that gives less than its least does not pass the check of its certificate.
func TestCertificateBelowItsLeastIsFound(t *testing.T) {
	h := sample.QuinceLane(t)
	plan := solve(t, h, sample.PetNamed(t, h, "Marlow"))
	for i := range plan.Pet.Addons {
		plan.Pet.Addons[i].G *= 0.5
	}
	if err := VerifyCertificate(plan); err == nil {
		t.Error("half of the add-on passes")
	}
}

// A day that no scale can weigh keeps its bound, which is one of exact amounts: a plan
// without amounts does not contradict it.
func TestBoundOfAPlanWithoutAmounts(t *testing.T) {
	h := sample.QuinceLane(t)
	h.Kitchen.ScaleG, h.Kitchen.FineScaleG = 700, 0
	plan := solve(t, h, sample.PetNamed(t, h, "Tansy"))
	if plan.Pet.Status != household.Impossible || plan.Pet.Certificate == nil {
		t.Fatalf("the plan is %s, its certificate %v", plan.Pet.Status, plan.Pet.Certificate != nil)
	}
	if err := VerifyCertificate(plan); err != nil {
		t.Error(err)
	}
}
