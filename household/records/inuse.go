package records

import (
	"maps"
	"slices"
	"sync"

	"bowlwright/household"
	"bowlwright/household/parallel"
)

// InUse returns the newest plan of each pet, keyed by pet name. When the newest
// record of a pet cannot be used, the pet has none: an older plan is never taken
// for the one in use.
func (r *Folder) InUse() (map[string]PlanRecord, []household.Finding, error) {
	names, newest, findings, err := r.newest()
	if err != nil {
		return nil, nil, err
	}
	plans := map[string]PlanRecord{}
	read, faults := r.readPlans(newest)
	for i, p := range read {
		if faults[i] != nil {
			continue
		}
		// Twice only when a record stands under the name of another pet.
		if old, twice := plans[p.Plan.Pet.Pet]; !twice || p.Seq > old.Seq {
			plans[p.Plan.Pet.Pet] = p
		}
	}
	return plans, append(findings, r.faultsOf(names, newest, faults)...), nil
}

// PlansOf returns the plans alone, keyed as the records are.
func PlansOf(inUse map[string]PlanRecord) map[string]*household.Plan {
	plans := make(map[string]*household.Plan, len(inUse))
	for pet, rec := range inUse {
		plans[pet] = rec.Plan
	}
	return plans
}

// EachInUse hands each of the pets, by its place in the list, the plan in use that
// InUse would return for it, nil for none; several at once, each just after it was
// read, so that a caller who keeps none never holds more than a few of a thousand.
// Every record that InUse reads is read, also of other pets, and the findings are the
// same.
//
// A pet gets its plan once, and once more where a newer plan of it turns up under the
// name of another pet, as a record has that was renamed; the last one holds.
func (r *Folder) EachInUse(pets []string, use func(i int, inUse *PlanRecord)) ([]household.Finding, error) {
	names, newest, findings, err := r.newest()
	if err != nil {
		return nil, err
	}
	place, bySlug := map[string]int{}, map[string]int{}
	for i, pet := range pets {
		place[pet], bySlug[household.Slug(pet)] = i, i
	}
	// A turn is a record with the pet that it should be about, nobody where it is not
	// one of those asked for; then come the pets without a record.
	const nobody = -1
	turns, recorded := make([]int, len(newest), len(newest)+len(pets)), make([]bool, len(pets))
	for k, n := range newest {
		turns[k] = nobody
		if i, asked := bySlug[n.slug]; asked {
			turns[k], recorded[i] = i, true
		}
	}
	for i := range pets {
		if !recorded[i] {
			turns = append(turns, i)
		}
	}
	faults, used := make([]*household.Finding, len(newest)), make([]int, len(pets))
	var mu sync.Mutex
	var elsewhere []PlanRecord
	parallel.OnAllProcessors(len(turns), func(k int) {
		var inUse *PlanRecord
		if k < len(newest) {
			p, fault := r.plan(newest[k])
			faults[k] = fault
			if fault == nil {
				of, asked := place[p.Plan.Pet.Pet]
				switch {
				case asked && of == turns[k]:
					inUse, used[of] = &p, p.Seq
				case asked:
					mu.Lock()
					elsewhere = append(elsewhere, p)
					mu.Unlock()
				}
			}
		}
		if turns[k] != nobody {
			use(turns[k], inUse)
		}
	})
	slices.SortFunc(elsewhere, func(a, b PlanRecord) int { return a.Seq - b.Seq })
	for _, p := range elsewhere {
		if i := place[p.Plan.Pet.Pet]; p.Seq > used[i] {
			used[i] = p.Seq
			use(i, &p)
		}
	}
	return append(findings, r.faultsOf(names, newest, faults)...), nil
}

// newest lists all records and, in the order of the slugs, the newest plan record of
// each slug, and says what is wrong with the folder. A slug has none where the newest
// one is missing, or where several were made apart.
func (r *Folder) newest() (names, newest []recordName, findings []household.Finding, err error) {
	names, findings, err = r.list()
	if err != nil {
		return nil, nil, nil, err
	}
	bySlug := map[string][]recordName{}
	for _, n := range names {
		if n.kind == KindPlan {
			bySlug[n.slug] = append(bySlug[n.slug], n)
		}
	}
	apart := firstTwin(names)
	missed := r.missed(names, KindPlan)
	for _, slug := range slices.Sorted(maps.Keys(missed)) {
		f := missed[slug]
		f.Pet = r.petOf(names, slug)
		findings = append(findings, f)
	}
	for _, slug := range slices.Sorted(maps.Keys(bySlug)) {
		if _, gone := missed[slug]; gone {
			continue
		}
		if heads := r.heads(bySlug[slug], apart); len(heads) == 1 {
			newest = append(newest, heads[0])
		} else {
			findings = append(findings, r.madeApart(r.petOf(names, slug), heads))
		}
	}
	return names, newest, findings, nil
}

// faultsOf names the pets of the records that cannot be used.
func (r *Folder) faultsOf(names, newest []recordName, faults []*household.Finding) []household.Finding {
	var findings []household.Finding
	for i, fault := range faults {
		if fault != nil {
			fault.Pet = r.petOf(names, newest[i].slug)
			findings = append(findings, *fault)
		}
	}
	return findings
}

// petOf finds the name behind a slug in the newest record of the pet that can be
// read; without one the slug has to do.
func (r *Folder) petOf(names []recordName, slug string) string {
	for _, n := range slices.Backward(names) {
		if n.kind != KindPlan || n.slug != slug {
			continue
		}
		if p, fault := r.plan(n); fault == nil {
			return p.Plan.Pet.Pet
		}
	}
	return slug
}
