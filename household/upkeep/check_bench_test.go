package upkeep

import (
	"testing"

	"bowlwright/household"
)

func BenchmarkCheckThousandPets(b *testing.B) {
	dir := thousand(b)
	h := mustLoad(b, dir)
	inUse := map[string]*household.Plan{}
	snapshot := h.Base.Snapshot()
	for i := range h.Pets {
		p := &h.Pets[i]
		inUse[p.Name] = &household.Plan{Format: household.PlanFormat, Date: testDay, Base: snapshot, Pet: household.PetPlan{Pet: p.Name, WeightKg: p.Animal.WeightKg}}
	}
	for b.Loop() {
		Check(h, inUse, testDay)
	}
}
