package advice

import (
	"cmp"
	"context"
	"slices"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/lp"
	"bowlwright/optimize/weighing"
)

const (
	// mostAdditions is the size of a suggestion: more is another shelf.
	mostAdditions = 4
	// beamWidth is how many unfinished sets each size goes on with.
	beamWidth = 6
	// mostSuggestions bounds the list.
	mostSuggestions = 8
	// usefulShare is the share of the violation that an addition has to remove.
	usefulShare = 0.01
)

// Suggestion is something to put on the shelf.
type Suggestion struct {
	Additions []Addition `json:"additions"`
	// Reaches is true when every limit can be met with it; else Missing is what
	// stays missed, in sums of limits.
	Reaches bool    `json:"reaches"`
	Missing float64 `json:"missing"`
	// AddonG is the least add-on a day with it, all items together.
	AddonG float64 `json:"addon_g"`
	// Replaces names what is on the shelf and would not be needed any more.
	Replaces []string `json:"replaces,omitempty"`
}

// Addition is one food or supplement to get, with its daily amount.
type Addition struct {
	Food string  `json:"food"`
	Name string  `json:"name"`
	G    float64 `json:"g"`
}

// Suggest looks through the whole catalogue for the smallest additions to the
// shelf that make a pet's targets reachable: fewest items first, then least
// add-on. What the pet avoids, what harms its species and what is given by units
// of unknown weight is left out. A pet that is met already gets no suggestions.
// Amounts are exact, not yet rounded to scales. Errors are those of Solve.
func Suggest(ctx context.Context, req optimize.Request) ([]Suggestion, error) {
	h, pet := req.Household, req.Pet
	shelf, err := diet.Formulate(h, pet)
	if err != nil || shelf.Rows[0].A[0] <= 0 {
		return nil, err
	}
	wide := *h
	wide.Addons = append(slices.Clone(h.Addons), candidates(h, pet)...)
	p, err := diet.Formulate(&wide, pet)
	if err != nil {
		return nil, err
	}
	// What the shelf gives now stays as it is: a pet that is met needs nothing more.
	for j := range p.Items {
		for i := 1; i < len(shelf.Items); i++ {
			if j > 0 && shelf.Items[i].Id == p.Items[j].Id {
				p.Items[j].Cap = shelf.Items[i].Cap
			}
		}
	}
	s, err := newSuggester(p, shelf)
	if err != nil {
		return nil, err
	}
	start := s.try(nil)
	if start.missing <= diet.FeasibleTol {
		return nil, nil
	}
	found := []tried{}
	beam := []tried{start}
	for range mostAdditions {
		var next []tried
		seen := map[string]bool{}
		for _, b := range beam {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			for _, j := range s.candidates {
				if slices.Contains(b.added, j) {
					continue
				}
				added := append(slices.Clone(b.added), j)
				slices.Sort(added)
				if key := keyOf(added); !seen[key] {
					seen[key] = true
					if t := s.try(added); t.missing < b.missing*(1-usefulShare) {
						next = append(next, t)
					}
				}
			}
		}
		slices.SortStableFunc(next, func(a, b tried) int { return cmp.Compare(a.missing, b.missing) })
		for _, t := range next {
			if t.missing <= diet.FeasibleTol {
				found = append(found, t)
			}
		}
		if len(found) > 0 || len(next) == 0 {
			break
		}
		beam = next[:min(beamWidth, len(next))]
	}
	if len(found) == 0 {
		found = beam
		if len(beam[0].added) == 0 {
			return nil, nil
		}
	}
	return s.ranked(found, start), nil
}

// candidates are the foods of the catalogue that may go on the shelf of a pet. Raw
// food that ought to be cooked is none: its figures and amounts are those of the
// food as it is fed.
func candidates(h *household.Household, pet *household.Pet) []household.Addon {
	var all []household.Addon
	var limits []nutrients.Limit
	if t, err := nutrients.TargetsFor(diet.AnimalOf(h, pet)); err == nil {
		limits = t.Limits
	}
	for _, f := range h.Catalogue.All() {
		if f.PerUnit != nil || slices.ContainsFunc(h.Addons, func(a household.Addon) bool { return a.Food.ID == f.ID }) {
			continue
		}
		if cookedFirst(f, pet.Animal.Species) || !diet.MayGet(pet, f) || tooStrong(f, limits, pet) {
			continue
		}
		all = append(all, household.Addon{Food: f, Pets: []string{pet.Name}})
	}
	return all
}

// finestG is the step of the powder scales that are sold for homes, and weighedDays how
// long a premix keeps (both common practice).
const finestG, weighedDays = 0.01, 28

