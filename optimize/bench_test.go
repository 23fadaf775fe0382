package optimize

import (
	"context"
	"math/rand"
	"slices"
	"strconv"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/household/parallel"
)

// A whole plan of one pet of the example.
func BenchmarkPlan(b *testing.B) {
	h := sample.QuinceLane(b)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		solve(b, h, &h.Pets[i%len(h.Pets)])
	}
}

// Pets drawn at random on the base and shelf of the example: a thousand of them
// are the budget of two seconds.
func BenchmarkDrawnPets(b *testing.B) {
	h := sample.QuinceLane(b)
	r := rand.New(rand.NewSource(1))
	pets := make([]household.Pet, 100)
	for i := range pets {
		pets[i] = sample.DrawPet(r)
	}
	for i := 0; b.Loop(); i++ {
		if _, err := Solve(context.Background(), Request{Household: h, Pet: &pets[i%len(pets)], Today: household.DateOf(sample.Day)}); err != nil {
			b.Fatal(err)
		}
	}
}

// The whole example, all pets in one call.
//
// Measured on two cores in November 2026: 3.8 ms.
func BenchmarkHousehold(b *testing.B) {
	h := sample.QuinceLane(b)
	reqs := requests(h)
	for b.Loop() {
		solveEach(b, reqs)
	}
}

// A thousand pets on one base, on all processors, planned ten, a hundred and a
// thousand at a time. What a pet takes is reported, and the share of it that a pet
// takes among ten: 1 when time is linear in the number of pets.
//
// Measured in November 2026 among 10, 100 and 1,000 pets: 1, 0.82 and 0.72 times.
func BenchmarkPets(b *testing.B) {
	h := sample.QuinceLane(b)
	r := rand.New(rand.NewSource(1))
	h.Pets = nil
	for range 1000 {
		h.Pets = append(h.Pets, sample.DrawPet(r))
	}
	reqs := requests(h)
	perPet := map[int]float64{}
	for _, together := range []int{10, 100, 1000} {
		b.Run(strconv.Itoa(together), func(b *testing.B) {
			for b.Loop() {
				for some := range slices.Chunk(reqs, together) {
					solveEach(b, some)
				}
			}
			perPet[together] = b.Elapsed().Seconds() / float64(b.N*len(reqs))
			b.ReportMetric(1e6*perPet[together], "µs/pet")
			if perPet[10] > 0 {
				b.ReportMetric(perPet[together]/perPet[10], "of-ten")
			}
		})
	}
}

func requests(h *household.Household) []Request {
	reqs := make([]Request, len(h.Pets))
	for i := range reqs {
		reqs[i] = Request{Household: h, Pet: &h.Pets[i], Today: household.DateOf(sample.Day)}
	}
	return reqs
}

func solveEach(b *testing.B, reqs []Request) {
	b.Helper()
	shared := Share(reqs[0].Household)
	parallel.OnAllProcessors(len(reqs), func(i int) {
		req := reqs[i]
		req.Shared = shared
		if _, err := Solve(context.Background(), req); err != nil {
			b.Error(reqs[i].Pet.Name, err)
		}
	})
}
