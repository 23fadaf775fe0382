package jar

import (
	"fmt"
	"math/rand"
	"testing"
)

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
