package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/household"
	"bowlwright/household/records"
)

func checkCodeCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "check-code", Usage: "the code on a container or jar against the base, the jars and the plans in use", ArgsUsage: "CODE",
		Action: func(c *cli.Context) error {
			return checkCodeOptions{groups: c.Args().Slice()}.run(p)
		},
	}
}

// checkCodeOptions are the groups of a code as they were typed.
type checkCodeOptions struct {
	groups []string
}

func (o checkCodeOptions) run(p *program) error {
	if len(o.groups) == 0 {
		return badInput("check-code takes the code on a container", "for example", "check-code", "K7Q-2MX-K")
	}
	// A person reads the groups of a label with pauses between them.
	if typed := strings.Join(o.groups, "-"); looksLikeJar(typed) {
		return checkJarCode(p, typed)
	}
	code, err := household.ParseCode(strings.Join(o.groups, "-"))
	if err != nil {
		return badInput(err.Error(), "type the seven symbols as they stand on the container, for example", "check-code", "K7Q-2MX-K")
	}
	h, _, err := p.load()
	if err != nil {
		return err
	}
	check, err := h.CheckCode(code)
	if err != nil {
		return err
	}
	if p.json {
		if err := p.printJSON(map[string]any{"format": "bowlwright/check-code/1", "code": check.Code, "base_in_use": check.InUse, "same": check.Match}); err != nil {
			return err
		}
	}
	if check.Match {
		p.say("%s is the base in use: %s.\n", check.Code, h.Base.Name)
		return nil
	}
	refused := badInput(fmt.Sprintf("refused: the container holds base %s, the base in use is %s (%s)", check.Code, check.InUse, h.Base.Name),
		"do not use this container with the cards in use; look it up with", "history")
	if check.File != "" {
		refused = badInput(refused.message, fmt.Sprintf("it is bases/%s.toml: put base = %q into household.toml, then make a new plan", check.File, check.File), "plan")
	}
	if check.Earlier != "" {
		refused = badInput(fmt.Sprintf("refused: the label %s is of an earlier version, which knew the foods of your own in bases/%s.toml by name only", check.Code, check.Earlier),
			"if no file in foods/ was changed since it was cooked, write a new label with the code "+check.InUse+"; otherwise do not use this container with the cards in use")
	}
	return &refusedError{[]error{refused}}
}

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
