package foodfile

import (
	"fmt"

	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// readCompounds adds what is in a food by chemistry: a label that says "zinc as zinc
// gluconate, 50 mg" names the compound, and the catalogue knows what it holds. Amounts
// are for the same weight or unit as the figures; scale turns them into the profile's.
func readCompounds(t tomldoc.Table, p *nutrients.Profile, scale float64) {
	for _, ct := range t.Many("compound") {
		ct.Only("food", "amount")
		f, ok := Named(ct, "food", nutrients.Default())
		if !ok {
			continue
		}
		if !f.Supplement() || f.PerUnit != nil {
			ct.Fault("food", "no-compound", fmt.Sprintf("%s is not a compound of the catalogue", f.ID), "find one with", "foods", "find", "supplement")
			continue
		}
		if !ct.Has("amount") {
			ct.Missing("amount", "a compound has no amount", "write amount = \"50 mg\"")
		}
		g, ok := ct.Positive("amount", "50 mg", quantity.Mass)
		if !ok {
			continue
		}
		for id, part := range f.Per100g {
			// A known zero of the compound says nothing about the food.
			if part.Hi > 0 && !nutrients.ID(id).Derived() {
				p[id].Lo += part.Lo * g / 100 * scale
				p[id].Hi += part.Hi * g / 100 * scale
				p[id].Coverage = 1
			}
		}
	}
}
