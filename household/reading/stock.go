package reading

import (
	"bowlwright/household"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
)

// readStock reads what an ingredient or an add-on says of its stock.
func readStock(t tomldoc.Table) household.Stock {
	var s household.Stock
	s.HaveG, _ = t.Quantity("have", "300 g", quantity.Mass)
	s.PackG, _ = t.Positive("pack", "500 g", quantity.Mass)
	if s.HaveG < 0 {
		t.Fault("have", "not-positive", "have cannot be below zero", "write what is in the cupboard, like have = \"300 g\"")
		s.HaveG = 0
	}
	return s
}
