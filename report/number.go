package report

import (
	"bowlwright/household"
	"bowlwright/nutrients/number"
)

// weightDigits are the significant digits of the weight of an animal.
const weightDigits = 4

// against writes an amount and its limits, "" for what there is not; a limit that is
// missed is written with as many digits as show that it is.
func against(amount, lower, upper *float64, state household.State) (a, low, high string) {
	write := func(x *float64) string {
		if x == nil {
			return ""
		}
		return number.Short(*x)
	}
	a, low, high = write(amount), write(lower), write(upper)
	switch {
	case amount == nil:
	case state == household.StateLow && lower != nil:
		a, low = number.Apart(*amount, *lower)
	case state == household.StateHigh && upper != nil:
		a, high = number.Apart(*amount, *upper)
	}
	return a, low, high
}

// kilos writes the weight of an animal as a scale shows it.
func kilos(kg float64) string { return number.Digits(kg, weightDigits) }

// UnitText is a canonical unit as people read it.
func UnitText(unit string) string {
	if unit == "ug" {
		return "µg"
	}
	return unit
}

// Grams writes a weighed amount exactly as it is to be weighed.
func Grams(g float64) string {
	// Amounts are whole numbers of a scale step; four decimals undo the dust of doubles
	// and hide nothing that a scale could show.
	return number.Decimals(g, 4) + " g"
}
