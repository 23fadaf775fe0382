package optimize

import (
	"context"
	"math"

	"bowlwright/household"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/verify"
	"bowlwright/optimize/weighing"
)

// Request asks for the plan of one pet.
type Request struct {
	Household *household.Household
	Pet       *household.Pet
	Today     household.Date
	// Version of the program, for the record.
	Version string
	// Previous is the plan in use, nil for none; `closest` stays near it.
	Previous *household.Plan
	// Shared is what plans of this household have in common, from Share; nil works it
	// out for this plan alone.
	Shared *Shared
}

// Solve computes a plan. What the data make impossible is a plan with the status
// short, over or impossible, never an error; an error means that no verified
// answer was found, or that no energy can be worked out for the animal
// (*nutrients.RangeError). What is shared with plans of another household is a fault
// of the caller.
func Solve(ctx context.Context, req Request) (*household.Plan, error) {
	if req.Shared == nil {
		req.Shared = Share(req.Household)
	}
	if req.Shared.of != req.Household {
		panic("optimize: what plans share is of another household")
	}
	plan, missed, err := solveAs(ctx, req, req.Pet.Prefer)
	if err != nil || plan.Pet.Status == household.Met {
		return plan, err
	}
	// Few items, or those of the plan in use, may be what the scales cannot weigh finely
	// enough.
	with := ""
	switch {
	case req.Pet.Prefer == household.PreferFewest:
		with = "with the fewest add-ons"
	case req.Pet.Prefer == household.PreferClosest && req.Previous != nil:
		with = "close to the plan in use"
	}
	if with != "" {
		least, missedByLeast, err := solveAs(ctx, req, household.PreferLeast)
		switch {
		case err != nil:
		case least.Pet.Status == household.Met:
			least.Pet.Notes = append(least.Pet.Notes, sentence(with+" no weighable amounts keep to every limit; this is the plan with the least add-on"))
			return least, nil
		case missedByLeast < missed-diet.ViolationSliver:
			least.Pet.Notes = append(least.Pet.Notes, sentence(with+" the weighable amounts fall further below the minimums; this is the plan with the least add-on"))
			return least, nil
		}
	}
	return plan, err
}

// solveAs makes the plan by a preference, and says what it misses of all limits, each in
// units of its limit: infinite for a plan without amounts.
func solveAs(ctx context.Context, req Request, prefer household.Preference) (plan *household.Plan, missed float64, err error) {
	none := math.Inf(1)
	p, err := diet.FormulateOn(req.Household, req.Pet, &req.Shared.composition)
	if err != nil {
		return nil, none, err
	}
	p.Prefer = prefer
	r := newRecord(req, p)
	if p.Rows[0].A[0] <= 0 {
		r.refuse(household.Impossible, "the base "+p.Items[0].Name+" has no known energy")
		return r.done(), none, nil
	}
	if over := p.ExtrasOver(); len(over) > 0 {
		r.refuse(household.Over, over...)
		return r.done(), none, nil
	}
	s, err := p.Solve(ctx, p.AmountsOf(req.Previous))
	if err != nil {
		return nil, none, err
	}
	if s.Farkas != nil {
		if over := p.BaseOver(); len(over) > 0 {
			r.refuse(household.Over, append(over, p.Conflict()...)...)
		} else {
			r.refuse(household.Impossible, p.Conflict()...)
		}
		return r.done(), none, nil
	}
	day, err := weighing.Weigh(p, s)
	if err != nil {
		return nil, none, err
	}
	if day == nil || p.Missed(day.Grams) > s.Violation+diet.ViolationSliver {
		if p, s, day, err = beyondKitchen(ctx, req, p, s, day); err != nil {
			return nil, none, err
		}
		r.p = p
	}
	if day == nil {
		r.certify(s)
		r.refuse(household.Impossible, "no amounts that the scales can weigh keep to the maximums and the energy: a finer scale is needed")
		return r.done(), none, nil
	}
	missed = p.Missed(day.Grams)
	if prefer == household.PreferFewest && s.Violation == 0 && missed == 0 {
		var note string
		if day, note, err = weighing.Fewest(ctx, p, s, day); err != nil {
			return nil, none, err
		}
		if note != "" {
			p.Notes = append(p.Notes, note)
		}
	}
	bound, err := p.AtMissed(s, missed)
	if err != nil {
		return nil, none, err
	}
	r.certify(bound)
	r.fill(s, day)
	plan = r.done()
	if found := verify.Against(plan, req.Household, req.Pet, req.Shared.snapshot.Identity, req.Shared.digests.Of); len(found) > 0 {
		return nil, none, &UnverifiedError{req.Pet.Name, found}
	}
	return plan, missed, nil
}

// beyondKitchen looks for whole steps that miss less with more than a kitchen gives: the
// first multiple of its caps that misses no more than exact amounts do, else the one
// that misses least.
func beyondKitchen(ctx context.Context, req Request, p *diet.Program, s *diet.Solution, day *weighing.Day) (*diet.Program, *diet.Solution, *weighing.Day, error) {
	within := p
	for _, times := range diet.TimesKitchen {
		wide := within.BeyondKitchen(times)
		if wide == nil {
			break
		}
		found, err := wide.Solve(ctx, wide.AmountsOf(req.Previous))
		if err != nil || found.Farkas != nil {
			return p, s, day, err
		}
		got, err := weighing.Weigh(wide, found)
		if err != nil {
			return p, s, day, err
		}
		if got != nil && (day == nil || wide.Missed(got.Grams) < p.Missed(day.Grams)-diet.ViolationSliver) {
			p, s, day = wide, found, got
		}
		if day != nil && p.Missed(day.Grams) <= s.Violation+diet.ViolationSliver {
			break
		}
	}
	return p, s, day, nil
}

// An UnverifiedError says that a plan did not pass its recomputation; it is a
// fault of the program.
type UnverifiedError struct {
	Pet      string
	Findings []household.Finding
}

func (e *UnverifiedError) Error() string {
	return "the plan of " + e.Pet + " does not pass its verification: " + e.Findings[0].Message
}
