package foodfile

import (
	"fmt"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// halfKnown is the coverage of a figure of which a label gives only a minimum: what
// is guaranteed counts toward lower limits, and because nothing is said of the other
// end, an upper limit is shown as not fully checked.
const halfKnown = 0.5

// figure reads what a label says of a nutrient: "12 mg", "10..12 mg" where sources
// differ, "12 %" of the weight, and the bounds of a guaranteed analysis: "min 10 %"
// and "max 5 %". per is the weight of food in grams that the figures are given for.
// The result is in the nutrient's canonical unit.
func figure(s string, id nutrients.ID, per float64) (nutrients.Figure, error) {
	if rest, ok := strings.CutPrefix(s, "min "); ok {
		x, err := oneFigure(rest, id, per)
		return nutrients.Figure{Lo: x, Hi: x, Coverage: halfKnown}, err
	}
	if rest, ok := strings.CutPrefix(s, "max "); ok {
		x, err := oneFigure(rest, id, per)
		return nutrients.Figure{Hi: x, Coverage: 1}, err
	}
	a, b, ranged := strings.Cut(s, "..")
	if !ranged {
		x, err := oneFigure(s, id, per)
		return nutrients.Figure{Lo: x, Hi: x, Coverage: 1}, err
	}
	high, unit, err := quantity.Split(b)
	if err != nil {
		return nutrients.Unknown, err
	}
	if high, err = inUnit(high, unit, id, per); err != nil {
		return nutrients.Unknown, err
	}
	low, lowUnit, err := quantity.Split(a)
	if err != nil {
		return nutrients.Unknown, err
	}
	if lowUnit == "" {
		lowUnit = unit
	}
	if low, err = inUnit(low, lowUnit, id, per); err != nil {
		return nutrients.Unknown, err
	}
	if low > high {
		return nutrients.Unknown, diag.BadInput("range-upside-down", fmt.Sprintf("the range %q is upside down", diag.Clip(s)), "write the smaller figure first")
	}
	return nutrients.Figure{Lo: low, Hi: high, Coverage: 1}, nil
}

// oneFigure reads one amount with its unit.
func oneFigure(s string, id nutrients.ID, per float64) (float64, error) {
	x, unit, err := quantity.Split(s)
	if err != nil {
		return 0, err
	}
	return inUnit(x, unit, id, per)
}

// labelText writes a figure so that figure reads the same again.
func labelText(f nutrients.Figure, u nutrients.Unit) string {
	unit := " " + string(u)
	switch {
	case f.Coverage < 1:
		return "min " + number.Exact(f.Lo) + unit
	case f.Lo == f.Hi:
		return number.Exact(f.Hi) + unit
	case f.Lo == 0:
		return "max " + number.Exact(f.Hi) + unit
	}
	return number.Exact(f.Lo) + ".." + number.Exact(f.Hi) + unit
}

// readPer reads the weight of food in grams that a label's figures are given for:
// a weight, an energy ("1000 kcal", with the energy of the food beside it), or one
// unit, for which it is 0.
func readPer(t tomldoc.Table, f *nutrients.Food) float64 {
	const usual = 100.0
	s, ok := t.Text("per")
	if !ok {
		return usual
	}
	x, unit, err := quantity.Split(s)
	switch {
	case err == nil && unit == "kcal":
		return perEnergy(t, x)
	case err == nil && unit != "" && x == 1 && !quantity.IsMass(unit):
		f.UnitName, f.PerUnit = unit, new(nutrients.Profile)
		return 0
	}
	per, err := quantity.Mass(s)
	switch {
	case err != nil:
		t.InputFault("per", err)
		return usual
	case per <= 0:
		t.Fault("per", "not-positive", "per must be more than nothing", "write per = \"100 g\"")
		return usual
	}
	return per
}

// perEnergy turns kcal of food into grams by the label's own energy, written like
// energy = "120 kcal per 100 g".
func perEnergy(t tomldoc.Table, kcal float64) float64 {
	const hint = "write the energy of the food beside it, like energy = \"120 kcal per 100 g\""
	text, ok := t.Text("energy")
	if !ok {
		if !t.Has("energy") {
			t.Fault("per", "no-energy", "figures per kcal need the energy of the food", hint)
		}
		return 100
	}
	energy, weight, parted := strings.Cut(text, " per ")
	x, unit, err := quantity.Split(energy)
	var grams float64
	if err == nil && parted {
		grams, err = quantity.Mass(strings.TrimSpace(weight))
	}
	if err != nil || !parted || unit != "kcal" || x <= 0 || grams <= 0 || kcal <= 0 || x/grams > kcalOfFat {
		t.Fault("energy", "bad-energy", fmt.Sprintf("%q is not the energy of a food", diag.Clip(text)), hint)
		return 100
	}
	return kcal * grams / x
}

// kcalOfFat is the energy of a gram of fat; no food has more.
const kcalOfFat = 9.5
