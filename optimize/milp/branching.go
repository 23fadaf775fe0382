package milp

import "math"

// split says which column a node was split at, in which direction, and how many
// steps the bound had to move; known is false for the root and for halves.
type split struct {
	column int
	up     bool
	by     float64
	known  bool
}

// pseudoCosts are how much the objective rose for each step that a column was
// moved, down and up, by the experience of the search.
type pseudoCosts struct {
	down, up []experience
	// guess stands in for a column without experience.
	guess []float64
	// steepest is the largest rise seen.
	steepest float64
}

// experience is the sum of rises for each step, and their number.
type experience struct {
	sum   float64
	count int
}

func newPseudoCosts(cols []Column) pseudoCosts {
	c := pseudoCosts{down: make([]experience, len(cols)), up: make([]experience, len(cols)), guess: make([]float64, len(cols))}
	for j, col := range cols {
		c.guess[j] = col.Step * max(col.Weight, leastGuess)
	}
	return c
}

func (c *pseudoCosts) at(s split) *experience {
	if s.up {
		return &c.up[s.column]
	}
	return &c.down[s.column]
}

// Learn takes the rise of the bound of a node.
func (c *pseudoCosts) Learn(s split, rise float64) {
	if !s.known || math.IsInf(rise, 0) {
		return
	}
	e := c.at(s)
	each := max(0, rise) / max(s.by, IntegralTol)
	e.sum += each
	e.count++
	c.steepest = max(c.steepest, each)
}

// closed takes a node without any answer: it counts as the steepest rise.
func (c *pseudoCosts) closed(s split) {
	if s.known {
		e := c.at(s)
		e.sum += max(c.steepest, c.guess[s.column])
		e.count++
	}
}

func (c *pseudoCosts) estimate(e experience, column int) float64 {
	if e.count == 0 {
		return c.guess[column]
	}
	return max(e.sum/float64(e.count), leastRise*c.guess[column])
}

// choose returns the column to branch on and its value in steps, -1 when all are
// whole: the one where both ways are expected to raise the objective most.
func (s *Search) choose(at *Node, steps []float64) (int, float64) {
	best, score, point := -1, 0.0, 0.0
	for j := range s.cols {
		if at.Lo[j] == at.Hi[j] {
			continue
		}
		v := steps[j]
		least := s.leastSteps(j)
		down, up := v-math.Floor(v), math.Ceil(v)-v
		if v > IntegralTol && v < least-IntegralTol {
			down, up = v, least-v
		} else if math.Abs(v-math.Round(v)) <= IntegralTol {
			continue
		}
		sc := down * s.Rise.estimate(s.Rise.down[j], j) * up * s.Rise.estimate(s.Rise.up[j], j)
		if best < 0 || sc > score {
			best, score, point = j, sc, v
		}
	}
	return best, point
}
