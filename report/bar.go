package report

import (
	"fmt"
	"math"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// Bar is one nutrient drawn against its limits. Places lie between 0 and 1 along the
// track: even from zero to the minimum, then a step for each doubling, so that the
// minimums of all bars are one straight line and a bar that does not reach it is short.
type Bar struct {
	ID          nutrients.ID
	Name, Group string
	// Amount has its unit, Figure and Unit are its parts; Lower and Upper are figures, ""
	// where there is none, Limits both in words.
	Amount, Figure, Unit, Lower, Upper, Limits string
	// State is in words: "met", "met, maximum not fully checked", "28 % below minimum".
	State string
	// Coverage is the known share in words, rounded down: "95 %".
	Coverage string
	// Base, Addons and Unknown are where these parts end: what base and treats bring, what
	// the add-ons bring on top, and how far it would reach if the part without a figure
	// held as much as the rest.
	Base, Addons, Unknown float64
	// Maximum is the place of the maximum; 0 for none.
	Maximum    float64
	HasMinimum bool
	Recalled   bool
	// Inside says that it keeps its limits.
	Inside       bool
	NothingKnown bool
	// High says that it is above its maximum.
	High        bool
	LittleKnown bool
}

// MinimumAt is the place of the minimum; MostTimes is how many times the minimum fills the
// track.
const (
	MinimumAt = 0.4
	MostTimes = 32.0
)

// noMinimumAt is how many times the maximum fits into a track without a minimum.
const noMinimumAt = 8.0

// place is where a multiple of the minimum lies.
func place(times float64) float64 {
	switch {
	case times <= 0:
		return 0
	case times <= 1:
		return MinimumAt * times
	}
	return min(1, MinimumAt+(1-MinimumAt)*math.Log2(times)/math.Log2(MostTimes))
}

// PlaceOf is where a number of times the minimum lies, for the lines of the scale.
func PlaceOf(times float64) float64 { return place(times) }

// NewBar works out the bar of a nutrient.
func NewBar(n household.NutrientLine) Bar {
	b := Bar{ID: n.ID, Name: n.Name, Group: groupOf(n.ID), Unit: UnitText(n.Unit), Recalled: n.Recalled, HasMinimum: n.Lower != nil,
		Inside: n.State == household.StateMet, NothingKnown: n.Amount == nil, High: n.State == household.StateHigh, LittleKnown: n.Coverage < littleKnown}
	b.Figure, b.Lower, b.Upper = against(n.Amount, n.Lower, n.Upper, n.State)
	b.Limits = rangeWords(b.Lower, b.Upper)
	b.Coverage = fmt.Sprintf("%.0f %%", math.Floor(100*n.Coverage+1e-9))
	b.State = stateText(n)
	one := 0.0
	switch {
	case n.Lower != nil && *n.Lower > 0:
		one = *n.Lower
	case n.Upper != nil:
		one = *n.Upper / noMinimumAt
	}
	b.Amount = "unknown"
	if n.Amount != nil {
		b.Amount = b.Figure + " " + b.Unit
	}
	if one <= 0 {
		return b
	}
	if n.Upper != nil {
		b.Maximum = place(*n.Upper / one)
	}
	if n.Amount == nil {
		b.Unknown = 1
		return b
	}
	b.Base, b.Addons = place((n.From.Base+n.From.Extras)/one), place(*n.Amount/one)
	b.Base = min(b.Base, b.Addons)
	b.Unknown = b.Addons
	if n.Coverage < 1-1e-9 {
		b.Unknown = place(*n.Amount / max(n.Coverage, 1e-9) / one)
	}
	return b
}

// stateText says how a nutrient stands to its limits.
func stateText(n household.NutrientLine) string {
	switch {
	case n.State == household.StateMet && n.UpperChecked:
		return "met"
	case n.State == household.StateMet:
		return "met, maximum not fully checked"
	case n.State == household.StateLow && n.Lower != nil && n.Amount != nil:
		return missingShare((*n.Lower-*n.Amount) / *n.Lower) + " below minimum"
	case n.State == household.StateLow:
		return "below minimum"
	case n.State == household.StateHigh && n.Upper != nil && n.Amount != nil:
		return missingShare((high(n)-*n.Upper) / *n.Upper) + " above maximum"
	case n.State == household.StateHigh:
		return "above maximum"
	}
	return "unknown"
}

// missingShare writes a share in per cent, rounded up so that nothing is made less
// than it is.
func missingShare(share float64) string {
	if share < 0.01 {
		return "under 1 %"
	}
	return number.Decimals(math.Ceil(100*share-1e-9), 0) + " %"
}

// Label is the name with the mark of a recalled limit.
func (b Bar) Label() string {
	if b.Recalled {
		return b.Name + "†"
	}
	return b.Name
}

// ShortState is the state in a table; the legend has the long form of met*.
func (b Bar) ShortState() string {
	if b.Inside && b.State != "met" {
		return "met*"
	}
	return b.State
}

// rangeWords says the limits in words; "" stands for one that there is not.
func rangeWords(lower, upper string) string {
	switch {
	case lower != "" && upper != "":
		return lower + " to " + upper
	case lower != "":
		return "at least " + lower
	case upper != "":
		return "at most " + upper
	}
	return "no limit"
}
