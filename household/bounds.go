package household

// maxBatchDepth bounds batches within batches.
const MaxBatchDepth = 8

// A cooked batch outside these shares of its raw weight is a typing slip: meat
// loses at most about half of its weight, dry grain takes up three times its own
// (common practice).
const (
	MinYieldShare = 0.2
	MaxYieldShare = 5
)

// Limits of what a kitchen can be (common practice): outside them lies a slip.
const (
	MaxMeals      = 12
	MaxPremixDays = 120
	MaxScaleG     = 50
	MaxSlack      = 0.10
	MaxMoved      = 0.20
)

// Weights over these are typing slips (common practice: the heaviest breeds of
// dog stay under 120 kg, a cat of 20 kg would be a record).
const (
	MaxDogKg = 120
	MaxCatKg = 20
)
