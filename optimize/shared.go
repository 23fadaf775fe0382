package optimize

import (
	"bowlwright/household"
	"bowlwright/nutrients"
)

// Shared is what the plans of one household have in common, worked out once: the
// base and the digests of the foods.
type Shared struct {
	of          *household.Household
	snapshot    household.BaseSnapshot
	composition nutrients.Profile
	digests     household.FoodDigests
}

// Share works out what the plans of a household have in common. Several goroutines
// may solve with it at once.
func Share(h *household.Household) *Shared {
	s := &Shared{of: h, snapshot: h.Base.Snapshot(), digests: h.FoodDigests()}
	s.composition, _ = h.Base.Composition()
	return s
}
