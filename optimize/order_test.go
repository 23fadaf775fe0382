package optimize

import (
	"context"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/optimize/diet"
)

// The order of the shelf and of the ingredients is nobody's plan: everything but
// the order of the lines is the same to the last digit.
func TestOrderDoesNotChangeThePlan(t *testing.T) {
	met := 0
	for seed := range int64(sample.Count(60, 240)) {
		r := rand.New(rand.NewSource(seed))
		h := sample.DrawStocked(r)
		p, err := diet.Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 {
			continue
		}
		// Pets that cannot be met take long to weigh: some of them will do.
		if s := solved(t, p); s.Violation > 0 && seed%12 > 0 {
			continue
		}
		a, err := Solve(context.Background(), Request{Household: h, Pet: &h.Pets[0]})
		if err != nil {
			t.Fatal(err)
		}
		other := *h
		other.Addons = slices.Clone(h.Addons)
		r.Shuffle(len(other.Addons), func(i, j int) { other.Addons[i], other.Addons[j] = other.Addons[j], other.Addons[i] })
		base := *h.Base
		base.Ingredients = slices.Clone(base.Ingredients)
		r.Shuffle(len(base.Ingredients), func(i, j int) {
			base.Ingredients[i], base.Ingredients[j] = base.Ingredients[j], base.Ingredients[i]
		})
		other.Base = &base
		b, err := Solve(context.Background(), Request{Household: &other, Pet: &other.Pets[0]})
		if err != nil {
			t.Fatal(err)
		}
		if a.Pet.Status == household.Met {
			met++
		}
		for _, plan := range []*household.Plan{a, b} {
			slices.SortFunc(plan.Pet.Addons, func(x, y household.AddonAmount) int { return strings.Compare(x.Food, y.Food) })
			if mix := plan.Pet.Premix; mix != nil {
				slices.SortFunc(mix.Items, func(x, y household.PremixItem) int { return strings.Compare(x.Food, y.Food) })
			}
		}
		if diff := cmp.Diff([]any{a.Pet.Status, a.Pet.BaseG, a.Pet.Addons, a.Pet.Premix, a.Pet.Certificate}, []any{b.Pet.Status, b.Pet.BaseG, b.Pet.Addons, b.Pet.Premix, b.Pet.Certificate}); diff != "" {
			t.Fatalf("seed %d: %s", seed, diff)
		}
	}
	t.Logf("%d plans met", met)
	if met < sample.Count(1, 10) {
		t.Errorf("only %d plans met", met)
	}
}
