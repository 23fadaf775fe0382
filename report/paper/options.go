package paper

import (
	"bowlwright/household"
)

// Options say what the printer can do and how the reader
// writes numbers.
type Options struct {
	// Paper is "a4" or "letter".
	Paper string
	// TwoUp prints daily cards at half the size, two to a sheet: what to feed, and
	// of the nutrients only what is not inside its limits.
	TwoUp bool
	// Weights is the weight log; a daily card draws its pet's weighings when there
	// are two or more.
	Weights []household.WeighIn
	// DecimalComma writes "2,5 g" instead of "2.5 g".
	DecimalComma bool
}
