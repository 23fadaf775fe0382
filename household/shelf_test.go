package household

import (
	"testing"

	"bowlwright/nutrients"
)

// A premix of a growing animal is made for no more days than its plan is good for, so
// more days in the kitchen change nothing of it, and a record that still holds the
// kitchen's days is good. For an adult they change what is weighed.
func TestShelfOfAPremix(t *testing.T) {
	dir := folder(t, map[string]string{"household.toml": goodHousehold})
	h := mustLoad(t, dir)
	p, _ := h.Pet("Marlow")
	for stage, want := range map[nutrients.Stage]struct{ more, less bool }{nutrients.Growth: {true, false}, nutrients.Adult: {false, false}} {
		pet := *p
		pet.Animal.Stage = stage
		was, now := *h, *h
		was.Kitchen.PremixDays = 28
		foods := h.FoodDigests()
		digest := foods.ShelfDigest(&was, &pet)
		before := foods.shelfDigest(&was, &pet, was.Kitchen)
		for _, recorded := range []string{digest, before} {
			if !foods.SameShelf(&was, &pet, recorded) {
				t.Errorf("%s: nothing changed, and the plan is stale", stage)
			}
		}
		now.Kitchen.PremixDays = 56
		if got := foods.SameShelf(&now, &pet, digest); got != want.more {
			t.Errorf("%s: with 56 days in place of 28 the shelf is the same: %v", stage, got)
		}
		now.Kitchen.PremixDays = 7
		for _, recorded := range []string{digest, before} {
			if got := foods.SameShelf(&now, &pet, recorded); got != want.less {
				t.Errorf("%s: with 7 days in place of 28 the shelf is the same: %v", stage, got)
			}
		}
	}
}
