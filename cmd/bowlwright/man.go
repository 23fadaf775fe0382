package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/nutrients"
)

// manPage writes the manual page from what --help and the topics are made of.
func manPage(app *cli.App) string {
	var b strings.Builder
	fmt.Fprintf(&b, ".TH BOWLWRIGHT 1 \"\" \"bowlwright %s\"\n.SH NAME\nbowlwright \\- %s\n", roff(app.Version), roff(app.Usage))
	b.WriteString(".SH SYNOPSIS\n.B bowlwright\n[\\fIoptions\\fR] \\fIcommand\\fR [\\fIoptions\\fR] [\\fIarguments\\fR]\n")
	b.WriteString(".PP\nOptions may stand before or after arguments.\n.SH COMMANDS\n")
	manCommands(&b, app.Commands, "")
	b.WriteString(".SH OPTIONS OF EVERY COMMAND\n")
	manFlags(&b, globalFlags())
	for _, t := range topics() {
		fmt.Fprintf(&b, ".SH %s\n%s.\n.PP\n.nf\n%s.fi\n", roff(strings.ToUpper(strings.ReplaceAll(t.name, "-", " "))), roff(nutrients.Capital(t.about)), roffLines(t.text))
	}
	return b.String()
}

func manCommands(b *strings.Builder, commands []*cli.Command, prefix string) {
	for _, c := range commands {
		name := strings.TrimSpace(prefix + " " + c.Name)
		switch {
		case c.Hidden:
			continue
		case len(c.Subcommands) > 0:
			manCommands(b, c.Subcommands, name)
			continue
		}
		fmt.Fprintf(b, ".SS %s\n%s.\n", roff(strings.TrimSpace(name+" "+c.ArgsUsage)), roff(nutrients.Capital(c.Usage)))
		if c.Description != "" {
			fmt.Fprintf(b, ".PP\n.nf\n%s.fi\n", roffLines(c.Description))
		}
		manFlags(b, ownFlags(c))
	}
}

// ownFlags leaves out what every command takes.
func ownFlags(c *cli.Command) []cli.Flag {
	var own []cli.Flag
	everywhere := flagTable(append(globalFlags(), cli.HelpFlag))
	for _, f := range c.Flags {
		if _, ok := everywhere[f.Names()[0]]; !ok {
			own = append(own, f)
		}
	}
	return own
}

func manFlags(b *strings.Builder, flags []cli.Flag) {
	for _, f := range flags {
		value, usage := "", ""
		if d, ok := f.(cli.DocGenerationFlag); ok {
			usage = d.GetUsage()
			if d.TakesValue() {
				value = "VALUE"
				if parts := strings.Split(usage, "`"); len(parts) == 3 {
					value = parts[1]
				}
			}
		}
		fmt.Fprintf(b, ".TP\n.B \\-\\-%s", roff(f.Names()[0]))
		if value != "" {
			fmt.Fprintf(b, " \\fI%s\\fR", roff(value))
		}
		fmt.Fprintf(b, "\n%s\n", roff(nutrients.Capital(strings.ReplaceAll(usage, "`", ""))))
	}
}

// roff escapes text of one line: the backslash, the hyphen that is to be typed, and
// what would be a request at the beginning of a line.
func roff(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(s)
	if strings.HasPrefix(s, ".") || strings.HasPrefix(s, "'") {
		s = `\&` + s
	}
	return s
}

func roffLines(text string) string {
	var b strings.Builder
	for _, line := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		b.WriteString(roff(line) + "\n")
	}
	return b.String()
}
