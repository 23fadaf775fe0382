package optimize

import (
	"context"
	"math/rand"
	"testing"

	"bowlwright/household"
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

// A thousand pets on one base, on all processors.
func BenchmarkThousandPets(b *testing.B) {
	h := demo(b)
	r := rand.New(rand.NewSource(1))
	h.Pets = nil
	for range 1000 {
		h.Pets = append(h.Pets, randomPet(r))
	}
	reqs := make([]Request, len(h.Pets))
	for i := range reqs {
		reqs[i] = Request{Household: h, Pet: &h.Pets[i], Today: household.DateOf(demoDay)}
	}
	for b.Loop() {
		_, errs := SolveAll(context.Background(), reqs)
		for i, err := range errs {
			if err != nil {
				b.Fatal(h.Pets[i].Name, err)
			}
		}
	}
}
