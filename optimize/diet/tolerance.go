package diet

// Tolerances and choices of the computation. Violations are in units of the
// limit that is missed: 1 is a whole limit.
const (
	// FeasibleTol is the violation, summed over all limits, that counts as none.
	FeasibleTol = 1e-7
	// ViolationSliver may be spent on top of the least violation where it is not
	// none: the last of it can cost many grams.
	ViolationSliver = 1e-3
	// leastSize is the least that a deviation is measured in, in grams.
	leastSize = 1e-6
	// razorTol widens limits for the least squares where the plans that keep them
	// all are a single point.
	razorTol = 1e-6
	// nearInUse is how much over the least add-on a plan of the add-ons in use may be,
	// nearFew one with fewer items than the least needs.
	nearInUse = 1.10
	nearFew   = 1.03
	// energyPull is what a day at the end of its energy's slack counts for: as much as three
	// nutrients of which the day holds nothing.
	energyPull = 3
	// ridge keeps the least squares from being undecided between like columns.
	ridge = 1e-3
	// LimitTol is how far, relative, a printed sum may be outside a limit: the
	// rounding of adding up.
	LimitTol = 1e-9
	// AmountTol is how far two computations of one sum may differ, relative.
	AmountTol = 1e-9
	// CleanGrain removes the last bits of step times count: ten nanograms are
	// under any scale.
	CleanGrain = 1e-8
	// ShadowTol is the dual value, relative to the largest, that is rounding.
	ShadowTol = 1e-9
)
