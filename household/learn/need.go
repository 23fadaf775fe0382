package learn

import (
	"math"

	"bowlwright/nutrients"
)

// Numbers of the filter. Those that say "assumed" have no published value that was
// found; they were chosen on simulated animals.
const (
	// fatKcal is the energy in a kilogram of weight gained or lost: 7,920 kcal/kg of
	// adipose tissue (Small Animal Clinical Nutrition, 5th edition, table 27-15), with
	// 13 % of it lean (body composition of client-owned cats on a diet, 2024), rounded
	// down to 7,700; fatCV, its spread among animals, is assumed.
	fatKcal = 7700.0
	fatCV   = 0.20
	// drift is how far the logarithm of the need wanders in a week (assumed).
	drift = 0.02
	// adherence is by how much of the plan a day's food may differ from it, offPlan on
	// a day that the household marked as off the plan (assumed).
	adherence, offPlan = 0.15, 0.40
	// A weighing errs by weighShare of the weight and by scaleKg, largeScaleKg from
	// largeFromKg on (assumed: stomach, bladder, coat and the scale of a bathroom).
	weighShare            = 0.011
	scaleKg, largeScaleKg = 0.05, 0.10
	largeFromKg           = 15.0
	// clipAt is beyond how many standard deviations a weighing counts no more than it
	// would there; the second such weighing running on one side opens the need by
	// jumpSD, because then it is no slip (assumed).
	clipAt, jumpSD = 2.5, 0.15
	// firstShare is the doubt about the first weight (assumed).
	firstShare = 0.03
	// planDays is over how many days planned energy is averaged.
	planDays = 28
	// before is how many days before the first plan a weighing may lie to begin with.
	beforeDays = 14
)

// PriorCV is the spread of the need of animals about the equation: 23 to 39 % between
// groups in the meta-analyses of cats (2010) and dogs (2014), 30 % of pet dogs in a
// thesis (Munich). PriorCVGiven is that about an energy which the household declares
// (assumed).
const (
	PriorCV      = 0.25
	PriorCVGiven = 0.10
)

// Stretch is planned energy from a day on, until the next stretch begins.
type Stretch struct {
	From int
	Kcal float64
}

// Record is what is known of one animal.
type Record struct {
	Species nutrients.Species
	// PriorPerKg is what is expected before anything is learned, in kcal a day per
	// kg^0.75 of a dog's present weight, kg^0.67 of a cat's. An overweight animal does
	// not burn on its fat what the equation says of its ideal weight: see SpreadOver.
	PriorPerKg float64
	// PriorCV is the spread of that as a share.
	PriorCV   float64
	Weighings []Weighing
	// Plan holds the stretches in the order of their days.
	Plan []Stretch
	// Off tells which days were off the plan, nil for none.
	Off func(day int) bool
}

// SpreadOver turns the energy that an equation gives for an ideal weight into kcal per
// metabolic kilogram of the present weight.
func SpreadOver(sp nutrients.Species, kcal, presentKg float64) float64 {
	return kcal / nutrients.MetabolicKg(sp, presentKg)
}

func exponent(sp nutrients.Species) float64 {
	if sp == nutrients.Cat {
		return 0.67
	}
	return 0.75
}

// Need is what a record says on a day.
type Need struct {
	// Kcal a day hold the present weight; LogSD is the standard deviation of its
	// logarithm.
	Kcal, LogSD float64
	// Kg is the weight on that day as the filter sees it.
	Kg float64
	// Weighings counts the days with a weighing that went in; First and Last are the
	// first and the last of them.
	Weighings   int
	First, Last int
	// PlannedKcal is the planned energy of the last weeks, with the later ones
	// counting more.
	PlannedKcal float64

	species nutrients.Species
	perKg   float64
}

// Estimate runs the filter over a record up to a day. It says false where no weighing
// stands beside a planned day, or where the record holds numbers that cannot be.
func Estimate(r Record, today int) (Need, bool) {
	f, ok := newFilter(r, today)
	if !ok {
		return Need{}, false
	}
	for i := range f.log {
		for f.day < f.log[i].Day {
			f.predict()
		}
		f.weigh(f.log[i].Kg)
	}
	for f.day < today {
		f.predict()
	}
	n := f.need()
	return n, n.Kcal > 0 && n.Kg > 0 && n.LogSD > 0 && !math.IsInf(n.Kcal, 0) && !math.IsNaN(n.LogSD)
}

// filter is an extended Kalman filter with two states: the weight w in kg and th, the
// logarithm of the need per metabolic kilogram. a, b and d are the variance of w, the
// covariance and the variance of th.
type filter struct {
	record  Record
	p       float64
	w, th   float64
	a, b, d float64
	day     int
	planned float64
	// clipped counts the clipped weighings running, negative for light ones.
	clipped int
	log     []Weighing
	stretch int
	n       Need
}

