package supplies

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// Purchase is one food to buy, for whatever it is needed.
type Purchase struct {
	Food *nutrients.Food
	// NeedG is what is eaten or goes into pot and jar; BuyG is what to buy for it, with
	// the waste, less what is there, in whole packs or rounded up.
	NeedG, BuyG float64
	Stock       household.Stock
	// Packs and Pieces count what is bought, 0 where it goes by weight.
	Packs, Pieces int
	// Price is that of BuyG, 0 when no price is known.
	Price float64

	pricePerG float64
}

// Powders are bought in whole grams, other food as on a batch sheet (common practice).
const powderStepG = 1.0

// Shopping is everything to buy for so many days of the given plans: ingredients of
// their bases with the batches within them, treats, add-ons, and the powders of premixes
// and jars. It is ordered by the group of the catalogue, then by name.
func Shopping(h *household.Household, ps []household.Paired, days int) []Purchase {
	list := shoppingList{of: map[string]*Purchase{}, h: h}
	for _, p := range ps {
		pet := &p.Plan().Pet
		list.batch(p.Base(), pet.BaseG*float64(days))
		for _, a := range pet.Addons {
			if a.ServedAs == household.ServedFromJar && pet.Jar != nil {
				for _, part := range pet.Jar.Mix.Parts {
					list.addon(part.Food, a.G*float64(days)*part.G/pet.Jar.Mix.MakesG)
				}
				continue
			}
			list.addon(a.Food, a.G*float64(days))
		}
		for _, e := range pet.Extras {
			list.addon(e.Food, e.G*float64(days))
		}
	}
	var all []Purchase
	for _, x := range list.of {
		x.round()
		all = append(all, *x)
	}
	slices.SortFunc(all, func(a, b Purchase) int {
		return cmp.Or(strings.Compare(a.Food.Group, b.Food.Group), strings.Compare(a.Food.Name, b.Food.Name), strings.Compare(a.Food.ID, b.Food.ID))
	})
	return all
}

// shoppingList gathers what is needed by food.
type shoppingList struct {
	h  *household.Household
	of map[string]*Purchase
}

func (s shoppingList) add(f *nutrients.Food, grams float64) *Purchase {
	x := s.of[f.ID]
	if x == nil {
		x = &Purchase{Food: f}
		s.of[f.ID] = x
	}
	x.NeedG += grams
	return x
}

// batch adds what grams of a cooked batch are made of.
func (s shoppingList) batch(b *household.Batch, grams float64) {
	share := grams / b.CookedGrams()
	for _, in := range b.Ingredients {
		if in.Batch != nil {
			s.batch(in.Batch, in.Grams*share)
			continue
		}
		x := s.add(in.Food, in.Grams*share)
		x.Stock = joined(x.Stock, in.Stock)
		x.pricePerG = cmp.Or(x.pricePerG, in.PricePerG)
	}
}

// addon adds a food by its id, from the shelf with its price and stock, or from the
// catalogue.
func (s shoppingList) addon(id string, grams float64) {
	for _, a := range s.h.Addons {
		if a.Jar == nil && a.Food.ID == id {
			x := s.add(a.Food, grams)
			x.Stock = joined(x.Stock, a.Stock)
			x.pricePerG = cmp.Or(x.pricePerG, a.PricePerG)
			return
		}
	}
	if f, ok := s.h.Catalogue.Food(id); ok {
		s.add(f, grams)
	}
}

// buyable keeps the dust of adding up from buying a pack more.
const buyable = 1e-6

// round works out what to buy.
func (x *Purchase) round() {
	edible := max(0, x.NeedG-x.Stock.HaveG)
	x.BuyG = edible / (1 - x.Food.Refuse)
	step := ShoppingStepG
	if x.Food.Supplement() || x.Food.Powder && !x.Food.Carrier {
		step = powderStepG
	}
	switch piece := pieceGrams(x.Food); {
	case x.Stock.PackG > 0:
		x.Packs = int(math.Ceil(x.BuyG/x.Stock.PackG - buyable))
		x.BuyG = float64(x.Packs) * x.Stock.PackG
	case piece > 0:
		x.Pieces = int(math.Ceil(edible/piece - buyable))
		x.BuyG = float64(x.Pieces) * piece / (1 - x.Food.Refuse)
	default:
		x.BuyG = math.Ceil(x.BuyG/step-buyable) * step
	}
	x.Price = x.BuyG * x.pricePerG
}

// pieceGrams is the edible weight of one piece of a food that is sold by number, by its
// published measure: eggs. It is 0 for all else.
func pieceGrams(f *nutrients.Food) float64 {
	if f.Group != "egg" {
		return 0
	}
	for _, m := range f.Measures {
		if m.Name == "1 large" {
			return m.Grams
		}
	}
	return 0
}

// joined is what several lines of the files say together of one food: the cupboard is
// the same, so the largest counts.
func joined(s, o household.Stock) household.Stock {
	return household.Stock{HaveG: max(s.HaveG, o.HaveG), PackG: max(s.PackG, o.PackG)}
}
