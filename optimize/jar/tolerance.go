package jar

// Tolerances and choices of the composition.
const (
	// leastDoses and mostDoses bound the days that a gram of jar lasts: doses between
	// a milligram and ten kilograms.
	leastDoses, mostDoses = 1e-4, 1e3
	// missSliver may be missed on top of a pet's own least misses: the last of it can
	// cost many grams.
	missSliver = 1e-3
	// MissMore is how much more of a limit a jar may let a pet miss that is short with
	// a premix of its own: two short pets at the edge of what they can reach need some
	// hundredths of a limit, and 0.01 is under what a scale can show.
	MissMore = 0.01
	// notMissed is the sum of misses that counts as none.
	notMissed = 1e-7
	// fairTimes and fairGrams bound what the jar costs a single pet over a premix of its
	// own where a jar with that bound exists: the larger of the two counts.
	fairTimes, fairGrams = 1.5, 0.5
	// firstReach is the logarithm of how far the first step may move a dose;
	// reachShrink divides it after a step that gains less than leastGain, and
	// lastReach such steps end the descent.
	firstReach, reachShrink, lastReach = 0.7, 3, 3
	leastGain                          = 2e-4
	// mostSteps ends a descent that goes on gaining little.
	mostSteps = 60
	// narrow is the room between two limits, in sizes, that is too little for a margin:
	// energy is such a row.
	narrow = 0.1
	// keptTol is how far, in sizes, a limit may be broken by an answer in the pet's own
	// units; what breaks it by more is no answer.
	keptTol = 1e-6
	// farkasTol is the multiplier of a proof, relative to its largest, that is rounding.
	farkasTol = 1e-9
	// provedGap ends the search for a bound; tangents is the number of lines that
	// stand for 1/s in it.
	provedGap = 0.01
	tangents  = 4
	// StepsToWeigh is the number of scale steps below which weighing is too coarse: one
	// step more or less would be over 5 % (common practice).
	StepsToWeigh = 20
	// mixRoom is how far the weight of a mix may be over the one asked for.
	mixRoom = 0.08
	// recipeNodes ends the search for a recipe in whole steps; recipeGap is how much
	// better one must be to be worth searching on.
	recipeNodes = 400
	recipeGap   = 0.002
	// wholeTol is how far from a whole number of steps counts as whole.
	wholeTol = 1e-6
)

// recipeReaches are the logarithms of how far a dose may move while the recipe is made
// whole: little, and much where little does not do.
var recipeReaches = [...]float64{0.05, 0.5}
