package main

import (
	"fmt"
	"strings"

	"bowlwright/household"
	"bowlwright/household/records"
)

// jarSymbols is how many symbols the code of a jar has, J included.
const jarSymbols = 8

// looksLikeJar says whether a text is meant as the code of a jar: it begins with J and has
// a symbol more than the code of a base.
func looksLikeJar(typed string) bool {
	symbols := strings.NewReplacer("-", "", "–", "", " ", "", "\t", "").Replace(typed)
	return len(symbols) >= jarSymbols && (symbols[0] == 'J' || symbols[0] == 'j')
}

// jarCheckJSON is the contract of `check-code --json` for a jar.
type jarCheckJSON struct {
	Format string   `json:"format"`
	Code   string   `json:"code"`
	Jar    string   `json:"jar"`
	InHand bool     `json:"in_hand"`
	Pets   []string `json:"pets"`
	Base   string   `json:"base"`
	Same   bool     `json:"same"`
}

// checkJarCode says what a jar is, whose plans take from it, and with which base; a jar of
// which no plan in use takes is refused.
func checkJarCode(p *program, typed string) error {
	code, err := household.ParseJarCode(typed)
	if err != nil {
		return badInput(err.Error(), "type the eight symbols as they stand on the jar, for example", "check-code", "J-4TQ-8WX-8")
	}
	h, _, err := p.load()
	if err != nil {
		return err
	}
	inUse, findings, err := records.Open(h.Dir).InUse()
	if err != nil {
		return err
	}
	p.showFindings(findings)
	out := jarCheckJSON{Format: "bowlwright/check-code/1", Code: code, Pets: []string{}}
	wrongBase := ""
	for _, pet := range h.Pets {
		record, ok := inUse[pet.Name]
		if !ok || !record.Plan.Pet.Status.Printable() {
			continue
		}
		plan := &record.Plan.Pet
		name := ""
		switch {
		case plan.Jar != nil && plan.Jar.Code == code:
			name = plan.Jar.Mix.Name
		case plan.Premix != nil && plan.Premix.Code == code:
			name = "the premix of " + plan.Pet
		default:
			continue
		}
		out.Jar, out.Base = name, record.Plan.Base.Code
		out.Pets = append(out.Pets, plan.Pet)
		if out.Base != h.Base.Identity().Code {
			wrongBase = out.Base
		}
	}
	for _, m := range h.InHand {
		if m.Jar.Code == code {
			out.InHand = true
			if out.Jar == "" {
				out.Jar = m.Jar.Name
			}
		}
	}
	out.Same = len(out.Pets) > 0 && wrongBase == ""
	if p.json {
		if err := p.printJSON(out); err != nil {
			return err
		}
	}
	switch {
	case wrongBase != "":
		return &refusedError{[]error{badInput(fmt.Sprintf("refused: the jar %s goes with base %s, the base in use is %s (%s)", code, wrongBase, h.Base.Identity().Code, h.Base.Name),
			"make new plans; they say whether the jar suits", "plan")}}
	case len(out.Pets) == 0:
		return &refusedError{[]error{badInput(fmt.Sprintf("refused: no plan in use takes from a jar %s", code),
			"do not use this jar with the cards in use; see what belongs to them with", "mix")}}
	}
	state := "not recorded as mixed yet"
	if out.InHand {
		state = "in hand"
	}
	p.say("%s is %s, %s: for %s, with base %s (%s).\n", code, out.Jar, state, listed(out.Pets), out.Base, h.Base.Name)
	return nil
}
