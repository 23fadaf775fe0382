package optimize

import (
	"math"
	"slices"
)

// portions is a day that scales and counts can measure.
type portions struct {
	grams []float64 // for each item
	doses []dose
	// steps are the whole numbers behind the grams; serving the steps of the fine
	// scale in one day's premix.
	steps   []float64
	serving float64
	// found is the answer of the search, the helper column included.
	found []float64
	// nodes, proved and gap tell how the search went.
	nodes  int
	proved bool
	gap    float64
}

// weigh finds weighable amounts: of all that keep every limit the one nearest to
// the stages' answer; where none does, of those that miss least. It returns nil
// when no weighable day keeps the upper limits and the energy.
func weigh(p *program, s *staged) (*portions, error) {
	daily := dosesFor(p, s.x)
	ways := [][]dose{daily}
	if d, much := sparse(p, daily, s.x); d != nil {
		if ways = append(ways, d); much {
			ways[0], ways[1] = d, daily
		}
	}
	maxSpent := nearLeastWeighable * s.spent
	if s.violation == 0 {
		for _, all := range []bool{false, true} {
			for _, doses := range ways {
				w := newWeighing(p, s, doses, all)
				got, err := w.search(aim{distance: true, maxSpent: maxSpent})
				if got != nil || err != nil {
					return got, err
				}
			}
		}
		w := newWeighing(p, s, daily, true)
		least, err := w.search(aim{least: true, maxSpent: math.Inf(1)})
		if err != nil {
			return nil, err
		}
		if least != nil {
			near, err := w.search(aim{distance: true, maxSpent: nearLeast * p.spent(least.grams)})
			if near != nil || err != nil {
				return near, err
			}
			return least, nil
		}
	}
	w, best, err := leastMissed(p, s, ways, s.violation > 0)
	if best == nil && err == nil && s.violation > 0 {
		w, best, err = leastMissed(p, s, ways, false)
	}
	if best == nil || err != nil {
		return nil, err
	}
	miss := p.missed(best.grams) + violationSliver
	near, err := w.search(aim{distance: true, maxMiss: miss, maxSpent: max(maxSpent, p.spent(best.grams)), from: best.found, maxNodes: shortNodes})
	if near != nil || err != nil {
		return near, err
	}
	return best, nil
}

// leastMissed finds the weighable amounts that miss least, with held among those
// that keep every limit that exact amounts of what can be weighed at all keep.
func leastMissed(p *program, s *staged, ways [][]dose, held bool) (w *weighing, best *portions, err error) {
	for _, doses := range ways {
		way := newWeighing(p, s, doses, true)
		if held {
			within, err := way.reachable()
			if err != nil {
				return nil, nil, err
			}
			for i := range within {
				way.rows[i].elastic = way.rows[i].elastic && !within[i]
			}
		}
		got, err := way.search(aim{misses: true, maxMiss: math.Inf(1), maxSpent: math.Inf(1)})
		if err != nil {
			return nil, nil, err
		}
		// Helpings for several days only where they miss clearly less.
		if got != nil && (best == nil || p.missed(got.grams) < p.missed(best.grams)-violationSliver) {
			w, best = way, got
		}
	}
	return w, best, nil
}

// reachable says of each row of the program whether exact amounts keep it that miss
// least in all, of the items whose smallest dose is not over their cap.
func (w *weighing) reachable() ([]bool, error) {
	p := *w.p
	p.items = slices.Clone(w.p.items)
	for j := 1; j < len(p.items); j++ {
		k := slices.Index(w.used, j)
		if k < 0 || w.cols[k].least > w.cols[k].cap*(1+limitTol) {
			p.items[j].cap = 0
		}
	}
	s, _, err := p.leastAddon()
	within := make([]bool, len(p.rows))
	if err != nil || s.farkas != nil {
		return within, err
	}
	at := len(p.items)
	for i, r := range p.rows {
		if r.elastic {
			within[i] = s.x[at] <= violationSliver
			at++
		}
	}
	return within, nil
}

// weighing is the integer program of a pet: the items that take part, and a
// helper column for the daily serving of the premix.
type weighing struct {
	p     *program
	doses []dose
	used  []int
	cols  []searchColumn
	rows  []searchRow
	// premix lists the columns in the premix, carrier the one that fills it up.
	premix  []int
	carrier int
}

