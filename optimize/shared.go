package optimize

import (
	"context"

	"bowlwright/household"
	"bowlwright/household/parallel"
	"bowlwright/nutrients"
)

// shared is what the plans of one household have in common, worked out once: the
// base and the digests of the foods.
type shared struct {
	snapshot    household.BaseSnapshot
	composition nutrients.Profile
	digests     map[*nutrients.Food]string
}

// share works out what the plans of a household have in common.
func share(h *household.Household) *shared {
	s := &shared{snapshot: h.Base.Snapshot(), digests: map[*nutrients.Food]string{}}
	s.composition, _ = h.Base.Composition()
	for _, a := range h.Addons {
		s.digests[a.Food] = a.Food.Digest()
	}
	for _, p := range h.Pets {
		for _, x := range p.Extras {
			s.digests[x.Food] = x.Food.Digest()
		}
	}
	return s
}

// digest returns a food's digest.
func (s *shared) digest(f *nutrients.Food) string {
	if d, ok := s.digests[f]; ok {
		return d
	}
	return f.Digest()
}

// SolveAll solves several requests for one household on all processors. Plans and
// errors stand in the order of the requests; each is what Solve returns.
func SolveAll(ctx context.Context, reqs []Request) ([]*household.Plan, []error) {
	plans, errs := make([]*household.Plan, len(reqs)), make([]error, len(reqs))
	if len(reqs) == 0 {
		return plans, errs
	}
	common := map[*household.Household]*shared{}
	for _, r := range reqs {
		if common[r.Household] == nil {
			common[r.Household] = share(r.Household)
		}
	}
	parallel.OnAllProcessors(len(reqs), func(i int) {
		req := reqs[i]
		req.shared = common[req.Household]
		plans[i], errs[i] = Solve(ctx, req)
	})
	return plans, errs
}
