package jar

import (
	"fmt"
	"math/rand"
	"testing"
)

// Measured in November 2026 for 4, 12 and 40 pets: 2.7, 45 and 13 ms (the 40 have no
// jar); budgets 10, 50 and 400 ms.
func BenchmarkCompose(b *testing.B) {
	for _, n := range []int{4, 12, 40} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			pets := frozen(b)
			if n > 4 {
				pets = drawn(b, rand.New(rand.NewSource(1)), pets, n)
			}
			rules := Rules{MissMore: MissMore}
			for b.Loop() {
				if _, err := Compose(pets, rules); err != nil && !isNone(err) {
					b.Fatal(err)
				}
			}
		})
	}
}

// Measured in November 2026 for 4, 12 and 40 pets: 7 ms, 0.39 s and 3.4 s; budgets 0.5
// s for 12 and 8 s for 40.
func BenchmarkMerge(b *testing.B) {
	for _, n := range []int{4, 12, 40} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			pets := frozen(b)
			if n > 4 {
				pets = drawn(b, rand.New(rand.NewSource(1)), pets, n)
			}
			for b.Loop() {
				if _, err := Merge(pets, Rules{}, 1); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
