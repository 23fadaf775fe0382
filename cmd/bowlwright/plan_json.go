package main

import (
	"bytes"
	"encoding/json"

	"bowlwright/household"
)

// planJSON is the contract of `plan --json`.
type planJSON struct {
	Format    string              `json:"format"`
	Household string              `json:"household"`
	Date      household.Date      `json:"date"`
	Base      planBaseJSON        `json:"base"`
	Pets      []household.PetPlan `json:"pets"`
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
func printPlans(p *program, h *household.Household, today household.Date, plans []*household.Plan) error {
	base := h.Base.Snapshot()
	head, err := indented(planJSON{Format: "bowlwright/plan/1", Household: h.Name, Date: today, Pets: []household.PetPlan{},
		Base: planBaseJSON{Name: base.Name, Identity: base.Identity, EnergyKcalPerG: base.EnergyKcalPerG, EnergyKcalPerGCat: base.EnergyKcalPerGCat}}, "")
	if err != nil {
		return err
	}
	const closing = "]\n}"
	if _, err := p.verbatim.Write(bytes.TrimSuffix(head, []byte(closing))); err != nil {
		return err
	}
	for i, plan := range plans {
		text, err := indented(&plan.Pet, "  ")
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
