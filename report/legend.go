package report

import (
	"fmt"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// storageRules are kitchen rules with their sources (USDA food safety rules as
// restated by extension services; freezer time for quality is recalled).
var storageRules = []string{
	"Fridge at 4 °C or below: 3 to 4 days. Freezer at -18 °C: 2 to 3 months (recalled). Thaw in the fridge.",
	"Cool in layers of 5 cm and chill within 2 hours. Discard food left in the bowl for 2 hours.",
}

// How to read the bars.
const (
	LegendBase    = "from the base and treats"
	LegendAddons  = "from the add-ons"
	LegendUnknown = "share of the food with no published figure"
	LegendLimits  = "line: minimum; bracket: maximum, if any"
	LegendScale   = "The scale is the same in every row. Up to the minimum it runs evenly from zero. Beyond it, each thin line stands for twice the one before: " +
		"2, 4, 8, 16 and 32 times the minimum. So the minimum is one straight line: a bar that does not reach it is below minimum."
	LegendKnown = "known: the share of the food, by weight, that has a published figure; the rest counts toward no minimum."
)

// LegendMarks explain the marks that the table of nutrients bears.
func (c *Card) LegendMarks() []string { return c.legend }

// RecalledMark explains the mark of a recalled limit where a watched nutrient bears it, ""
// where none does.
func (c *Card) RecalledMark() string {
	for _, w := range c.Watched {
		if strings.Contains(w.Name, "†") {
			return recalledLegend
		}
	}
	return ""
}

const recalledLegend = "† limit quoted from memory, not checked against the standard."

func legend(pet *household.PetPlan) []string {
	var l []string
	partly, recalled := false, false
	for _, n := range pet.Nutrients {
		partly = partly || (n.State == household.StateMet && !n.UpperChecked)
		recalled = recalled || n.Recalled
	}
	if partly {
		l = append(l, "met*: met, maximum not fully checked, because part of the food has no published figure.")
	}
	if recalled {
		l = append(l, recalledLegend)
	}
	return l
}

// ratioText says a ratio and its limits, and in words when it misses one.
func ratioText(r household.RatioLine) string {
	amount, lower, upper := against(r.Amount, r.Lower, r.Upper, r.State)
	state := ""
	switch r.State {
	case household.StateMet:
		if r.Amount != nil {
			amount = fmt.Sprintf("%.2f", *r.Amount)
		}
	case household.StateLow:
		state = ", below minimum"
	case household.StateHigh:
		state = ", above maximum"
	}
	if amount == "" {
		amount = "unknown"
	}
	return fmt.Sprintf("%s %s%s (%s)", nutrients.RatioName(r.ID), amount, state, rangeWords(lower, upper))
}
