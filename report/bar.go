package report

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household"
)

// Bar is one nutrient drawn against its limits. The track has three equal zones:
// below the lower limit, between the limits, above the upper one; so the limits of
// all bars stand below one another, and what is inside stands in the band. Without an
// upper limit the band runs to the end of the track, without a lower one from its
// beginning.
type Bar struct {
	Name, Amount, Limits, State string
	// coverage is the known share in words, "95 %".
	Coverage string
	Recalled bool
	// at is where the known amount ends, 0 to 1 along the track.
	At float64
	// unknown is the share (0 to 1) of the food whose figure is not known.
	Unknown            float64
	HasLower, HasUpper bool
	Inside             bool
	NothingKnown       bool
}

// openTop is how many times the lower limit fills the middle zone where the
// standard sets no upper limit; its square fills the track.
const openTop = 10.0

const (
	LowerAt = 1.0 / 3
	UpperAt = 2.0 / 3
)

func NewBar(n household.NutrientLine) Bar {
	b := Bar{Name: n.Name, Recalled: n.Recalled, Unknown: 1 - n.Coverage, HasLower: n.Lower != nil, HasUpper: n.Upper != nil,
		Inside: n.State == household.StateMet, NothingKnown: n.Amount == nil}
	amount, lower, upper := figuresOf(n)
	b.Limits = rangeWords(lower, upper)
	// Rounded down, so that 100 % means that everything is known.
	b.Coverage = fmt.Sprintf("%.0f%%", math.Floor(100*n.Coverage+1e-9))
	b.Amount = "unknown"
	if n.Amount != nil {
		b.Amount = amount + " " + UnitText(n.Unit)
		b.At = place(*n.Amount, n.Lower, n.Upper)
	}
	switch n.State {
	case household.StateMet:
		b.State = "met"
		if !n.UpperChecked {
			b.State = "met, upper limit not fully checked"
		}
	case household.StateLow:
		b.State = "LOW"
	case household.StateHigh:
		b.State = "HIGH"
	default:
		b.State = "UNKNOWN"
	}
	if b.Unknown < 1e-9 {
		b.Unknown = 0
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
		return LowerAt * max(0, x/low)
	case x <= high:
		if high <= low {
			return LowerAt
		}
		return LowerAt + (UpperAt-LowerAt)*math.Log(x/low)/math.Log(high/low)
	case upper == nil:
		return min(1, LowerAt+(1-LowerAt)*math.Log(x/low)/math.Log(openTop*openTop))
	}
	return min(1, UpperAt+(1-UpperAt)*(x/high-1))
}

// Band is the piece of the track where the mark belongs.
func (b Bar) Band() (from, to float64) {
	from, to = LowerAt, UpperAt
	if !b.HasLower {
		from = 0
	}
	if !b.HasUpper {
		to = 1
	}
	return from, to
}

// Hatched is the piece of the track that shows what is unknown: all of it when
// nothing is known, else from the mark on, as long as the unknown share of a zone.
func (b Bar) Hatched() (from, to float64) {
	switch {
	case b.NothingKnown:
		return 0, 1
	case b.Unknown == 0:
		return b.At, b.At
	}
	return b.At, min(1, b.At+b.Unknown/3)
}

// Label is the name with the mark of a recalled limit.
func (b Bar) Label() string {
	if b.Recalled {
		return b.Name + "†"
	}
	return b.Name
}

// ShortState keeps the table within its width.
func ShortState(s string) string { return strings.Replace(MetState(s), "UNKNOWN", "????", 1) }

// MetState is the state in a table; the long form of met* is in the legend.
func MetState(s string) string {
	return strings.Replace(s, "met, upper limit not fully checked", "met*", 1)
}
