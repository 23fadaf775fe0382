package milp

// Tolerances and choices of the search for whole steps.
const (
	// GuardBand moves the limits of the weighable plan inwards, so that the last
	// bit of a sum cannot break one.
	GuardBand = 1e-8
	// IntegralTol is how far from a whole number of steps counts as whole.
	IntegralTol = 1e-6
	// maxNodes ends the search for weighable amounts; optimalityGap is how much
	// nearer a plan must be to be worth searching on.
	maxNodes      = 5000
	OptimalityGap = 0.01
	// leastGuess is the weight by which a column without a cost is branched on;
	// leastRise the share of its first guess that a column's rise never goes under.
	leastGuess = 1e-9
	leastRise  = 1e-3
	// roundingTol is how far, relative, a sum may be outside a row: the rounding of
	// adding up.
	roundingTol = 1e-9
	// missGap is how much less must be missed to be worth searching on.
	missGap = 1e-3
)
