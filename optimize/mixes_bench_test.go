package optimize

import (
	"testing"

	"bowlwright/fixtures/sample"
)

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
