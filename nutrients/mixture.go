package nutrients

// Part is a food in a mixture and its share of it by weight.
type Part struct {
	Food  *Food
	Share float64
}

// Mixture returns the food that parts make, whose shares add up to one: figures by
// weight, as everything here is added up. It keeps its parts, so that what holds for a
// part (hazards, cautions, what an animal avoids) is asked of the part. Mixtures are
// supplements: their grams are a dose.
func Mixture(id, name string, parts []Part) *Food {
	var m Mix
	for _, p := range parts {
		m.Add(p.Share*100, &p.Food.Per100g)
	}
	f := &Food{ID: id, Name: name, Group: "supplement", State: "mixed", Parts: parts, Source: Source{Text: "mixed from its parts"}}
	if m.Grams() > 0 {
		f.Per100g = m.Per100g(100)
	}
	return f
}

// Opened lists the parts of a mixture, or the food itself where it is none.
func (f *Food) Opened() []Part {
	if len(f.Parts) == 0 {
		return []Part{{f, 1}}
	}
	return f.Parts
}
