package optimize

// Tolerances and choices of the computation. Violations are in units of the
// limit that is missed: 1 is a whole limit.
const (
	// feasibleTol is the violation, summed over all limits, that counts as none.
	feasibleTol = 1e-7
	// violationSliver may be spent on top of the least violation where it is not
	// none: the last of it can cost many grams.
	violationSliver = 1e-3
	// razorTol widens limits for the least squares where the plans that keep them
	// all are a single point.
	razorTol = 1e-6
	// nearLeast is how much over the least add-on a plan nearer its aims may be.
	nearLeast = 1.10
	// nearLeastWeighable is how much over the least the weighable plan may be
	// before the least weighable one is looked for and used as the measure.
	nearLeastWeighable = 1.25
	// ridge keeps the least squares from being undecided between like columns.
	ridge = 1e-3
	// guardBand moves the limits of the weighable plan inwards, so that the last
	// bit of a sum cannot break one.
	guardBand = 1e-8
	// limitTol is how far, relative, a printed sum may be outside a limit: the
	// rounding of adding up.
	limitTol = 1e-9
	// amountTol is how far two computations of one sum may differ, relative.
	amountTol = 1e-9
	// integralTol is how far from a whole number of steps counts as whole.
	integralTol = 1e-6
	// stepsToWeigh is the number of scale steps below which weighing is too
	// coarse: one step more or less would be over 5 % (common practice).
	stepsToWeigh = 20
	// helpingEnergy is how far, as a share of the need, the energy of a single day
	// may be from the average when an add-on comes as one helping for several
	// days: a tenth evens out within a week (common practice).
	helpingEnergy = 0.1
	// maxNodes ends the search for weighable amounts; optimalityGap is how much
	// nearer a plan must be to be worth searching on.
	maxNodes      = 5000
	optimalityGap = 0.01
	// leastGuess is the weight by which a column without a cost is branched on;
	// leastRise the share of its first guess that a column's rise never goes under.
	leastGuess = 1e-9
	leastRise  = 1e-3
	// shortNodes ends the search for the nearest plan where limits are missed
	// anyway: the room that the least violation leaves is too thin to search long.
	shortNodes = 150
	// cleanGrain removes the last bits of step times count: ten nanograms are
	// under any scale.
	cleanGrain = 1e-8
	// shadowTol is the dual value, relative to the largest, that is rounding.
	shadowTol = 1e-9
)
