package optimize

import (
	"context"
	"encoding/json"
	"math/rand"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/nutrients"
)

// certified draws plans of all kinds with a sound certificate.
func certified(t *testing.T, count int) []*household.Plan {
	r := rand.New(rand.NewSource(12))
	var all []*household.Plan
	for len(all) < count {
		h := [...]func(*rand.Rand) *household.Household{sample.Draw, sample.DrawStocked}[len(all)%2](r)
		if r.Intn(2) == 0 {
			h.Pets[0].Extras = []household.Portion{{Food: h.Base.Ingredients[0].Food, Grams: 5 + 10*r.Float64()}}
		}
		plan, err := Solve(context.Background(), Request{Household: h, Pet: &h.Pets[0]})
		if err != nil || plan.Pet.Certificate == nil || !plan.Pet.Status.Printable() {
			continue
		}
		if err := VerifyCertificate(plan); err != nil {
			t.Fatalf("a sound certificate is refused: %v", err)
		}
		all = append(all, plan)
	}
	return all
}

// Every number of the recorded program that the plan shows as well is held against
// it: a changed one is found.
func TestCertificateIsThatOfThePlan(t *testing.T) {
	faults := map[string]func(p *household.Program, k int) bool{
		"lower limit": func(p *household.Program, k int) bool {
			return p.Rows[k].Limit.Side == nutrients.Minimum && scaled(p.Rows[k].Lower, p.Rows[k].Limit)
		},
		"limit of concentrates": func(p *household.Program, k int) bool {
			row := &p.Rows[k]
			if row.Limit.Kind != nutrients.OfConcentrates {
				return false
			}
			*row.Upper *= 1.001
			return true
		},
		"upper limit": func(p *household.Program, k int) bool {
			return p.Rows[k].Limit.Kind == nutrients.OfNutrient && scaled(p.Rows[k].Upper, p.Rows[k].Limit)
		},
		"energy": func(p *household.Program, k int) bool {
			row := &p.Rows[k]
			return row.Limit == nutrients.EnergyOfDay && scaled(row.Lower, row.Limit) && scaled(row.Upper, row.Limit)
		},
		"coefficient of the base": func(p *household.Program, k int) bool {
			if p.Rows[k].A.At(0) == 0 {
				return false
			}
			p.Rows[k].A.Terms[0].Value *= 0.999
			return onNutrient(p.Rows[k].Limit)
		},
		"a limit more": func(p *household.Program, k int) bool {
			row := p.Rows[k]
			row.Limit = nutrients.ParseLimitID("another " + row.Limit.String())
			p.Rows = append(p.Rows, row)
			return true
		},
		"a limit twice": func(p *household.Program, k int) bool {
			p.Rows = append(p.Rows, p.Rows[k])
			return true
		},
		"a limit less": func(p *household.Program, k int) bool {
			// The row of the concentrates is not always there; without it the program
			// proves less, not more.
			always := p.Rows[k].Limit.Kind != nutrients.OfConcentrates
			p.Rows = append(p.Rows[:k], p.Rows[k+1:]...)
			return always
		},
	}
	seen := map[string]int{}
	for _, plan := range certified(t, sample.Count(3, 10)) {
		for name, fault := range faults {
			for k := range plan.Pet.Certificate.Program.Rows {
				bent := copyPlan(t, plan)
				limit := plan.Pet.Certificate.Program.Rows[k].Limit
				if !fault(bent.Pet.Certificate.Program, k) {
					continue
				}
				seen[name]++
				if err := newRecorded(bent).agrees(); err == nil {
					t.Errorf("%s of %s is not found", name, limit)
				}
			}
		}
		for j, c := range plan.Pet.Certificate.Program.Columns {
			for _, a := range plan.Pet.Addons {
				if a.Food == c.Food || j == 0 {
					bent := copyPlan(t, plan)
					*bent.Pet.Certificate.Program.Columns[j].Cap = 1e-6
					seen["cap"]++
					if newRecorded(bent).agrees() == nil {
						t.Errorf("a cap of %s under what is given is not found", c.Food)
					}
					break
				}
			}
		}
	}
	for name := range faults {
		if seen[name] < sample.Count(3, 10) {
			t.Errorf("%s: planted only %d times", name, seen[name])
		}
	}
	if seen["cap"] < sample.Count(5, 20) {
		t.Errorf("caps: planted only %d times", seen["cap"])
	}
	t.Log(seen)
}

// onNutrient says whether a row is that of a nutrient or the energy: the sums of the
// ratios are not in the plan.
func onNutrient(limit nutrients.LimitID) bool {
	return limit.Kind == nutrients.OfNutrient || limit == nutrients.EnergyOfDay
}

func scaled(v *float64, limit nutrients.LimitID) bool {
	if v == nil || *v == 0 || !onNutrient(limit) {
		return false
	}
	*v *= 1.001
	return true
}

func copyPlan(t *testing.T, plan *household.Plan) *household.Plan {
	t.Helper()
	text, err := json.Marshal(plan)
	if err != nil {
		t.Fatal(err)
	}
	var out household.Plan
	if err := json.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	return &out
}
