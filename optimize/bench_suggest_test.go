package optimize

import (
	"context"
	"testing"
)

// BenchmarkSuggest works out suggestions for a cat whose shelf lacks everything that
// a cat needs.
func BenchmarkSuggest(b *testing.B) {
	h := demo(b)
	h.Addons = h.Addons[:3]
	req := Request{Household: h, Pet: petNamed(b, h, "Pip")}
	for b.Loop() {
		if found, err := Suggest(context.Background(), req); err != nil || len(found) == 0 {
			b.Fatal(len(found), err)
		}
	}
}
