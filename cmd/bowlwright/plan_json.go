package main

import (
	"bytes"
	"encoding/json"
	"slices"

	"bowlwright/household"
)

// planJSON is the contract of `plan --json`.
type planJSON struct {
	Format    string         `json:"format"`
	Household string         `json:"household"`
	Date      household.Date `json:"date"`
	Base      planBaseJSON   `json:"base"`
	// Jars stands before the pets, whose doses name them.
	Jars []planJarJSON       `json:"jars"`
	Pets []household.PetPlan `json:"pets"`
}

// planJarJSON is a jar that the plans take from.
type planJarJSON struct {
	Code   string         `json:"code"`
	Name   string         `json:"name"`
	Pets   []string       `json:"pets"`
	Days   int            `json:"days"`
	MakesG float64        `json:"makes_g"`
	Recipe []planPartJSON `json:"recipe"`
	InHand bool           `json:"in_hand"`
	// CostsOverIndividual is of all jars of one [[jar]] together.
	CostsOverIndividual planCostJSON `json:"costs_over_individual"`
}

type planPartJSON struct {
	Food string  `json:"food"`
	G    float64 `json:"g"`
}

// planCostJSON is what a jar costs over premixes of the pets' own: grams of add-on a day
// and the same as a share; and the powders to weigh out for a mix, with and without it.
type planCostJSON struct {
	G                   float64 `json:"g"`
	Share               float64 `json:"share"`
	Weighings           int     `json:"weighings"`
	WeighingsIndividual int     `json:"weighings_individual"`
}

// planJars are the jars of a run.
func planJars(made planned) []planJarJSON {
	all := []planJarJSON{}
	for _, m := range made.mixed {
		for _, j := range m.Jars {
			out := planJarJSON{Code: j.Code, Name: j.Name, Pets: j.Pets, Days: j.Days, MakesG: j.MakesG, Recipe: []planPartJSON{},
				CostsOverIndividual: planCostJSON{m.Together - m.Alone, m.Together/m.Alone - 1, m.WeighingsTogether, m.WeighingsAlone}}
			for _, part := range j.Parts {
				out.Recipe = append(out.Recipe, planPartJSON{part.Food, part.G})
			}
			for _, in := range made.with.InHand {
				out.InHand = out.InHand || in.Jar.Name == j.Name && in.Jar.Digest == j.Digest
			}
			all = append(all, out)
		}
	}
	return all
}

// withJarApart is the pet's plan as the contract has it: the jar stands apart, add-ons are what
// is given directly.
func withJarApart(pet household.PetPlan) *household.PetPlan {
	if pet.Jar != nil {
		pet.Addons = slices.DeleteFunc(slices.Clone(pet.Addons), func(a household.AddonAmount) bool { return a.ServedAs == "jar" })
	}
	return &pet
}

type planBaseJSON struct {
	Name string `json:"name"`
	household.Identity
	EnergyKcalPerG    float64 `json:"energy_kcal_per_g"`
	EnergyKcalPerGCat float64 `json:"energy_kcal_per_g_cat"`
}

// indented encodes a value as it stands inside an object, without a line end.
func indented(v any, prefix string) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent(prefix, " ")
	err := enc.Encode(v)
	return bytes.TrimRight(b.Bytes(), "\n"), err
}

// printPlans writes one planJSON, pet by pet: a thousand plans at once would take
// hundreds of megabytes.
func printPlans(p *program, made planned, today household.Date) error {
	h, plans := made.with, made.plans
	base := h.Base.Snapshot()
	head, err := indented(planJSON{Format: "bowlwright/plan/1", Household: h.Name, Date: today, Jars: planJars(made), Pets: []household.PetPlan{},
		Base: planBaseJSON{Name: base.Name, Identity: base.Identity, EnergyKcalPerG: base.EnergyKcalPerG, EnergyKcalPerGCat: base.EnergyKcalPerGCat}}, "")
	if err != nil {
		return err
	}
	const closing = "]\n}"
	if _, err := p.verbatim.Write(bytes.TrimSuffix(head, []byte(closing))); err != nil {
		return err
	}
	for i, plan := range plans {
		text, err := indented(withJarApart(plan.Pet), "  ")
		if err != nil {
			return err
		}
		before := "\n  "
		if i > 0 {
			before = ",\n  "
		}
		if _, err := p.verbatim.Write(append([]byte(before), text...)); err != nil {
			return err
		}
	}
	_, err = p.verbatim.Write([]byte("\n " + closing + "\n"))
	return err
}
