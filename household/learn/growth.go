package learn

import "math"

// The curve of growth. No formula of the published centiles was found; this is the
// curve of Gompertz that was fitted to guide dogs (J Anim Sci 2000: W(max) exp(-e[-(t-c)/b])),
// with a time scale fitted to the ages at half the adult weight of small, middle and
// large dogs (Rev. MVZ) and to those guide dogs: 52 days and 0.9 a kilogram, and birth at
// 2 % of the adult weight.
const (
	scaleDays, scaleDaysPerKg = 52.0, 0.9
	birthShift                = 1.36
)

// GrowthKg is the weight that the curve gives for an age in days and an adult weight.
func GrowthKg(adultKg float64, days int) float64 {
	return adultKg * math.Exp(-math.Exp(birthShift-float64(days)/(scaleDays+scaleDaysPerKg*adultKg)))
}

// grownShare is the share of the adult weight at which an animal counts as grown: by the
// curve at 9 to 10 months for cats and small dogs, 12 for those of 20 kg, 15 for 40 kg and
// 18 for 60 kg, which are the ages in common use.
const grownShare = 0.98

// GrownDays is the age in days at which the curve has reached that share.
func GrownDays(adultKg float64) int {
	return int(math.Ceil((birthShift - math.Log(-math.Log(grownShare))) * (scaleDays + scaleDaysPerKg*adultKg)))
}

const (
	// growthDays is over how many days growth is followed; growthLeast weighings are
	// needed, the first of all that long ago.
	growthDays, growthLeast = 28, 3
	// growthBound is by how much of its weight an animal may leave its line in that
	// time, most of the space between two published centiles (chosen on simulated
	// puppies: 1 % of those fed right are called in 16 weeks, 98 % of those fed a tenth
	// too little); growthFar from the level of its first weeks is for a veterinarian. Crossing is "uncommon in healthy dogs, with
	// less than 5%" (PLoS ONE 2020, summary).
	growthBound, growthFar = 0.08, 0.20
	growthFirstDays        = 21
)

// Growth is how a growing animal follows its curve.
type Growth struct {
	// Level is by what share it is above the curve, which hardly matters: the adult
	// weight is a guess. Change is how much of that came in four weeks, FromFirst since
	// its first three weeks of weighings.
	Level, Change, FromFirst float64
}

// Fast, Slow and Far say that the animal leaves its line upwards or downwards, or is
// two lines from where it began.
func (g Growth) Fast() bool { return g.Change > growthBound }

// Slow: see Fast.
func (g Growth) Slow() bool { return g.Change < -growthBound }

// Far: see Fast.
func (g Growth) Far() bool { return math.Abs(g.FromFirst) > growthFar }

// FollowGrowth compares the weighings of an animal born on a day with the curve to its
// adult weight. It needs three weighings, the first of them four weeks ago.
func FollowGrowth(log []Weighing, adultKg float64, born, today int) (Growth, bool) {
	all := between(perDay(log), born, today)
	if len(all) < growthLeast || today-all[0].Day < growthDays || !(adultKg > 0) {
		return Growth{}, false
	}
	var late, first []point
	var firsts, lates []float64
	for _, w := range all {
		p := point{w.Day, math.Log(w.Kg / GrowthKg(adultKg, w.Day-born))}
		if w.Day >= today-growthDays {
			late = append(late, p)
		}
		if w.Day <= all[0].Day+growthFirstDays {
			first = append(first, p)
			firsts = append(firsts, p.y)
		}
	}
	if len(late) < growthLeast || late[len(late)-1].day-late[0].day < growthDays/2 {
		return Growth{}, false
	}
	perDay := cautiousSlope(late)
	for _, p := range late {
		lates = append(lates, p.y+perDay*float64(today-p.day))
	}
	level := median(lates)
	g := Growth{Level: math.Expm1(level), Change: growthDays * perDay}
	if first[len(first)-1].day < late[0].day {
		g.FromFirst = math.Expm1(level - median(firsts))
	}
	return g, true
}

// cautiousSlope is the slope nearest to none among those of all points and of all but
// one: with four or five of them a single slip would still tilt it.
func cautiousSlope(points []point) float64 {
	least := slope(points)
	rest := make([]point, len(points)-1)
	for i := range points {
		copy(rest, points[:i])
		copy(rest[i:], points[i+1:])
		switch s := slope(rest); {
		case s*least <= 0:
			return 0
		case math.Abs(s) < math.Abs(least):
			least = s
		}
	}
	return least
}
