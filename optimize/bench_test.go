package optimize

import (
	"context"
	"math/rand"
	"slices"
	"strconv"
	"testing"
	"time"

	"bowlwright/household"
	"bowlwright/household/parallel"
	"bowlwright/optimize/lp"
)

// One program of a household: least violation, then least add-on.
func BenchmarkStages(b *testing.B) {
	h := demo(b)
	p, err := formulate(h, &h.Pets[0])
	if err != nil {
		b.Fatal(err)
	}
	q := p.elastic()
	cost := make([]float64, len(q.Cost))
	for j := 1; j < len(p.items); j++ {
		cost[j] = 1
	}
	b.ReportAllocs()
	for b.Loop() {
		solver, err := lp.New(q)
		if err != nil {
			b.Fatal(err)
		}
		if solver.Solve().Status != lp.Optimal {
			b.Fatal("no optimum")
		}
		for j := len(p.items); j < len(q.Cost); j++ {
			solver.SetColumn(j, 0, 0)
		}
		solver.SetCost(cost)
		if solver.Solve().Status != lp.Optimal {
			b.Fatal("no optimum")
		}
	}
}

// Programs of drawn households, as the budget counts them: model, elastic, then
// least, everything checked.
func BenchmarkPrograms(b *testing.B) {
	all := drawPrograms(b, 2, 300, 0)
	var times []float64
	for b.Loop() {
		for _, d := range all {
			took := 0.0
			stages, _ := ours(b, d, 1, false)
			for _, a := range stages {
				took += a.build + a.solve
			}
			times = append(times, took)
		}
	}
	b.ReportMetric(quantile(times, 0.5), "ns/median")
	b.ReportMetric(quantile(times, 0.99), "ns/p99")
}

// Weighable amounts of drawn households. Reports the median.
func BenchmarkWeigh(b *testing.B) {
	r := rand.New(rand.NewSource(3))
	var times []float64
	for b.Loop() {
		h := randomHousehold(r)
		p, err := formulate(h, &h.Pets[0])
		if err != nil || p.rows[0].a[0] <= 0 {
			continue
		}
		s, err := p.stages(context.Background(), nil)
		if err != nil || s.farkas != nil {
			continue
		}
		at := time.Now()
		if _, err := p.weigh(s); err != nil {
			b.Fatal(err)
		}
		times = append(times, float64(time.Since(at).Nanoseconds()))
	}
	b.ReportMetric(quantile(times, 0.5), "ns/median")
	b.ReportMetric(quantile(times, 0.99), "ns/p99")
	b.ReportMetric(quantile(times, 1), "ns/max")
}

// A whole plan of one pet of the example.
func BenchmarkPlan(b *testing.B) {
	h := demo(b)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		solve(b, h, &h.Pets[i%len(h.Pets)])
	}
}

// Pets drawn at random on the base and shelf of the example: a thousand of them
// are the budget of two seconds.
func BenchmarkDrawnPets(b *testing.B) {
	h := demo(b)
	r := rand.New(rand.NewSource(1))
	pets := make([]household.Pet, 100)
	for i := range pets {
		pets[i] = randomPet(r)
	}
	for i := 0; b.Loop(); i++ {
		if _, err := Solve(context.Background(), Request{Household: h, Pet: &pets[i%len(pets)], Today: household.DateOf(demoDay)}); err != nil {
			b.Fatal(err)
		}
	}
}

// The whole example, all pets in one call.
func BenchmarkHousehold(b *testing.B) {
	h := demo(b)
	reqs := requests(h)
	for b.Loop() {
		solveEach(b, reqs)
	}
}

// A thousand pets on one base, on all processors, planned ten, a hundred and a
// thousand at a time. What a pet takes is reported, and the share of it that a pet
// takes among ten: 1 when time is linear in the number of pets.
func BenchmarkPets(b *testing.B) {
	h := demo(b)
	r := rand.New(rand.NewSource(1))
	h.Pets = nil
	for range 1000 {
		h.Pets = append(h.Pets, randomPet(r))
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
		reqs[i] = Request{Household: h, Pet: &h.Pets[i], Today: household.DateOf(demoDay)}
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
