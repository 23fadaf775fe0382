package optimize

// Tolerances and choices of the computation. Violations are in units of the
// limit that is missed: 1 is a whole limit.
const (
	// feasibleTol is the violation, summed over all limits, that counts as none.
	feasibleTol = 1e-7
	// violationSliver may be spent on top of the least violation where it is not
	// none: the last of it can cost many grams.
	violationSliver = 1e-3
	// leastSize is the least that a deviation is measured in, in grams.
	leastSize = 1e-6
	// razorTol widens limits for the least squares where the plans that keep them
	// all are a single point.
	razorTol = 1e-6
	// nearLeast is how much over the least add-on a plan nearer its aims may be.
	nearLeast = 1.10
	// ridge keeps the least squares from being undecided between like columns.
	ridge = 1e-3
	// limitTol is how far, relative, a printed sum may be outside a limit: the
	// rounding of adding up.
	limitTol = 1e-9
	// amountTol is how far two computations of one sum may differ, relative.
	amountTol = 1e-9
	// cleanGrain removes the last bits of step times count: ten nanograms are
	// under any scale.
	cleanGrain = 1e-8
	// shadowTol is the dual value, relative to the largest, that is rounding.
	shadowTol = 1e-9
)
