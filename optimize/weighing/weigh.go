package weighing

import (
	"math"
	"slices"

	"bowlwright/household"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/milp"
)

// Day is a day that scales and counts can measure.
type Day struct {
	Grams []float64 // for each item
	Doses []dose
	// Steps are the whole numbers behind the grams; serving the steps of the fine
	// scale in one day's premix.
	Steps   []float64
	Serving float64
	// found is the answer of the search, the helper column included.
	found []float64
	// nodes, proved and gap tell how the search went.
	nodes  int
	Proved bool
	Gap    float64
}

// Weigh finds weighable amounts: of all that keep every limit the one nearest to
// the stages' answer; where none does, of those that miss least. It returns nil
// when no weighable day keeps the upper limits and the energy.
func Weigh(p *diet.Program, s *diet.Solution) (*Day, error) {
	ways := waysOf(p, s)
	maxSpent := NearLeastWeighable * s.Spent
	if s.Violation == 0 {
		got, err := keepAll(p, s, ways, maxSpent, 0)
		if got != nil || err != nil {
			return got, err
		}
		w := NewStepProgram(p, s, DosesFor(p, s.X), true)
		least, err := w.Search(milp.Goal{Least: true, MaxSpent: math.Inf(1)})
		if err != nil {
			return nil, err
		}
		if least != nil {
			near, err := w.Search(milp.Goal{Distance: true, MaxSpent: p.NearLeast() * p.Spent(least.Grams)})
			if near != nil || err != nil {
				return near, err
			}
			return least, nil
		}
	}
	w, best, err := leastMissed(p, s, ways, s.Violation > 0)
	if best == nil && err == nil && s.Violation > 0 {
		w, best, err = leastMissed(p, s, ways, false)
	}
	if best == nil || err != nil {
		return nil, err
	}
	miss := p.Missed(best.Grams) + diet.ViolationSliver
	near, err := w.Search(milp.Goal{Distance: true, MaxMiss: miss, MaxSpent: max(maxSpent, p.Spent(best.Grams)), From: best.found, MaxNodes: shortNodes})
	if near != nil || err != nil {
		return near, err
	}
	return best, nil
}

// leastMissed finds the weighable amounts that miss least, with held among those
// that keep every limit that exact amounts of what can be weighed at all keep.
func leastMissed(p *diet.Program, s *diet.Solution, ways [][]dose, held bool) (w *stepProgram, best *Day, err error) {
	kept := make([]bool, len(p.Rows))
	for _, doses := range dailyFirst(ways) {
		way := NewStepProgram(p, s, doses, true)
		if held {
			within, err := way.Reachable()
			if err != nil {
				return nil, nil, err
			}
			// What daily doses can keep the others have to.
			for i := range within {
				kept[i] = kept[i] || within[i]
				way.Rows[i].Elastic = way.Rows[i].Elastic && !kept[i]
			}
		}
		got, err := way.Search(milp.Goal{Misses: true, MaxMiss: math.Inf(1), MaxSpent: math.Inf(1)})
		if err != nil {
			return nil, nil, err
		}
		// Helpings for several days only where they miss clearly less.
		if got != nil && (best == nil || p.Missed(got.Grams) < p.Missed(best.Grams)-diet.ViolationSliver) {
			w, best = way, got
		}
	}
	return w, best, nil
}

// Reachable says of each row of the program whether exact amounts keep it that miss
// least in all, of the items whose smallest dose is not over their cap.
func (w *stepProgram) Reachable() ([]bool, error) {
	p := *w.p
	p.Items = slices.Clone(w.p.Items)
	for j := 1; j < len(p.Items); j++ {
		k := slices.Index(w.used, j)
		if k < 0 || w.Cols[k].Least > w.Cols[k].Cap*(1+diet.LimitTol) {
			p.Items[j].Cap = 0
		}
	}
	s, _, err := p.LeastAddon()
	within := make([]bool, len(p.Rows))
	if err != nil || s.Farkas != nil {
		return within, err
	}
	at := len(p.Items)
	for i, r := range p.Rows {
		if r.Elastic {
			within[i] = s.X[at] <= diet.ViolationSliver
			at++
		}
	}
	return within, nil
}

// stepProgram is the integer program of a pet: the items that take part, and a
// helper column for the daily serving of the premix.
type stepProgram struct {
	p     *diet.Program
	doses []dose
	used  []int
	Cols  []milp.Column
	Rows  []milp.Row
	// premix lists the columns in the premix, carrier the one that fills it up.
	premix  []int
	carrier int
}

