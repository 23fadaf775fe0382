package advice

import (
	"context"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/optimize"
)

// BenchmarkSuggest works out suggestions for a cat whose shelf lacks everything that
// a cat needs.
//
// The whole process took 20 to 30 ms in November 2026, budget 300 ms.
func BenchmarkSuggest(b *testing.B) {
	h := sample.QuinceLane(b)
	h.Addons = h.Addons[:3]
	req := optimize.Request{Household: h, Pet: sample.PetNamed(b, h, "Pip")}
	for b.Loop() {
		if found, err := Suggest(context.Background(), req); err != nil || len(found) == 0 {
			b.Fatal(len(found), err)
		}
	}
}

// The example, each advice planned for everybody: the whole process took 1.8 s of processor
// time on two busy cores in November 2026, 0.4 s of it for planning anew.
func BenchmarkImprove(b *testing.B) {
	h := sample.QuinceLane(b)
	for b.Loop() {
		improve(b, h)
	}
}
