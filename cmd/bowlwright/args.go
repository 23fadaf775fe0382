package main

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/household/diag"
)

// reorder puts a command's options before its arguments, wherever they stood: the
// flag parser stops at the first argument and would silently ignore the rest. What
// follows "--" stays an argument.
func reorder(app *cli.App, args []string) ([]string, error) {
	global := flagTable(app.Flags)
	if len(args) == 0 {
		return args, nil
	}
	var path, options, rest []string
	commands, flags := app.Commands, global
	inCommand := false
	for i := 1; i < len(args); i++ {
		a := args[i]
		switch {
		case a == "--":
			rest = append(rest, args[i+1:]...)
			i = len(args)
		case len(a) > 1 && a[0] == '-' && !isNumber(a):
			options = append(options, a)
			name, _, inline := strings.Cut(strings.TrimLeft(a, "-"), "=")
			takesValue := flags[name] || (!inCommand && anyFlagTakesValue(app.Commands, name))
			if takesValue && !inline {
				if i+1 >= len(args) {
					return nil, badInput(fmt.Sprintf("the option %s needs a value", a), fmt.Sprintf("type %s VALUE", a))
				}
				i++
				options = append(options, args[i])
			}
		default:
			if command := findCommand(commands, a); command != nil && len(rest) == 0 {
				path = append(path, command.Name)
				flags = flagTable(append(append([]cli.Flag(nil), app.Flags...), command.Flags...))
				commands = command.Subcommands
				inCommand = true
				continue
			}
			rest = append(rest, a)
		}
	}
	ordered := append([]string{args[0]}, path...)
	if len(path) == 1 && path[0] == "help" {
		return helpWords(app, options, rest)
	}
	if len(path) == 0 && len(rest) > 0 {
		return nil, unknownCommand(nil, app.Commands, rest[0])
	}
	ordered = append(ordered, options...)
	// Whoever asks for help gets it, whatever else was typed.
	if slices.Contains(options, "--help") || slices.Contains(options, "-h") {
		return append(ordered[:1+len(path)], "--help"), nil
	}
	if len(rest) > 0 {
		ordered = append(append(ordered, "--"), rest...)
	}
	return ordered, nil
}

// isNumber lets "-3" be an argument.
func isNumber(a string) bool { return len(a) > 1 && a[1] >= '0' && a[1] <= '9' }

func findCommand(commands []*cli.Command, name string) *cli.Command {
	for _, c := range commands {
		if c.HasName(name) {
			return c
		}
	}
	return nil
}

// flagTable says for each name of each flag whether it takes a value.
func flagTable(flags []cli.Flag) map[string]bool {
	table := map[string]bool{}
	for _, f := range flags {
		_, isSwitch := f.(*cli.BoolFlag)
		for _, name := range f.Names() {
			table[name] = !isSwitch
		}
	}
	return table
}

func anyFlagTakesValue(commands []*cli.Command, name string) bool {
	for _, c := range commands {
		if flagTable(c.Flags)[name] || anyFlagTakesValue(c.Subcommands, name) {
			return true
		}
	}
	return false
}

// unknownCommand names the command that was probably meant. The parent is nil for
// the program itself.
func unknownCommand(parent *cli.Command, commands []*cli.Command, name string) error {
	var path []string
	if parent != nil {
		path = []string{parent.Name}
	}
	var known []string
	for _, c := range commands {
		known = append(known, c.Names()...)
	}
	problem := fmt.Sprintf("there is no command %q", strings.Join(append(slices.Clone(path), name), " "))
	if name == "version" {
		return badInput(problem, "type", "--version")
	}
	if near, ok := diag.Nearest(name, known); ok {
		return badInput(problem, "did you mean", append(path, near)...)
	}
	return badInput(problem, "list the commands with", append(path, "--help")...)
}

// usageError turns what the flag parser says into a short error with a hint.
func usageError(c *cli.Context, err error) error {
	text := err.Error()
	if name, ok := strings.CutPrefix(text, "flag provided but not defined: -"); ok {
		var known []string
		for _, f := range c.Command.Flags {
			known = append(known, f.Names()...)
		}
		typed := strings.TrimLeft(name, "-")
		problem := "there is no option --" + typed
		if near, ok := diag.Nearest(typed, known); ok {
			return badInput(problem, "did you mean --"+near+"?")
		}
		if i := slices.IndexFunc(known, func(k string) bool { return strings.HasPrefix(k, typed) }); i >= 0 {
			return badInput(problem, "did you mean --"+known[i]+"?")
		}
		return badInput(problem, listOptions, optionsOf(c)...)
	}
	if m := badValue.FindStringSubmatch(text); m != nil {
		return badInput(fmt.Sprintf("--%s takes a whole number, not %q", m[2], m[1]), fmt.Sprintf("type for example --%s 3", m[2]))
	}
	return badInput(text, listOptions, optionsOf(c)...)
}

// badValue is how the flag parser says that a number is none. Every option with a
// type of its own takes a whole number.
var badValue = regexp.MustCompile(`^invalid value "(.*)" for flag -+([a-z-]+): `)

const listOptions = "list the options with"

// optionsOf is the command that lists the options of a command.
func optionsOf(c *cli.Context) []string {
	name := c.Command.FullName()
	if name == c.App.Name {
		name = ""
	}
	return append(strings.Fields(name), "--help")
}

// noMore refuses arguments that a command does not take.
func (p *program) noMore(most int) error {
	if len(p.args) > most {
		return badInput(fmt.Sprintf("%q is one argument too many", p.args[most]), "see what it takes with", append(strings.Fields(p.commandName), "--help")...)
	}
	return nil
}
