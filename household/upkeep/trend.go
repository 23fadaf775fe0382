package upkeep

import (
	"math"
	"slices"

	"bowlwright/household"
)

const (
	// trendDays is how far back a trend looks.
	trendDays = 84
	// oddShare is how far a weighing may lie from the trend before it counts as
	// odd: a full stomach or a wet coat make less (common practice).
	oddShare = 0.05
	// leastForTrend is the number of days with a weighing that a rate needs, and
	// the days that must lie between the first and the last of them.
	leastForTrend, leastTrendDays = 3, 7
)

// Trend is how a pet's weight moves.
type Trend struct {
	From, To household.Date
	// Days counts the days with a weighing that went in.
	Days int
	// KgPerWeek and PercentPerWeek are the rate; the per cent are of the weight
	// that the trend gives for the last day.
	KgPerWeek, PercentPerWeek float64
	// Odd are weighings far from the trend; LastIsOdd is true when the newest is
	// among them.
	Odd       []household.WeighIn
	LastIsOdd bool
}

// TrendOf fits a line to the weighings of the last twelve weeks by the median of
// the slopes of all pairs (Theil 1950, Sen 1968), which one bad weighing cannot
// tilt. It needs weighings on three days over a week.
func TrendOf(h *household.Household, p *household.Pet, today household.Date) (Trend, bool) {
	var log []household.WeighIn
	for _, w := range h.Weights {
		if w.Pet == p.Name && !today.Before(w.Date) && today.DaysSince(w.Date) <= trendDays {
			log = append(log, w)
		}
	}
	slices.SortStableFunc(log, func(a, b household.WeighIn) int { return a.Date.DaysSince(b.Date) })
	// Of several weighings on one day the last counts: it corrects the others.
	kept := log[:0]
	for _, w := range log {
		if n := len(kept); n > 0 && kept[n-1].Date == w.Date {
			kept[n-1] = w
			continue
		}
		kept = append(kept, w)
	}
	log = kept
	n := len(log)
	if n < leastForTrend || log[n-1].Date.DaysSince(log[0].Date) < leastTrendDays {
		return Trend{}, false
	}
	var slopes []float64
	for i := range log {
		for j := range i {
			slopes = append(slopes, (log[i].Kg-log[j].Kg)/float64(log[i].Date.DaysSince(log[j].Date)))
		}
	}
	slope := median(slopes)
	day := func(w household.WeighIn) float64 { return float64(w.Date.DaysSince(log[0].Date)) }
	starts := make([]float64, n)
	for i, w := range log {
		starts[i] = w.Kg - slope*day(w)
	}
	start := median(starts)
	t := Trend{From: log[0].Date, To: log[n-1].Date, Days: n, KgPerWeek: 7 * slope}
	t.PercentPerWeek = 100 * t.KgPerWeek / (start + slope*day(log[n-1]))
	for i, w := range log {
		if fit := start + slope*day(w); math.Abs(w.Kg-fit) > oddShare*fit {
			t.Odd = append(t.Odd, w)
			t.LastIsOdd = t.LastIsOdd || i == n-1
		}
	}
	return t, true
}

// median of at least one number; it orders them.
func median(x []float64) float64 {
	slices.Sort(x)
	n := len(x)
	if n%2 == 1 {
		return x[n/2]
	}
	return (x[n/2-1] + x[n/2]) / 2
}