// newFilter begins on the first day that has both a weight and a plan. What was eaten
// before the first plan is not known.
func newFilter(r Record, today int) (*filter, bool) {
	if len(r.Plan) == 0 || !(r.PriorPerKg > 0) {
		return nil, false
	}
	start := r.Plan[0].From
	log := between(perDay(r.Weighings), start-beforeDays, today)
	// Of the weighings before the plan only the last is a beginning.
	for len(log) > 1 && log[1].Day <= start {
		log = log[1:]
	}
	if len(log) == 0 {
		return nil, false
	}
	first := log[0]
	f := &filter{record: r, p: exponent(r.Species), w: first.Kg, th: math.Log(r.PriorPerKg), day: max(first.Day, start), log: log[1:]}
	f.a, f.d = firstShare*firstShare*first.Kg*first.Kg, math.Log1p(r.PriorCV*r.PriorCV)
	f.planned = f.plan()
	f.n = Need{Weighings: 1, First: first.Day, Last: first.Day, species: r.Species}
	return f, f.planned > 0 && first.Kg > 0
}

// plan returns the planned energy of the day.
func (f *filter) plan() float64 {
	for f.stretch+1 < len(f.record.Plan) && f.record.Plan[f.stretch+1].From <= f.day {
		f.stretch++
	}
	return f.record.Plan[f.stretch].Kcal
}

// predict lets a day pass.
func (f *filter) predict() {
	plan, share := f.plan(), adherence
	if f.record.Off != nil && f.record.Off(f.day) {
		share = offPlan
	}
	need := math.Exp(f.th) * math.Pow(f.w, f.p)
	dw, dth := 1-f.p*need/f.w/fatKcal, -need/fatKcal
	f.w += (plan - need) / fatKcal
	eaten := share * plan / fatKcal
	f.a = dw*dw*f.a + 2*dw*dth*f.b + dth*dth*f.d + eaten*eaten
	f.b = dw*f.b + dth*f.d
	f.d += drift * drift / 7
	f.planned += (plan - f.planned) / planDays
	f.day++
}

// weigh takes in the weight of the day.
func (f *filter) weigh(kg float64) {
	scale := scaleKg
	if f.w >= largeFromKg {
		scale = largeScaleKg
	}
	noise := math.Hypot(weighShare*f.w, scale)
	r, s := kg-f.w, f.a+noise*noise
	switch beyond := r*r > clipAt*clipAt*s; {
	case !beyond:
		f.clipped = 0
	case r > 0:
		f.clipped = max(f.clipped, 0) + 1
	default:
		f.clipped = min(f.clipped, 0) - 1
	}
	if f.clipped > 1 || f.clipped < -1 {
		f.a += r * r
		f.d += jumpSD * jumpSD
		s = f.a + noise*noise
	}
	s = math.Max(s, r*r/(clipAt*clipAt))
	k0, k1 := f.a/s, f.b/s
	f.w += k0 * r
	f.th += k1 * r
	f.d -= k1 * f.b
	f.b *= 1 - k0
	f.a *= 1 - k0
	f.n.Weighings++
	f.n.Last = f.day
}

// need turns the state into what holds the weight.
func (f *filter) need() Need {
	n := f.n
	n.Kg, n.perKg, n.PlannedKcal = f.w, math.Exp(f.th), f.planned
	n.Kcal = n.perKg * math.Pow(f.w, f.p)
	slope := f.p / f.w
	fat := fatCV * (f.planned/n.Kcal - 1)
	n.LogSD = math.Sqrt(f.d + slope*slope*f.a + 2*slope*f.b + fat*fat)
	return n
}

const (
	// z90 and zSide are the standard normal at 95 and at 90 %: between the first two an
	// interval holds 90 %, beyond the second a side is 90 % sure.
	z90, zSide = 1.645, 1.28
	// A number is said only with at least leastWeighings over leastDays and half an
	// interval of widest (chosen on simulated animals: 87 % of the records of eight
	// weeks have that, and their interval holds 92 %).
	leastWeighings, leastDays = 4, 28
	widest                    = 0.15
)

// Interval is the interval of 90 %, in kcal a day.
func (n Need) Interval() (low, high float64) {
	return n.Kcal * math.Exp(-z90*n.LogSD), n.Kcal * math.Exp(z90*n.LogSD)
}

// Enough says whether the record is long and clear enough to say the number.
func (n Need) Enough() bool { return n.Long() && z90*n.LogSD <= widest }

// Long says whether it has enough weighings over enough days, whatever they say.
func (n Need) Long() bool { return n.Weighings >= leastWeighings && n.Last-n.First >= leastDays }

// Holds returns the kcal a day that would hold another weight.
func (n Need) Holds(kg float64) float64 { return n.perKg * math.Pow(kg, exponent(n.species)) }

// PercentPerWeek is how the weight moves on so many kcal a day, in per cent of the
// present weight.
func (n Need) PercentPerWeek(kcal float64) float64 {
	return 100 * 7 * (kcal - n.Kcal) / fatKcal / n.Kg
}

// Misses says whether the filter is 90 % sure that so many kcal a day are over 5 % too
// many (+1) or too few (-1) to hold the present weight, 0 where it is not.
func (n Need) Misses(kcal float64) int {
	gap := math.Log(kcal / n.Kcal)
	switch {
	case math.Abs(gap) <= leastGap || math.Abs(gap) <= zSide*n.LogSD:
		return 0
	case gap > 0:
		return 1
	}
	return -1
}
