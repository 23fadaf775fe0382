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
		if _, blocked := nutrients.Blocked(a.Food, p.Animal.Species, ""); blocked || Avoids(p, a.Food) {
			continue
		}
		all = append(all, a)
	}
	return all
}

// KitchenFor is the kitchen as it serves a pet: no premix is made for more days
// than the plan is good for.
func (h *Household) KitchenFor(p *Pet) Kitchen {
	k := h.Kitchen
	k.PremixDays = min(k.PremixDays, PlanLasts(p))
	return k
}

// ShelfDigest covers what a plan of the pet may be made of and how it is weighed:
// the add-ons offered with their figures, steps and caps, the kitchen as it serves the
// pet, and the preference. The order of the shelf does not matter, prices only to who prefers
// the cheapest.
func ShelfDigest(h *Household, p *Pet) string {
	return ShelfDigestBy(h, p, (*nutrients.Food).Digest)
}

// ShelfDigestBy is ShelfDigest for a caller who has the digests of the foods at hand.
func ShelfDigestBy(h *Household, p *Pet, digest func(*nutrients.Food) string) string {
	return shelfDigest(h, p, h.KitchenFor(p), digest)
}

// sameShelf says whether a recorded digest is that of the shelf as it is. Records of
// before held the household's days of a premix where a plan is not good for so long;
// with the same days the same premix is made, so such a digest is good as well.
func sameShelf(h *Household, p *Pet, recorded string) bool {
	return recorded == ShelfDigest(h, p) || recorded == shelfDigest(h, p, h.Kitchen, (*nutrients.Food).Digest)
}

func shelfDigest(h *Household, p *Pet, k Kitchen, digest func(*nutrients.Food) string) string {
	var lines []string
	for _, a := range Offered(h, p) {
		line := fmt.Sprintf("%s|%g|%s|%g|%g|%g", digest(a.Food), a.StepG, a.Unit, a.UnitGrams, a.MaxG, a.MaxGPerKg)
		if p.Prefer == "cheapest" {
			line += fmt.Sprintf("|%g", a.PricePerG)
		}
		lines = append(lines, line)
	}
	slices.Sort(lines)
	return digestOf(fmt.Sprintf("%s|%g|%g|%d|%d|%g|%g\n%s", p.Prefer, k.ScaleG, k.FineScaleG, k.PremixDays, k.Meals,
		k.EnergySlack, k.AddonEnergyShare, strings.Join(lines, "\n")))
}
