package household

import (
	"slices"

	"bowlwright/nutrients"
)

// FoodCautions lists what is to be known of the foods that a pet gets: those of the
// base as they are cooked, its extras, and the given add-ons. Foods that harm are
// refused elsewhere; these are the warnings, each once, with the food in front.
func FoodCautions(p *Pet, base *Batch, addons []*nutrients.Food) []string {
	var all []string
	add := func(f *nutrients.Food, method string) {
		var texts []string
		for _, h := range nutrients.HazardsCooked(f, p.Animal.Species, method) {
			if !h.Blocked {
				texts = append(texts, h.Text)
			}
		}
		// A published warning says more than the catalogue's own caution.
		if len(texts) == 0 {
			texts = f.Cautions
		}
		for _, text := range texts {
			if text = f.Name + ": " + text; !slices.Contains(all, text) {
				all = append(all, text)
			}
		}
	}
	var inside func(*Batch)
	inside = func(b *Batch) {
		for _, in := range b.Ingredients {
			if in.Batch != nil {
				inside(in.Batch)
			} else {
				add(in.Food, in.Method)
			}
		}
	}
	inside(base)
	for _, e := range p.Extras {
		add(e.Food, "")
	}
	for _, f := range addons {
		for _, part := range f.Opened() {
			add(part.Food, "")
		}
	}
	return all
}