// weighing states the integer program near the stages' amounts; with all, items
// that the stages leave out take part too.
func NewStepProgram(p *diet.Program, s *diet.Solution, doses []dose, all bool) *stepProgram {
	w := &stepProgram{p: p, doses: doses, carrier: -1}
	total := 0.0
	for j, d := range doses {
		x := s.X[j]
		if s.Previous != nil {
			// Close to the plan in use is close to what was weighed of it, and to none of
			// what it did without.
			x = s.Previous[j]
		}
		if d.Step <= 0 || j > 0 && !all && x <= 0 {
			continue
		}
		c := milp.Column{Target: x, Step: d.Step, Least: d.Least, Cap: min(p.Items[j].Cap, p.Items[j].Helping/d.Helping()), Spends: p.Counts[j]}
		c.Target = min(c.Target, c.Cap)
		c.Weight = 1 / max(x, d.Least, d.Step)
		if d.ServedAs == household.ServedPremix {
			at := len(w.Cols)
			w.premix = append(w.premix, at)
			total += x
			if w.carrier < 0 || w.carries(j, x) > w.carries(w.used[w.carrier], w.Cols[w.carrier].Target) {
				w.carrier = at
			}
		}
		w.used, w.Cols = append(w.used, j), append(w.Cols, c)
	}
	if len(w.premix) > 0 {
		fine := Finest(p.Kitchen)
		w.Cols = append(w.Cols, milp.Column{Target: total, Step: fine, Least: StepsToWeigh * fine, Cap: max(total*2, 2*StepsToWeigh*fine)})
	}
	// One serving of the premix may be a step of the scale too heavy: no upper
	// limit may be broken by that.
	heavier := 1 + 1/math.Max(StepsToWeigh, math.Floor(total/Finest(p.Kitchen)))
	for i, r := range p.Rows {
		out := milp.Row{Name: r.Limit.String(), A: make([]float64, len(w.Cols)), Lower: r.Lower, Upper: r.Upper, Elastic: r.Elastic, Size: r.Size}
		for k, j := range w.used {
			out.A[k] = r.A[j]
			if i > 0 && !r.Elastic {
				out.A[k] *= doses[j].Helping()
				if doses[j].ServedAs == household.ServedPremix {
					out.A[k] *= heavier
				}
			}
		}
		w.Rows = append(w.Rows, out)
	}
	w.concentratesAtOnce()
	w.everyFewDays()
	if len(w.premix) > 0 {
		even := milp.Row{Name: "even serving", A: make([]float64, len(w.Cols)), Size: max(total, Finest(p.Kitchen))}
		for _, k := range w.premix {
			even.A[k] = 1
		}
		even.A[len(w.Cols)-1] = -1
		w.Rows = append(w.Rows, even)
	}
	return w
}

// carries ranks what may fill up a premix: carriers before other powders, more
// before less.
func (w *stepProgram) carries(item int, x float64) float64 {
	if w.p.Items[item].Addon.Food.Carrier {
		return 1e6 + x
	}
	return x
}

// Search runs one search and turns its steps into grams.
func (w *stepProgram) Search(want milp.Goal) (*Day, error) {
	s, err := milp.New(w.Cols, w.Rows, want)
	if err == milp.ErrNarrow {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	accept := func(steps []float64) (float64, bool) { return w.Accept(steps, want) }
	if want.From != nil {
		from := append([]float64(nil), want.From...)
		if v, ok := accept(from); ok {
			s.Value, s.Incumbent = v, from
		}
	}
	steps := s.Run(accept)
	if steps == nil {
		return nil, nil
	}
	out := &Day{Grams: make([]float64, len(w.p.Items)), Steps: make([]float64, len(w.p.Items)), Doses: w.doses, found: steps, nodes: s.Nodes, Proved: s.Proved, Gap: s.Gap()}
	for k, j := range w.used {
		out.Steps[j] = steps[k]
		out.Grams[j] = w.doses[j].amount(steps[k])
	}
	if len(w.premix) > 0 {
		out.Serving = steps[len(steps)-1]
	}
	return out, nil
}

// Accept fits the serving to the premix, checks every limit on the printed grams,
// and returns the objective.
func (w *stepProgram) Accept(steps []float64, want milp.Goal) (float64, bool) {
	if len(w.premix) > 0 && !w.even(steps) {
		return 0, false
	}
	x := make([]float64, len(w.p.Items))
	for k, j := range w.used {
		if steps[k] < 0 || steps[k]*w.doses[j].Step > w.Cols[k].Cap*(1+diet.LimitTol) {
			return 0, false
		}
		if least := w.doses[j].Least; steps[k] > 0 && steps[k]*w.doses[j].Step < least*(1-diet.LimitTol) {
			return 0, false
		}
		x[j] = w.doses[j].amount(steps[k])
	}
	heavier := 0.0
	if serving := steps[len(steps)-1]; len(w.premix) > 0 && serving > 0 {
		heavier = 1 / serving
	}
	for i, r := range w.p.Rows {
		average, sum := 0.0, 0.0
		for j := range x {
			average += r.A[j] * x[j]
			sum += r.A[j] * x[j]
			if i > 0 && !r.Elastic {
				// Of what comes as a helping for several days, its day counts.
				sum += r.A[j] * x[j] * (w.doses[j].Helping() - 1)
				if w.doses[j].ServedAs == household.ServedPremix {
					sum += r.A[j] * x[j] * heavier
				}
			}
		}
		lower, upper := w.Rows[i].Lower, w.Rows[i].Upper
		if sum > upper+diet.LimitTol/2*r.Size || sum < lower-diet.LimitTol/2*r.Size && !w.Rows[i].Elastic {
			return 0, false
		}
		if r.AtOnce > 0 && average > r.Upper+diet.LimitTol/2*r.Size {
			return 0, false
		}
	}
	if !w.evenEnergy(x) {
		return 0, false
	}
	missed := w.p.Missed(x)
	if missed > want.MaxMiss {
		return 0, false
	}
	spent := w.p.Spent(x)
	if spent > want.MaxSpent*(1+diet.LimitTol) {
		return 0, false
	}
	value := 0.0
	if want.Misses {
		value += missed
	}
	switch {
	case want.Least:
		value += spent
	case want.Distance:
		for k, j := range w.used {
			value += w.Cols[k].Weight * math.Abs(x[j]-w.Cols[k].Target)
		}
	}
	return value, true
}

// even makes the premix a whole number of daily servings by giving the carrier
// the difference, and says whether that was possible.
func (w *stepProgram) even(steps []float64) bool {
	days := float64(w.p.Kitchen.PremixDays)
	sum := 0.0
	for _, k := range w.premix {
		sum += steps[k]
	}
	last := len(steps) - 1
	serving := math.Round(sum / days)
	if sum > 0 {
		serving = max(serving, StepsToWeigh)
	}
	steps[last] = serving
	if sum == serving*days {
		return true
	}
	steps[w.carrier] += serving*days - sum
	return steps[w.carrier] >= 0
}
