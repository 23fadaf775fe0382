package household

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/nutrients"
)

// Offered lists the add-ons that a pet may get, in the order of the shelf: those
// meant for it, that it does not avoid and that do not harm its species.
func Offered(h *Household, p *Pet) []Addon {
	var all []Addon
	for _, a := range h.Addons {
		if len(a.Pets) > 0 && !slices.ContainsFunc(a.Pets, func(n string) bool { return strings.EqualFold(n, p.Name) }) {
			continue
		}
		if blocksAny(a.Food, p.Animal.Species) || Avoids(p, a.Food) || h.replaced(p.Name, a) {
			continue
		}
		all = append(all, a)
	}
	return all
}

// blocksAny says whether a food, or a part of a mixture, harms a species.
func blocksAny(f *nutrients.Food, sp nutrients.Species) bool {
	for _, part := range f.Opened() {
		if _, blocked := nutrients.Blocked(part.Food, sp, ""); blocked {
			return true
		}
	}
	return false
}

// KitchenFor is the kitchen as it serves a pet: no premix is made for more days
// than the plan is good for.
func (h *Household) KitchenFor(p *Pet) Kitchen {
	k := h.Kitchen
	k.PremixDays = min(k.PremixDays, PlanLasts(p))
	return k
}

// FoodDigests are the digests of foods, each worked out once: a digest takes as long
// as much else that is done for a pet.
type FoodDigests map[*nutrients.Food]string

// FoodDigests works out the digests of the foods that plans of the household hold. It
// is not added to later, so that several may read it at once.
func (h *Household) FoodDigests() FoodDigests {
	d := FoodDigests{}
	for _, a := range h.Addons {
		d[a.Food] = a.Food.Digest()
	}
	for _, p := range h.Pets {
		for _, x := range p.Extras {
			if _, ok := d[x.Food]; !ok {
				d[x.Food] = x.Food.Digest()
			}
		}
	}
	return d
}

// Of returns the digest of any food.
func (d FoodDigests) Of(f *nutrients.Food) string {
	if known, ok := d[f]; ok {
		return known
	}
	return f.Digest()
}

// ShelfDigest covers what a plan of the pet may be made of and how it is weighed:
// the add-ons offered with their figures, steps and caps, the kitchen as it serves the
// pet, and the preference. The order of the shelf does not matter, prices only to who prefers
// the cheapest.
func (d FoodDigests) ShelfDigest(h *Household, p *Pet) string {
	return d.shelfDigest(h, p, h.KitchenFor(p))
}

// sameShelf says whether a recorded digest is that of the shelf as it is. Records of
// before held the household's days of a premix where a plan is not good for so long;
// with the same days the same premix is made, so such a digest is good as well.
func (d FoodDigests) SameShelf(h *Household, p *Pet, recorded string) bool {
	return recorded == d.ShelfDigest(h, p) || recorded == d.shelfDigest(h, p, h.Kitchen)
}

func (d FoodDigests) shelfDigest(h *Household, p *Pet, k Kitchen) string {
	var lines []string
	for _, a := range Offered(h, p) {
		line := fmt.Sprintf("%s|%g|%s|%g|%g|%g", d.Of(a.Food), a.StepG, a.Unit, a.UnitGrams, a.MaxG, a.MaxGPerKg)
		if p.Prefer == PreferCheapest {
			line += fmt.Sprintf("|%g", a.PricePerG)
		}
		lines = append(lines, line)
	}
	for _, j := range h.Jars {
		if j.Serves(p.Name) {
			lines = append(lines, fmt.Sprintf("jar|%s|%d|%g|%g|%v", j.Name, j.Days, j.StepG, j.ScoopG, j.PerBase))
		}
	}
	slices.Sort(lines)
	// What is as it always was is not in the digest, so that plans of before are in date.
	if k.AimsShare > 0 && k.AimsShare != DefaultAimsShare {
		lines = append(lines, fmt.Sprintf("aims %g", k.AimsShare))
	}
	if p.Prefer == PreferFewest && k.FewestWithin > 0 && k.FewestWithin != DefaultFewestWithin {
		lines = append(lines, fmt.Sprintf("within %g", k.FewestWithin))
	}
	return DigestOf(fmt.Sprintf("%s|%g|%g|%d|%d|%g|%g\n%s", p.Prefer, k.ScaleG, k.FineScaleG, k.PremixDays, k.Meals,
		k.EnergySlack, k.AddonEnergyShare, strings.Join(lines, "\n")))
}
