package optimize

import "math"

const (
	// tightenRounds bounds how often the rows of a node are gone through.
	tightenRounds = 4
	// worthwhile is the share of a column's range that must go for another round.
	worthwhile = 0.1
)

// stepRow is a row in whole steps and in units of its limit.
type stepRow struct {
	a            []float64
	lower, upper float64
}

// stepRows states the rows for tighten, wider by roundingTol than a plan may be.
func (s *search) stepRows() []stepRow {
	var all []stepRow
	add := func(size, lower, upper float64, coefficient func(k int) float64) {
		out := stepRow{a: make([]float64, len(s.cols)), lower: lower/size - roundingTol, upper: upper/size + roundingTol}
		for k, c := range s.cols {
			out.a[k] = coefficient(k) * c.step / size
		}
		all = append(all, out)
	}
	for _, r := range s.rows {
		lower := r.lower
		if r.elastic {
			lower -= s.want.maxMiss * r.size
		}
		add(r.size, lower, r.upper, func(k int) float64 { return r.a[k] })
	}
	if most := s.want.maxSpent; !math.IsInf(most, 1) {
		add(max(most, integralTol), math.Inf(-1), most, func(k int) float64 { return s.cols[k].spends })
	}
	return all
}

// tighten takes off the box of a node the steps that one row alone rules out, and says
// whether any are left.
func (s *search) tighten(at *node) bool {
	for range tightenRounds {
		much := false
		for i := range s.tight {
			changed, ok := s.tightenBy(at, &s.tight[i])
			if !ok {
				return false
			}
			much = much || changed
		}
		if !much {
			break
		}
	}
	return true
}

// tightenBy holds the box against one row: what the others bring at least and at
// most leaves a column only so much.
func (s *search) tightenBy(at *node, r *stepRow) (changed, ok bool) {
	least, most := 0.0, 0.0
	for k, a := range r.a {
		if a >= 0 {
			least += a * at.lo[k]
			most += a * at.hi[k]
		} else {
			least += a * at.hi[k]
			most += a * at.lo[k]
		}
	}
	if least > r.upper || most < r.lower {
		return false, false
	}
	for k, a := range r.a {
		lo, hi := at.lo[k], at.hi[k]
		if a == 0 || lo == hi {
			continue
		}
		width := math.Abs(a) * (hi - lo)
		if least+width <= r.upper && most-width >= r.lower {
			continue
		}
		// The row's room in steps of this column: up from its low and down from its
		// high end.
		up, down := (r.upper-least)/math.Abs(a)+integralTol, (most-r.lower)/math.Abs(a)+integralTol
		if a < 0 {
			up, down = down, up
		}
		if !s.narrow(at, k, math.Ceil(hi-down), math.Floor(lo+up)) {
			return false, false
		}
		if gone := (hi - lo) - (at.hi[k] - at.lo[k]); gone > 0 {
			changed = changed || gone > worthwhile*(hi-lo)
			gained, lost := at.lo[k]-lo, hi-at.hi[k]
			if a < 0 {
				gained, lost = lost, gained
			}
			least += math.Abs(a) * gained
			most -= math.Abs(a) * lost
		}
	}
	return changed, true
}

// narrow takes bounds on a column, with the least dose in mind, and says whether
// anything is left.
func (s *search) narrow(at *node, k int, lo, hi float64) bool {
	at.lo[k], at.hi[k] = max(at.lo[k], lo), min(at.hi[k], hi)
	if dose := s.leastSteps(k); dose > 0 {
		if at.hi[k] < dose {
			at.hi[k] = min(at.hi[k], 0)
		}
		if at.lo[k] > 0 {
			at.lo[k] = max(at.lo[k], dose)
		}
	}
	return at.lo[k] <= at.hi[k]
}

// leastSteps is the smallest dose of a column in steps.
func (s *search) leastSteps(k int) float64 {
	return math.Ceil(s.cols[k].least/s.cols[k].step - integralTol)
}

// nearEnough takes off what is no nearer to the targets than the answer at hand, and
// says whether any steps are left.
func (s *search) nearEnough(at *node) bool {
	if !s.want.distance || s.want.misses || s.incumbent == nil {
		return true
	}
	total := 0.0
	apart := func(k int) float64 {
		c := s.cols[k]
		return c.weight * max(0, at.lo[k]*c.step-c.target, c.target-at.hi[k]*c.step)
	}
	for k := range s.cols {
		total += apart(k)
	}
	if total >= s.value {
		return false
	}
	for k, c := range s.cols {
		if c.weight == 0 || at.lo[k] == at.hi[k] {
			continue
		}
		room := (s.value - total + apart(k)) / (c.weight * c.step)
		if !s.narrow(at, k, math.Ceil(c.target/c.step-room-integralTol), math.Floor(c.target/c.step+room+integralTol)) {
			return false
		}
	}
	return true
}
