package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/household"
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
