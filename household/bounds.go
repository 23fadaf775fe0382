package household

// maxBatchDepth bounds batches within batches.
const maxBatchDepth = 8

// A cooked batch outside these shares of its raw weight is a typing slip: meat
// loses at most about half of its weight, dry grain takes up three times its own
// (common practice).
const (
	minYieldShare = 0.2
	maxYieldShare = 5
)

// Limits of what a kitchen can be (common practice): outside them lies a slip.
const (
	maxMeals      = 12
	maxPremixDays = 120
	maxScaleG     = 50
	maxSlack      = 0.10
	maxMoved      = 0.20
)

// Weights over these are typing slips (common practice: the heaviest breeds of
// dog stay under 120 kg, a cat of 20 kg would be a record).
const (
	maxDogKg = 120
	maxCatKg = 20
)