// weighing states the integer program near the stages' amounts; with all, items
// that the stages leave out take part too.
func newWeighing(p *program, s *staged, doses []dose, all bool) *weighing {
	w := &weighing{p: p, doses: doses, carrier: -1}
	total := 0.0
	for j, d := range doses {
		x := s.x[j]
		if s.previous != nil && s.previous[j] > 0 {
			// Close to the plan in use is close to what was weighed of it.
			x = s.previous[j]
		}
		if d.step <= 0 || j > 0 && !all && x <= 0 {
			continue
		}
		c := searchColumn{target: x, step: d.step, least: d.least, cap: min(p.items[j].cap, p.items[j].helping/d.helping()), spends: p.spends[j]}
		c.target = min(c.target, c.cap)
		c.weight = 1 / max(x, d.least, d.step)
		if d.servedAs == inPremix {
			at := len(w.cols)
			w.premix = append(w.premix, at)
			total += x
			if w.carrier < 0 || w.carries(j, x) > w.carries(w.used[w.carrier], w.cols[w.carrier].target) {
				w.carrier = at
			}
		}
		w.used, w.cols = append(w.used, j), append(w.cols, c)
	}
	if len(w.premix) > 0 {
		fine := finest(p.kitchen)
		w.cols = append(w.cols, searchColumn{target: total, step: fine, least: stepsToWeigh * fine, cap: max(total*2, 2*stepsToWeigh*fine)})
	}
	// One serving of the premix may be a step of the scale too heavy: no upper
	// limit may be broken by that.
	heavier := 1 + 1/math.Max(stepsToWeigh, math.Floor(total/finest(p.kitchen)))
	for i, r := range p.rows {
		out := searchRow{name: r.limit, a: make([]float64, len(w.cols)), lower: r.lower, upper: r.upper, elastic: r.elastic, size: r.size}
		for k, j := range w.used {
			out.a[k] = r.a[j]
			if i > 0 && !r.elastic {
				out.a[k] *= doses[j].helping()
				if doses[j].servedAs == inPremix {
					out.a[k] *= heavier
				}
			}
		}
		if i == 0 {
			slack := p.kitchen.EnergySlack * p.targets.Energy.Kcal
			out.lower, out.upper = r.lower-slack, r.upper+slack
		}
		w.rows = append(w.rows, out)
	}
	w.together()
	w.helpings()
	if len(w.premix) > 0 {
		even := searchRow{name: "even serving", a: make([]float64, len(w.cols)), size: max(total, finest(p.kitchen))}
		for _, k := range w.premix {
			even.a[k] = 1
		}
		even.a[len(w.cols)-1] = -1
		w.rows = append(w.rows, even)
	}
	return w
}

// carries ranks what may fill up a premix: carriers before other powders, more
// before less.
func (w *weighing) carries(item int, x float64) float64 {
	if w.p.items[item].addon.Food.Carrier {
		return 1e6 + x
	}
	return x
}

// search runs one search and turns its steps into grams.
func (w *weighing) search(want aim) (*portions, error) {
	s, err := newSearch(w.cols, w.rows, want)
	if err == errNarrow {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	accept := func(steps []float64) (float64, bool) { return w.accept(steps, want) }
	if want.from != nil {
		from := append([]float64(nil), want.from...)
		if v, ok := accept(from); ok {
			s.value, s.incumbent = v, from
		}
	}
	steps := s.run(accept)
	if steps == nil {
		return nil, nil
	}
	out := &portions{grams: make([]float64, len(w.p.items)), steps: make([]float64, len(w.p.items)), doses: w.doses, found: steps, nodes: s.nodes, proved: s.proved, gap: s.gap()}
	for k, j := range w.used {
		out.steps[j] = steps[k]
		out.grams[j] = w.doses[j].amount(steps[k])
	}
	if len(w.premix) > 0 {
		out.serving = steps[len(steps)-1]
	}
	return out, nil
}

// accept fits the serving to the premix, checks every limit on the printed grams,
// and returns the objective.
func (w *weighing) accept(steps []float64, want aim) (float64, bool) {
	if len(w.premix) > 0 && !w.even(steps) {
		return 0, false
	}
	x := make([]float64, len(w.p.items))
	for k, j := range w.used {
		if steps[k] < 0 || steps[k]*w.doses[j].step > w.cols[k].cap*(1+limitTol) {
			return 0, false
		}
		if least := w.doses[j].least; steps[k] > 0 && steps[k]*w.doses[j].step < least*(1-limitTol) {
			return 0, false
		}
		x[j] = w.doses[j].amount(steps[k])
	}
	heavier := 0.0
	if serving := steps[len(steps)-1]; len(w.premix) > 0 && serving > 0 {
		heavier = 1 / serving
	}
	for i, r := range w.p.rows {
		average, sum := 0.0, 0.0
		for j := range x {
			average += r.a[j] * x[j]
			sum += r.a[j] * x[j]
			if i > 0 && !r.elastic {
				// Of what comes as a helping for several days, its day counts.
				sum += r.a[j] * x[j] * (w.doses[j].helping() - 1)
				if w.doses[j].servedAs == inPremix {
					sum += r.a[j] * x[j] * heavier
				}
			}
		}
		lower, upper := w.rows[i].lower, w.rows[i].upper
		if sum > upper+limitTol/2*r.size || sum < lower-limitTol/2*r.size && !w.rows[i].elastic {
			return 0, false
		}
		if r.atOnce > 0 && average > r.upper+limitTol/2*r.size {
			return 0, false
		}
	}
	if !w.evenEnergy(x) {
		return 0, false
	}
	missed := w.p.missed(x)
	if missed > want.maxMiss {
		return 0, false
	}
	spent := w.p.spent(x)
	if spent > want.maxSpent*(1+limitTol) {
		return 0, false
	}
	value := 0.0
	if want.misses {
		value += missed
	}
	switch {
	case want.least:
		value += spent
	case want.distance:
		for k, j := range w.used {
			value += w.cols[k].weight * math.Abs(x[j]-w.cols[k].target)
		}
	}
	return value, true
}

// even makes the premix a whole number of daily servings by giving the carrier
// the difference, and says whether that was possible.
func (w *weighing) even(steps []float64) bool {
	days := float64(w.p.kitchen.PremixDays)
	sum := 0.0
	for _, k := range w.premix {
		sum += steps[k]
	}
	last := len(steps) - 1
	serving := math.Round(sum / days)
	if sum > 0 {
		serving = max(serving, stepsToWeigh)
	}
	steps[last] = serving
	if sum == serving*days {
		return true
	}
	steps[w.carrier] += serving*days - sum
	return steps[w.carrier] >= 0
}
