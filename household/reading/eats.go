package reading

import (
	"fmt"
	"maps"
	"slices"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/foodfile"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// readEats reads what a pet eats now: each entry names a food or a batch, and how much
// of it a day. What harms the species is a warning here, because it is eaten already.
func (l *loader) readEats(t tomldoc.Table, p *household.Pet) {
	for _, et := range t.Many("eats") {
		et.Only("food", "base", "amount")
		if !et.Has("amount") {
			et.Missing("amount", "what is eaten has no amount", "write amount = \"180 g\", for one day")
		}
		switch {
		case et.Has("food") && et.Has("base"):
			et.Fault("base", "food-and-batch", "an entry is a food or a base, not both", "take one of the two out, or write two entries")
		case et.Has("base"):
			l.readEatenBatch(et, p)
		default:
			l.readEatenFood(et, p)
		}
	}
}

func (l *loader) readEatenBatch(t tomldoc.Table, p *household.Pet) {
	name, ok := t.Text("base")
	if !ok {
		return
	}
	if _, there := l.bases.docs[name]; !there {
		t.Fault("base", "unknown-batch", fmt.Sprintf("there is no batch bases/%s.toml", diag.Clip(name)), diag.NearHint(name, slices.Sorted(maps.Keys(l.bases.docs))))
		return
	}
	grams, ok := t.Positive("amount", "180 g", quantity.Mass)
	if b := l.home.Batches[name]; ok && b != nil {
		p.Eats = append(p.Eats, household.Eaten{Batch: b, Grams: grams})
	}
}

func (l *loader) readEatenFood(t tomldoc.Table, p *household.Pet) {
	f, ok := foodfile.Named(t, "food", l.home.Catalogue)
	if !ok {
		return
	}
	if f.PerUnit != nil && f.UnitGrams == 0 {
		t.Fault("food", "unit-weight-missing", f.ID+" is given by the "+f.UnitName+" and its weight is not known", "write unit_grams in the food's file")
		return
	}
	grams, ok := foodfile.Amount(t, "amount", f)
	if !ok {
		return
	}
	if h, blocked := nutrients.Blocked(f, p.Animal.Species, ""); blocked {
		t.Warn("food", "harmful-food", fmt.Sprintf("%s harms a %s: %s", f.ID, p.Animal.Species, h.Text), "stop feeding it, and ask a veterinarian")
	}
	p.Eats = append(p.Eats, household.Eaten{Food: f, Grams: grams})
}
