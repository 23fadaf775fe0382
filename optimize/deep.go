package optimize

import (
	"fmt"
	"math"
	"time"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/optimize/lp"
	"bowlwright/optimize/verify"
)

const (
	// opinionLimit is how long the other solver may take: it can run for ever.
	opinionLimit = 2 * time.Second
	// opinionAgrees is how far, relative, two solvers' least add-on may differ.
	opinionAgrees = 1e-6
)

// Deep checks a plan as thoroughly as this program can by itself: it recomputes it
// (package verify), checks the certificate in exact arithmetic (VerifyCertificate), and
// holds its program against the household, which is the one of which shared is from Share.
func Deep(plan *household.Plan, shared *Shared, pet *household.Pet) []household.Finding {
	found := verify.Against(plan, shared.of, pet, shared.snapshot.Identity, shared.digests.Of)
	add := func(code string, severity household.Severity, format string, args ...any) {
		found = append(found, household.Finding{Pet: pet.Name, Code: code, Severity: severity,
			Message: fmt.Sprintf(format, args...), Hint: diag.Command("to update the plan, run", "plan", pet.Name)})
	}
	if err := VerifyCertificate(plan); err != nil {
		add("certificate", household.Problem, "%v", err)
		return found
	}
	if plan.Pet.Certificate == nil {
		return found
	}
	if shared.digests.ShelfDigest(shared.of, pet) == plan.Pet.ShelfDigest {
		if err := programOfHousehold(plan, shared, pet); err != nil {
			add("certificate", household.Problem, "%v", err)
			return found
		}
	}
	return found
}

// SecondOpinion has another solver work out the least add-on of a plan from its recorded
// program. What that solver cannot answer is a notice, not a fault. It takes a hundred
// times as long as all that Deep does.
func SecondOpinion(plan *household.Plan) []household.Finding {
	if plan.Pet.Certificate == nil || plan.Pet.Certificate.Program == nil {
		return nil
	}
	var found []household.Finding
	add := func(code string, severity household.Severity, format string, args ...any) {
		found = append(found, household.Finding{Pet: plan.Pet.Pet, Code: code, Severity: severity,
			Message: fmt.Sprintf(format, args...), Hint: diag.Command("to update the plan, run", "plan", plan.Pet.Pet)})
	}
	p, _, err := programOf(plan)
	if err != nil {
		add("certificate", household.Problem, "%v", err)
		return found
	}
	res, err := lp.SecondOpinion(*p, opinionLimit)
	least := plan.Pet.Certificate.LeastAddonG
	switch {
	case err != nil:
		add("second-opinion", household.Problem, "the recorded program is not one: %v", err)
	case res.Status == lp.Imprecise || res.Status == lp.IterationLimit:
		add("no-second-opinion", household.Notice, "the second solver has no answer (%v); the certificate holds without it", res.Status)
	case res.Status == lp.Optimal && res.Objective >= least-opinionAgrees*math.Max(1, least) && res.Objective <= least+opinionAgrees*math.Max(1, least):
	case res.Status == lp.Optimal:
		add("second-opinion", household.Problem, "the second solver needs %.6g g of add-on, the plan says that %.6g g are the least", res.Objective, least)
	default:
		// The certificate is proved and the plan's own amounts keep the limits, so
		// it is the other solver that errs.
		add("no-second-opinion", household.Notice, "the second solver calls the program %v; the certificate holds without it", res.Status)
	}
	return found
}
