package milp

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
func (s *Search) stepRows() []stepRow {
	var all []stepRow
	add := func(size, lower, upper float64, coefficient func(k int) float64) {
		out := stepRow{a: make([]float64, len(s.cols)), lower: lower/size - roundingTol, upper: upper/size + roundingTol}
		for k, c := range s.cols {
			out.a[k] = coefficient(k) * c.Step / size
		}
		all = append(all, out)
	}
	for _, r := range s.rows {
		lower := r.Lower
		if r.Elastic {
			lower -= s.want.MaxMiss * r.Size
		}
		add(r.Size, lower, r.Upper, func(k int) float64 { return r.A[k] })
	}
	if most := s.want.MaxSpent; !math.IsInf(most, 1) {
		add(max(most, IntegralTol), math.Inf(-1), most, func(k int) float64 { return s.cols[k].Spends })
	}
	return all
}

// Tighten takes off the box of a node the steps that one row alone rules out, and says
// whether any are left.
func (s *Search) Tighten(at *Node) bool {
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
func (s *Search) tightenBy(at *Node, r *stepRow) (changed, ok bool) {
	least, most := 0.0, 0.0
	for k, a := range r.a {
		if a >= 0 {
			least += a * at.Lo[k]
			most += a * at.Hi[k]
		} else {
			least += a * at.Hi[k]
			most += a * at.Lo[k]
		}
	}
	if least > r.upper || most < r.lower {
		return false, false
	}
	for k, a := range r.a {
		lo, hi := at.Lo[k], at.Hi[k]
		if a == 0 || lo == hi {
			continue
		}
		width := math.Abs(a) * (hi - lo)
		if least+width <= r.upper && most-width >= r.lower {
			continue
		}
		// The row's room in steps of this column: up from its low and down from its
		// high end.
		up, down := (r.upper-least)/math.Abs(a)+IntegralTol, (most-r.lower)/math.Abs(a)+IntegralTol
		if a < 0 {
			up, down = down, up
		}
		if !s.narrow(at, k, math.Ceil(hi-down), math.Floor(lo+up)) {
			return false, false
		}
		if gone := (hi - lo) - (at.Hi[k] - at.Lo[k]); gone > 0 {
			changed = changed || gone > worthwhile*(hi-lo)
			gained, lost := at.Lo[k]-lo, hi-at.Hi[k]
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
func (s *Search) narrow(at *Node, k int, lo, hi float64) bool {
	at.Lo[k], at.Hi[k] = max(at.Lo[k], lo), min(at.Hi[k], hi)
	if dose := s.leastSteps(k); dose > 0 {
		if at.Hi[k] < dose {
			at.Hi[k] = min(at.Hi[k], 0)
		}
		if at.Lo[k] > 0 {
			at.Lo[k] = max(at.Lo[k], dose)
		}
	}
	return at.Lo[k] <= at.Hi[k]
}

// leastSteps is the smallest dose of a column in steps.
func (s *Search) leastSteps(k int) float64 {
	return math.Ceil(s.cols[k].Least/s.cols[k].Step - IntegralTol)
}

// NearEnough takes off what is no nearer to the targets than the answer at hand, and
// says whether any steps are left.
func (s *Search) NearEnough(at *Node) bool {
	if !s.want.Distance || s.want.Misses || s.Incumbent == nil {
		return true
	}
	total := 0.0
	apart := func(k int) float64 {
		c := s.cols[k]
		return c.Weight * max(0, at.Lo[k]*c.Step-c.Target, c.Target-at.Hi[k]*c.Step)
	}
	for k := range s.cols {
		total += apart(k)
	}
	if total >= s.Value {
		return false
	}
	for k, c := range s.cols {
		if c.Weight == 0 || at.Lo[k] == at.Hi[k] {
			continue
		}
		room := (s.Value - total + apart(k)) / (c.Weight * c.Step)
		if !s.narrow(at, k, math.Ceil(c.Target/c.Step-room-IntegralTol), math.Floor(c.Target/c.Step+room+IntegralTol)) {
			return false
		}
	}
	return true
}
