package optimize

import (
	"testing"

	"bowlwright/fixtures/sample"
)

// A jar for the example, composed, in whole steps, each pet planned: 45 ms of
// processor time measured in November 2026; with the jar in hand 28 ms.
func BenchmarkMixes(b *testing.B) {
	h := sample.QuinceLane(b)
	houseJar(h)
	for b.Loop() {
		mixes(b, h, nil)
	}
}

func BenchmarkMixesInHand(b *testing.B) {
	h := sample.QuinceLane(b)
	houseJar(h)
	j := mixes(b, h, nil).Jars
	for b.Loop() {
		mixes(b, h, j)
	}
}
