package learn

import (
	"cmp"
	"slices"
)

// Weighing is the weight of an animal on a day. Days count from any day.
type Weighing struct {
	Day int
	Kg  float64
}

// perDay returns the weighings in the order of their days, one for each: of several
// on one day the last given counts, because it corrects the others.
func perDay(log []Weighing) []Weighing {
	sorted := slices.Clone(log)
	slices.SortStableFunc(sorted, func(a, b Weighing) int { return cmp.Compare(a.Day, b.Day) })
	kept := sorted[:0]
	for _, w := range sorted {
		if n := len(kept); n > 0 && kept[n-1].Day == w.Day {
			kept[n-1] = w
			continue
		}
		kept = append(kept, w)
	}
	return kept
}

// between returns the weighings from one day to another, both included.
func between(log []Weighing, first, last int) []Weighing {
	var in []Weighing
	for _, w := range log {
		if w.Day >= first && w.Day <= last {
			in = append(in, w)
		}
	}
	return in
}

// point is a value on a day.
type point struct {
	day int
	y   float64
}

// slope is the median of the slopes of all pairs of points (Theil 1950, Sen 1968),
// per day: one bad point cannot tilt it. It needs two different days.
func slope(points []point) float64 {
	var all []float64
	for i := range points {
		for j := range i {
			if days := points[i].day - points[j].day; days != 0 {
				all = append(all, (points[i].y-points[j].y)/float64(days))
			}
		}
	}
	return median(all)
}

// median of at least one number.
func median(x []float64) float64 {
	s := slices.Sorted(slices.Values(x))
	n := len(s)
	if n%2 == 1 {
		return s[n/2]
	}
	return (s[n/2-1] + s[n/2]) / 2
}
