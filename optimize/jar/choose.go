package jar

// strengths are the margins and dose errors that a jar is mixed with where they cost no
// more than strengthCost, the strongest first.
var strengths = [...]Rules{
	{Margin: 0.02, DoseError: 0.05},
	{Margin: 0.01, DoseError: 0.05},
	{DoseError: 0.05},
	{Margin: 0.02},
	{Margin: 0.01},
}

// strengthCost is how much more add-on a jar with a margin may need.
const strengthCost = 0.05

// Choose composes the jar to be mixed: no pet far over its own premix where that is
// possible, nobody who is short missing more unless no jar exists else, and with the
// strongest margin and room for a dose that is off that cost little.
func Choose(pets []Pet, rules Rules) (*Mix, error) {
	plain, err := plainest(pets, rules)
	if err != nil {
		return nil, err
	}
	for _, s := range strengths {
		rules := plain.Rules
		rules.Margin, rules.DoseError = s.Margin, s.DoseError
		m, err := Compose(pets, rules)
		if err != nil && !isNone(err) {
			return nil, err
		}
		if err == nil && m.Total() <= (1+strengthCost)*plain.Total() {
			return m, nil
		}
	}
	return plain, nil
}

// plainest composes a jar without margins.
func plainest(pets []Pet, rules Rules) (*Mix, error) {
	short := false
	for _, p := range pets {
		short = short || p.Missed > notMissed
	}
	var first error
	for _, more := range []float64{0, MissMore} {
		if more > 0 && !short {
			break
		}
		for _, fair := range []bool{true, false} {
			rules.Fair, rules.MissMore = fair, more
			m, err := Compose(pets, rules)
			if err == nil || !isNone(err) {
				return m, err
			}
			if _, unproved := first.(*UnprovedError); first == nil || unproved {
				first = err
			}
		}
	}
	return nil, first
}

// Apart composes a jar of pets that no jar serves by giving one of those in conflict one
// powder directly as well: of all such jars the one of least grams.
func Apart(pets []Pet, rules Rules, conflict *ConflictError) (*Mix, error) {
	var best *Mix
	parts := powders(pets)
	for k, p := range pets {
		in := false
		for _, name := range conflict.Pets {
			in = in || name == p.Name
		}
		if !in {
			continue
		}
		for _, id := range parts {
			rules.Apart = map[int][]string{k: {id}}
			m, err := plainest(pets, rules)
			if err != nil && !isNone(err) {
				return nil, err
			}
			if err == nil && (best == nil || m.Total() < best.Total()) {
				best = m
			}
		}
	}
	if best == nil {
		return nil, conflict
	}
	return best, nil
}