// tooStrong says of a pure compound that all a pet needs of what it brings, or all it may
// have of it, is less than any scale of a home weighs, even for a premix of several weeks: it is bought diluted,
// or as tablets.
func tooStrong(f *nutrients.Food, limits []nutrients.Limit, pet *household.Pet) bool {
	if f.State != "pure" {
		return false
	}
	most, days := 0.0, float64(min(weighedDays, household.PlanLasts(pet)))
	per := diet.PerGram(&f.Per100g, pet.Animal.Species)
	allowed, _ := diet.ConcentrateCap(f, &per, limits)
	for _, l := range limits {
		if l.Lower != nil && per[l.Nutrient].Lo > 0 {
			most = max(most, *l.Lower/per[l.Nutrient].Lo)
		}
		if l.Upper != nil && per[l.Nutrient].Hi > 0 {
			allowed = min(allowed, *l.Upper/per[l.Nutrient].Hi)
		}
	}
	return min(most, allowed)*days < weighing.StepsToWeigh*finestG
}

// suggester holds one program with every candidate in it, all shut off.
type suggester struct {
	p *diet.Program
	// own are the items of the shelf, candidates those of the catalogue.
	own, candidates []int
	q               lp.Problem
	solver          *lp.Solver
}

// tried is a set of additions and what it leaves missing.
type tried struct {
	added   []int
	missing float64
}

// newSuggester takes the program with every candidate and that of the shelf alone.
func newSuggester(p, shelf *diet.Program) (*suggester, error) {
	s := &suggester{p: p, q: p.Elastic()}
	for j := 1; j < len(p.Items); j++ {
		if slices.ContainsFunc(shelf.Items[1:], func(x diet.Item) bool { return x.Id == p.Items[j].Id }) {
			s.own = append(s.own, j)
		} else {
			s.candidates = append(s.candidates, j)
		}
	}
	var err error
	s.solver, err = lp.New(s.q)
	return s, err
}

// allow lets the additions in and shuts the other candidates off.
func (s *suggester) allow(added []int) {
	for _, j := range s.candidates {
		most := 0.0
		if slices.Contains(added, j) {
			most = s.p.Items[j].Cap
		}
		s.solver.SetColumn(j, 0, most)
	}
}

// infeasiblePenalty is the violation of a set with which nothing keeps the hard limits.
const infeasiblePenalty = 1e9

func (s *suggester) try(added []int) tried {
	s.allow(added)
	res, _ := s.solver.Bound()
	if res.Status != lp.Optimal {
		return tried{added, infeasiblePenalty}
	}
	return tried{added, res.Objective}
}

// ranked works out the least add-on of each set and sorts: reached before not,
// fewer before more, lighter before heavier.
func (s *suggester) ranked(found []tried, start tried) []Suggestion {
	before := s.used(nil, start.missing)
	var all []Suggestion
	for _, t := range found {
		x := s.used(t.added, t.missing)
		if x == nil {
			continue
		}
		out := Suggestion{Reaches: t.missing <= diet.FeasibleTol, Missing: t.missing, AddonG: sumOf(x[1:])}
		if out.Reaches {
			out.Missing = 0
		}
		for _, j := range t.added {
			out.Additions = append(out.Additions, Addition{s.p.Items[j].Id, s.p.Items[j].Name, x[j]})
		}
		for _, j := range s.own {
			if before != nil && before[j] > diet.CleanGrain && x[j] <= diet.CleanGrain {
				out.Replaces = append(out.Replaces, s.p.Items[j].Id)
			}
		}
		all = append(all, out)
	}
	slices.SortStableFunc(all, func(a, b Suggestion) int {
		if a.Reaches != b.Reaches {
			if a.Reaches {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(len(a.Additions), len(b.Additions)), cmp.Compare(a.Missing, b.Missing), cmp.Compare(a.AddonG, b.AddonG))
	})
	return all[:min(len(all), mostSuggestions)]
}

// used returns the amounts of the least add-on at a violation, nil for none.
func (s *suggester) used(added []int, missing float64) []float64 {
	n := len(s.p.Items)
	q := s.q
	q.Upper = slices.Clone(s.q.Upper)
	for _, j := range s.candidates {
		if !slices.Contains(added, j) {
			q.Upper[j] = 0
		}
	}
	q.Rows = slices.Clone(s.q.Rows)
	q.Rows[len(q.Rows)-1].Upper = missing + diet.FeasibleTol
	if missing > diet.FeasibleTol {
		q.Rows[len(q.Rows)-1].Upper = missing + diet.ViolationSliver
	}
	q.Cost = make([]float64, len(s.q.Cost))
	for j := 1; j < n; j++ {
		q.Cost[j] = 1
	}
	solver, err := lp.New(q)
	if err != nil {
		return nil
	}
	res := solver.Solve()
	if res.Status != lp.Optimal {
		return nil
	}
	return res.X[:n]
}

func keyOf(added []int) string {
	key := make([]byte, 0, 2*len(added))
	for _, j := range added {
		key = append(key, byte(j>>8), byte(j))
	}
	return string(key)
}

func sumOf(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum
}
