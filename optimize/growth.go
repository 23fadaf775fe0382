package optimize

import (
	"context"
	"fmt"
	"math"
	"slices"

	"bowlwright/household"
	"bowlwright/household/learn"
	"bowlwright/nutrients"
)

const (
	// growthStep is the share by which the weights of a growth table differ: within half
	// of it the row of the nearest weight is as good as a plan of its own.
	growthStep = 0.03
	// mostRows bounds a table to what a page holds.
	mostRows = 30
)

// GrowthRequest asks for the table of a growing animal.
type GrowthRequest struct {
	Household *household.Household
	Pet       *household.Pet
	Today     household.Date
	Version   string
	// Weeks is for how long the table is to do.
	Weeks int
}

// GrowthTable holds a plan for each weight that a growing animal may have in the next
// weeks. Each was verified on its own, as every plan is.
type GrowthTable struct {
	Pet string
	// Until is the last day of the table.
	Until household.Date
	Rows  []GrowthRow
	// Jar is the one premix of all rows, nil where each row has its own or none.
	Jar *household.Jar
	// Note says why there is no jar, or why the table ends early.
	Note string
}

// GrowthRow is the plan for a weight.
type GrowthRow struct {
	WeightKg float64
	// Expected is the day on which the curve expects the weight; the first row's is today.
	Expected household.Date
	Plan     *household.Plan
}

// Growth works out the table. Where the limits of all rows allow it, one jar of premix
// serves them all; else each row has a premix of its own and Note says so. The table ends
// before the first weight for which no plan meets every limit. An animal that does not
// grow, or whose birthday is not known, is a *nutrients.RangeError.
func Growth(ctx context.Context, req GrowthRequest) (*GrowthTable, error) {
	a := req.Pet.Animal
	switch {
	case a.Stage != nutrients.Growth:
		return nil, &nutrients.RangeError{Reason: req.Pet.Name + " does not grow", Remedy: "a table is made for growing animals"}
	case req.Pet.Born.IsZero():
		return nil, &nutrients.RangeError{Reason: "the birthday is not known, and a curve of growth goes by age", Remedy: "write born = DATE in household.toml"}
	}
	table := &GrowthTable{Pet: req.Pet.Name, Until: req.Today.AddDays(7 * req.Weeks)}
	if grown := req.Pet.GrownOn(); !grown.IsZero() && !table.Until.Before(grown) {
		table.Until = grown.AddDays(-1)
	}
	table.Rows = growthWeights(req, table.Until)
	h := growthHousehold(req, table)
	mixed, err := Mixes(ctx, MixRequest{Household: h, Today: req.Today, Version: req.Version})
	if err != nil {
		return nil, err
	}
	if len(mixed) == 1 && len(mixed[0].Jars) == 1 {
		jar := mixed[0].Jars[0]
		with, unusable := h.WithJars(mixed[0].Jars)
		if len(unusable) == 0 {
			if err := table.solve(ctx, req, with); err != nil {
				return nil, err
			}
			if table.met() == len(table.Rows) {
				table.Jar = &jar
				return table, nil
			}
		}
	}
	h.Jars = nil
	if err := table.solve(ctx, req, h); err != nil {
		return nil, err
	}
	table.Note = "No one premix does for all weights: each row has its own."
	if met := table.met(); met < len(table.Rows) {
		table.Note = fmt.Sprintf("%s No plan meets every limit from %.4g kg on: the table ends before.", table.Note, table.Rows[met].WeightKg)
		table.Rows = table.Rows[:met]
	}
	return table, nil
}

// met counts the rows from the first on that meet every limit.
func (t *GrowthTable) met() int {
	n := slices.IndexFunc(t.Rows, func(r GrowthRow) bool { return r.Plan.Pet.Status != household.Met })
	if n < 0 {
		return len(t.Rows)
	}
	return n
}

// growthWeights are the weights from a step below today's to the one that the curve
// expects on the last day, and not over nine tenths of the way to a grown animal's.
func growthWeights(req GrowthRequest, until household.Date) []GrowthRow {
	a, born := req.Pet.Animal, req.Pet.Born
	level := a.WeightKg / learn.GrowthKg(a.AdultKg, req.Today.DaysSince(born))
	expected := func(day household.Date) float64 { return level * learn.GrowthKg(a.AdultKg, day.DaysSince(born)) }
	most := math.Min(expected(until)*(1+growthStep), a.AdultKg*(1-growthStep))
	grain := 0.1
	if a.WeightKg < 5 {
		grain = 0.05
	}
	var rows []GrowthRow
	day := req.Today
	for kg := a.WeightKg * (1 - growthStep); len(rows) < mostRows; kg *= 1 + growthStep {
		shown := grain * math.Round(kg/grain)
		if n := len(rows); n > 0 && shown <= rows[n-1].WeightKg+grain/2 {
			continue
		}
		if shown > most && len(rows) > 1 {
			break
		}
		for day.Before(until) && expected(day) < shown {
			day = day.AddDays(1)
		}
		rows = append(rows, GrowthRow{WeightKg: math.Round(shown*1e6) / 1e6, Expected: day})
	}
	return rows
}

// growthHousehold is a household in which the same animal stands once for each weight,
// and all eat from one jar.
func growthHousehold(req GrowthRequest, t *GrowthTable) *household.Household {
	h := *req.Household
	h.Pets, h.Addons, h.Jars, h.InHand = nil, nil, nil, nil
	// A jar is made for all that eat from it; here all are one animal, on one row a day.
	days := float64(t.Until.DaysSince(req.Today)) / float64(len(t.Rows))
	spec := household.JarSpec{Name: req.Pet.Name + " grows", Days: max(1, int(math.Ceil(days)))}
	spec.StepG = StepOf(req.Household, spec)
	for _, row := range t.Rows {
		pet := *req.Pet
		pet.Name = fmt.Sprintf("%s %.4g kg", req.Pet.Name, row.WeightKg)
		pet.Animal.WeightKg = row.WeightKg
		pet.Animal.EnergyKcal = 0
		h.Pets = append(h.Pets, pet)
		spec.Pets = append(spec.Pets, pet.Name)
	}
	for _, a := range req.Household.Addons {
		if a.Jar != nil || len(a.Pets) > 0 && !slices.Contains(a.Pets, req.Pet.Name) {
			continue
		}
		a.Pets = nil
		h.Addons = append(h.Addons, a)
	}
	h.Jars = []household.JarSpec{spec}
	return &h
}

// solve plans each row.
func (t *GrowthTable) solve(ctx context.Context, req GrowthRequest, h *household.Household) error {
	shared := Share(h)
	for i := range t.Rows {
		plan, err := Solve(ctx, Request{Household: h, Pet: &h.Pets[i], Today: req.Today, Version: req.Version, Shared: shared})
		if err != nil {
			return fmt.Errorf("%s: %w", h.Pets[i].Name, err)
		}
		t.Rows[i].Plan = plan
	}
	return nil
}

// JarDays is for how many days the jar is enough at the largest dose.
func (t *GrowthTable) JarDays() int {
	most := 0.0
	for _, r := range t.Rows {
		if r.Plan.Pet.Jar != nil {
			most = math.Max(most, r.Plan.Pet.Jar.DoseG)
		}
	}
	if t.Jar == nil || most == 0 {
		return 0
	}
	return int(t.Jar.MakesG / most)
}
