package report

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household"
)

// bar is one nutrient drawn against its limits. The track has three equal zones:
// below the lower limit, between the limits, above the upper one; so the limits of
// all bars stand below one another, and what is inside stands in the band. Without an
// upper limit the band runs to the end of the track, without a lower one from its
// beginning.
type bar struct {
	name, amount, limits, state string
	// coverage is the known share in words, "95 %".
	coverage string
	recalled bool
	// at is where the known amount ends, 0 to 1 along the track.
	at float64
	// unknown is the share (0 to 1) of the food whose figure is not known.
	unknown            float64
	hasLower, hasUpper bool
	inside             bool
	nothingKnown       bool
}

// openTop is how many times the lower limit fills the middle zone where the
// standard sets no upper limit; its square fills the track.
const openTop = 10.0

const (
	lowerAt = 1.0 / 3
	upperAt = 2.0 / 3
)

func newBar(n household.NutrientLine) bar {
	b := bar{name: n.Name, recalled: n.Recalled, unknown: 1 - n.Coverage, hasLower: n.Lower != nil, hasUpper: n.Upper != nil,
		inside: n.State == household.StateMet, nothingKnown: n.Amount == nil}
	amount, lower, upper := figuresOf(n)
	b.limits = rangeWords(lower, upper)
	// Rounded down, so that 100 % means that everything is known.
	b.coverage = fmt.Sprintf("%.0f%%", math.Floor(100*n.Coverage+1e-9))
	b.amount = "unknown"
	if n.Amount != nil {
		b.amount = amount + " " + unitText(n.Unit)
		b.at = place(*n.Amount, n.Lower, n.Upper)
	}
	switch n.State {
	case household.StateMet:
		b.state = "met"
		if !n.UpperChecked {
			b.state = "met, upper limit not fully checked"
		}
	case household.StateLow:
		b.state = "LOW"
	case household.StateHigh:
		b.state = "HIGH"
	default:
		b.state = "UNKNOWN"
	}
	if b.unknown < 1e-9 {
		b.unknown = 0
	}
	return b
}

// figuresOf writes the amount and the limits of a nutrient.
func figuresOf(n household.NutrientLine) (amount, lower, upper string) {
	return against(n.Amount, n.Lower, n.Upper, n.State)
}

// place puts an amount on the track: linear up to the lower limit, by the
// logarithm between the limits, linear to twice the upper limit; where there is no
// upper limit the logarithm goes on.
func place(x float64, lower, upper *float64) float64 {
	low, high := 0.0, 0.0
	if lower != nil {
		low = *lower
	}
	if upper != nil {
		high = *upper
	}
	switch {
	case lower == nil && upper == nil:
		return 0.5
	case lower == nil:
		low = high / openTop
	case upper == nil:
		high = low * openTop
	}
	switch {
	case x < low:
		return lowerAt * max(0, x/low)
	case x <= high:
		if high <= low {
			return lowerAt
		}
		return lowerAt + (upperAt-lowerAt)*math.Log(x/low)/math.Log(high/low)
	case upper == nil:
		return min(1, lowerAt+(1-lowerAt)*math.Log(x/low)/math.Log(openTop*openTop))
	}
	return min(1, upperAt+(1-upperAt)*(x/high-1))
}

// band is the piece of the track where the mark belongs.
func (b bar) band() (from, to float64) {
	from, to = lowerAt, upperAt
	if !b.hasLower {
		from = 0
	}
	if !b.hasUpper {
		to = 1
	}
	return from, to
}

// hatched is the piece of the track that shows what is unknown: all of it when
// nothing is known, else from the mark on, as long as the unknown share of a zone.
func (b bar) hatched() (from, to float64) {
	switch {
	case b.nothingKnown:
		return 0, 1
	case b.unknown == 0:
		return b.at, b.at
	}
	return b.at, min(1, b.at+b.unknown/3)
}

// label is the name with the mark of a recalled limit.
func (b bar) label() string {
	if b.recalled {
		return b.name + "†"
	}
	return b.name
}

// shortState keeps the table within its width.
func shortState(s string) string { return strings.Replace(metState(s), "UNKNOWN", "????", 1) }

// metState is the state in a table; the long form of met* is in the legend.
func metState(s string) string {
	return strings.Replace(s, "met, upper limit not fully checked", "met*", 1)
}
