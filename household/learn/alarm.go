package learn

import (
	"math"
	"slices"
)

// The rule that notices a loss in an animal that should hold its weight. It was chosen
// among many on simulated animals: at most 2 % of those that hold their weight, weighed
// weekly or every two weeks, are called in half a year, and a loss of 3 % a week is seen
// after four weeks (median).
const (
	alarmDays               = 56
	alarmPerWeek            = -0.01
	alarmBelow              = 0.04
	alarmLeast, alarmApart  = 4, 14
	alarmLast, daysPerAWeek = 2, 7
)

// Falling says whether the weighings of the last eight weeks show a loss, and how fast
// it is in per cent of the weight a week: their slope is steeper than 1 % a week, and
// the middle one of the earlier ones exceeds both of the last two by more than 4 %. No
// energy goes in, so that an illness is seen which the need would hide.
func Falling(log []Weighing, today int) (percentPerWeek float64, yes bool) {
	in := between(perDay(log), today-alarmDays, today)
	n := len(in)
	if n < alarmLeast || in[n-1].Day-in[0].Day < alarmApart {
		return 0, false
	}
	points := make([]point, n)
	for i, w := range in {
		points[i] = point{w.Day, math.Log(w.Kg)}
	}
	week := daysPerAWeek * slope(points)
	var earlier []float64
	for _, w := range in[:n-alarmLast] {
		earlier = append(earlier, w.Kg)
	}
	// Of an even number the lower one of the middle: a single heavy slip among two
	// weighings would halve the distance.
	slices.Sort(earlier)
	was := earlier[(len(earlier)-1)/2]
	yes = week < alarmPerWeek
	for _, w := range in[n-alarmLast:] {
		yes = yes && was > (1+alarmBelow)*w.Kg
	}
	return 100 * math.Expm1(week), yes
}

// A thin or a growing animal has nothing to lose: half a per cent a week over four
// weeks is enough to ask, whichever weighing is left out.
const (
	thinDays, thinApart = 28, 14
	thinLeast           = 3
	thinPerWeek         = -0.005
)

// Dwindling says whether the weighings of the last four weeks go down at all, for
// animals that should gain.
func Dwindling(log []Weighing, today int) bool {
	in := between(perDay(log), today-thinDays, today)
	n := len(in)
	if n < thinLeast || in[n-1].Day-in[0].Day < thinApart {
		return false
	}
	points := make([]point, n)
	for i, w := range in {
		points[i] = point{w.Day, math.Log(w.Kg)}
	}
	return daysPerAWeek*cautiousSlope(points) < thinPerWeek
}
