package weighing

// Tolerances and choices of the weighable amounts.
const (
	// NearLeastWeighable is how much over the least the weighable plan may be
	// before the least weighable one is looked for and used as the measure.
	NearLeastWeighable = 1.25
	// StepsToWeigh is the number of scale steps below which weighing is too
	// coarse: one step more or less would be over 5 % (common practice).
	StepsToWeigh = 20
	// helpingEnergy is how far, as a share of the need, the energy of a single day
	// may be from the average when an add-on comes as one helping for several
	// days: a tenth evens out within a week (common practice).
	helpingEnergy = 0.1
	// shortNodes ends the search for the nearest plan where limits are missed
	// anyway: the room that the least violation leaves is too thin to search long.
	shortNodes = 150
	// setNodes ends the search for weighable amounts of one set of add-ons among many.
	setNodes = 400
)
