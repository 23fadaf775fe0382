package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/cmd/bowlwright/internal/manual"
	"bowlwright/household/diag"
)

// helpCommand shows a topic. Help on a command goes through the command itself, see
// reorder.
func helpCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "help", Usage: "help on a command or a topic: " + strings.Join(manual.Names(), ", ") + "; man for the manual page", ArgsUsage: "[COMMAND|TOPIC]",
		Action: func(c *cli.Context) error {
			name := c.Args().First()
			if t, ok := manual.Find(name); ok {
				return showHelp(p, t.Name, fmt.Sprintf("%s: %s\n\n%s", t.Name, t.About, t.Text))
			}
			if name == manual.Man {
				return showHelp(p, name, manual.Page(c.App, globalFlags()))
			}
			return cli.ShowAppHelp(c)
		},
	}
}

// showHelp prints a topic, as one object when that is asked for.
func showHelp(p *program, topic, text string) error {
	if p.json {
		return p.printJSON(map[string]string{"format": "bowlwright/help/1", "topic": topic, "text": text})
	}
	_, err := io.WriteString(p.env.stdout, text)
	return err
}

// helpWords turns the words after `help` into the arguments that show it. A topic can
// be had as an object, too; the page of a command is for people.
func helpWords(app *cli.App, options, words []string) ([]string, error) {
	if len(words) == 0 {
		return []string{app.Name, "--help"}, nil
	}
	if _, ok := manual.Find(words[0]); len(words) == 1 && (ok || words[0] == manual.Man) {
		args := []string{app.Name, "help"}
		if slices.Contains(options, "--json") {
			args = append(args, "--json")
		}
		return append(args, words[0]), nil
	}
	commands, path := app.Commands, []string{app.Name}
	for _, w := range words {
		c := findCommand(commands, w)
		if c == nil {
			known := manual.Names()
			for _, c := range commands {
				known = append(known, c.Name)
			}
			unknown := badInput(fmt.Sprintf("there is no help on %q", w), "the topics are: "+strings.Join(manual.Names(), ", "))
			if near, ok := diag.Nearest(w, known); ok {
				unknown = badInput(unknown.message, "did you mean", append(append([]string{"help"}, path[1:]...), near)...)
			}
			return nil, unknown
		}
		path, commands = append(path, c.Name), c.Subcommands
	}
	return append(path, "--help"), nil
}
