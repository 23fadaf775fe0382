package learn

import (
	"flag"
	"math"
	"math/rand/v2"
	"os"

	"bowlwright/nutrients"
)

// animals is how many simulated animals each test draws: 500, more with
// BOWLWRIGHT_ORACLES=1, any number with -animals.
var animals = flag.Int("animals", 0, "number of simulated animals")

func herd() int {
	switch {
	case *animals > 0:
		return *animals
	case os.Getenv("BOWLWRIGHT_ORACLES") == "1":
		return 2000
	}
	return 500
}

// simulated is an animal whose need is known, with all that a household adds: the need
// spreads by 25 % about the equation and wanders, a kilogram is worth 7,700 kcal within
// 20 %, meals differ by 7 % a day and 5 % a fortnight, some days are off the plan, one
// weighing in ten is missed, one in thirty is wrong by 5 to 25 %, and one animal in
// twenty is not weighed for four weeks.
type simulated struct {
	rng     *rand.Rand
	species nutrients.Species
	perKg   float64 // true need per metabolic kg
	prior   float64 // by the equation, at the present weight
	ideal   float64 // by the equation, at the ideal weight
	fat     float64
	kg      float64
	day     int
	plan    []Stretch
	log     []Weighing
	off     map[int]bool
	fort    float64
	gap     [2]int
	// fallTo makes the need fall to this share over the first year, as it does on a
	// diet; 0 for none.
	fallTo float64
	path   []float64
}

// factor draws a lognormal factor about one.
func factor(r *rand.Rand, cv float64) float64 {
	return math.Exp(math.Sqrt(math.Log1p(cv*cv)) * r.NormFloat64())
}

func newSimulated(seed uint64, cv float64) *simulated {
	r := rand.New(rand.NewPCG(seed, 20261128))
	s := &simulated{rng: r, species: nutrients.Dog, prior: 110, off: map[int]bool{}}
	s.kg = math.Exp(math.Log(4) + r.Float64()*math.Log(10))
	if seed%2 == 0 {
		s.species, s.prior, s.kg = nutrients.Cat, 85, 3+4*r.Float64()
	}
	s.perKg = s.prior * factor(r, cv)
	s.fat = fatKcal * factor(r, fatCV)
	s.gap = [2]int{-1, -1}
	if r.Float64() < 0.05 {
		at := r.IntN(120)
		s.gap = [2]int{at, at + 28}
	}
	return s
}

// feed sets the planned energy from today on.
func (s *simulated) feed(kcal float64) { s.plan = append(s.plan, Stretch{s.day, kcal}) }

// live lets a day pass.
func (s *simulated) live() {
	s.path = append(s.path, s.kg)
	if s.day%14 == 0 {
		s.fort = 0.05 * s.rng.NormFloat64()
	}
	eaten := s.plan[len(s.plan)-1].Kcal * (1 + s.fort + 0.07*s.rng.NormFloat64())
	if s.rng.Float64() < 0.02 {
		s.off[s.day] = true
		eaten *= 1 + 0.4*s.rng.NormFloat64()
	}
	s.perKg *= math.Exp(0.015 / math.Sqrt(7) * s.rng.NormFloat64())
	need := s.perKg * nutrients.MetabolicKg(s.species, s.kg)
	if s.fallTo > 0 {
		need *= 1 - (1-s.fallTo)*math.Min(1, float64(s.day)/182)
	}
	s.kg += (math.Max(0, eaten) - need) / s.fat
	s.day++
}

// weigh puts the animal on a scale every so many days, a day early or late.
func (s *simulated) weigh(every int) {
	if s.day%every != 0 || s.day > 0 && s.rng.Float64() < 0.10 || s.day >= s.gap[0] && s.day < s.gap[1] {
		return
	}
	step := 0.05
	scale := scaleKg
	if s.kg >= largeFromKg {
		step, scale = 0.1, largeScaleKg
	}
	kg := s.kg + math.Hypot(0.01*s.kg, scale)*s.rng.NormFloat64()
	if s.rng.Float64() < 0.03 {
		wrong := 0.05 + 0.20*s.rng.Float64()
		if s.rng.IntN(2) == 0 {
			wrong = -wrong
		}
		kg *= 1 + wrong
	}
	s.log = append(s.log, Weighing{s.day, math.Max(step, step*math.Round(kg/step))})
}

// trueNeed holds the present weight.
func (s *simulated) trueNeed() float64 { return s.perKg * nutrients.MetabolicKg(s.species, s.kg) }

func (s *simulated) record() Record {
	return Record{Species: s.species, PriorPerKg: s.prior, PriorCV: PriorCV, Weighings: s.log, Plan: s.plan,
		Off: func(day int) bool { return s.off[day] }}
}

// fastEver says whether the true weight fell by more than 2 % a week over any
// fortnight from a day on.
func (s *simulated) fastEver(from int) bool {
	for i := from; i+14 < len(s.path); i++ {
		if s.path[i+14] < s.path[i]*(1-2*0.02) {
			return true
		}
	}
	return false
}

func quantile(x []float64, q float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	s := append([]float64(nil), x...)
	for i := range s { // insertion: these lists are short
		for j := i; j > 0 && s[j] < s[j-1]; j-- {
			s[j], s[j-1] = s[j-1], s[j]
		}
	}
	return s[int(q*float64(len(s)-1)+0.5)]
}
