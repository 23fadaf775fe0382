package sample

import (
	"testing"

	"bowlwright/household"
)

func TestPairs(t *testing.T, base *household.Batch) []household.Paired {
	t.Helper()
	var ps []household.Paired
	for i, name := range HardNames {
		p := Plan(name, base)
		p.Pet.BaseG += float64(10 * i)
		ps = append(ps, Pair(t, p, base))
	}
	return ps
}
