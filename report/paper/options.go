package paper

import "bowlwright/report"

// Options say what the printer can do, how the reader writes numbers and what stands on
// the paper beside the plan.
type Options struct {
	// Paper is "a4" or "letter".
	Paper string
	// TwoUp prints daily cards at half the size, two to a sheet, without their backs.
	TwoUp bool
	// Large prints daily cards in large type, without their backs.
	Large bool
	report.Setting
	// Photos are pictures by pet, made by Photo.
	Photos map[string][]byte
	// DecimalComma writes "2,5 g" instead of "2.5 g".
	DecimalComma bool
}
