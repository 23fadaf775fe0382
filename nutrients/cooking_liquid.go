package nutrients

import (
	"fmt"
	"strings"
)

// fatty are the parts of fat that run out with it.
var fatty = []ID{Fat, Saturated, Monounsaturated, Polyunsaturated, LinoleicAcid, AlphaLinolenicAcid,
	ArachidonicAcid, EPA, DHA, DPA}

// dryKinds are the kinds of cooking whose fat runs into the pan; they stand in for
// each other, best first.
var dryKinds = []string{"roasted", "grilled", "pan"}

// pourOffFat takes off the fat that a pair of raw and cooked records of this very
// food shows to run out.
func pourOffFat(c *Cooked, f *Food, kind string) {
	kinds := []string{kind}
	if isDry(kind) {
		kinds = append(kinds, dryKinds...)
	}
	for _, k := range kinds {
		share, ok := cooking().fats[[2]string{k, f.ID}]
		if !ok {
			continue
		}
		for _, id := range fatty {
			c.Kept[id] = c.Kept[id].Scale(share)
		}
		c.Notes = append(c.Notes, fmt.Sprintf("the fat that runs out is discarded: %.0f %% of it stays", 100*share))
		return
	}
}

func isDry(kind string) bool {
	for _, k := range dryKinds {
		if k == kind {
			return true
		}
	}
	return false
}

// leached lists what dissolves in the liquid and is also harmed by heat, so that
// keeping the liquid gives back an unknown part of the loss.
var leached = []ID{Taurine, Thiamin, Riboflavin, VitaminB6, Niacin, PantothenicAcid, VitaminB12, Folate,
	Biotin, Choline, VitaminC, Carnitine}

// elements cannot be destroyed by cooking; they only move to the liquid.
var elements = []ID{Calcium, Phosphorus, Magnesium, Sodium, Potassium, Chloride, Iron, Copper, Zinc, Manganese,
	Selenium, Iodine}

// giveBackLiquid turns the losses of cooking with the liquid poured off into those
// of a batch that keeps it.
func giveBackLiquid(c *Cooked, f *Food, kind string) {
	for _, id := range elements {
		c.Kept[id] = f.Per100g[id]
	}
	for _, id := range leached {
		c.Kept[id].Hi = f.Per100g[id].Hi
	}
	if !isDry(kind) {
		c.YieldShare = max(1, c.YieldShare)
	}
	for i, note := range c.Notes {
		c.Notes[i] = strings.Replace(note, pouredAway, liquidKept, 1)
	}
}
