package manual

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/nutrients"
)

// Page writes the manual page from what --help and the topics are made of; global are
// the options that every command takes.
func Page(app *cli.App, global []cli.Flag) string {
	var b strings.Builder
	fmt.Fprintf(&b, ".TH BOWLWRIGHT 1 \"\" \"bowlwright %s\"\n.SH NAME\nbowlwright \\- %s\n", roff(app.Version), roff(app.Usage))
	b.WriteString(".SH SYNOPSIS\n.B bowlwright\n[\\fIoptions\\fR] \\fIcommand\\fR [\\fIoptions\\fR] [\\fIarguments\\fR]\n")
	b.WriteString(".PP\nOptions may stand before or after arguments.\n.SH COMMANDS\n")
	writeCommands(&b, app.Commands, "", global)
	b.WriteString(".SH OPTIONS OF EVERY COMMAND\n")
	writeFlags(&b, global)
	for _, t := range Topics() {
		fmt.Fprintf(&b, ".SH %s\n%s.\n.PP\n.nf\n%s.fi\n", roff(strings.ToUpper(strings.ReplaceAll(t.Name, "-", " "))), roff(nutrients.Capital(t.About)), roffLines(t.Text))
	}
	return b.String()
}

func writeCommands(b *strings.Builder, commands []*cli.Command, prefix string, global []cli.Flag) {
	for _, c := range commands {
		name := strings.TrimSpace(prefix + " " + c.Name)
		switch {
		case c.Hidden:
			continue
		case len(c.Subcommands) > 0:
			writeCommands(b, c.Subcommands, name, global)
			continue
		}
		fmt.Fprintf(b, ".SS %s\n%s.\n", roff(strings.TrimSpace(name+" "+c.ArgsUsage)), roff(nutrients.Capital(c.Usage)))
		if c.Description != "" {
			fmt.Fprintf(b, ".PP\n.nf\n%s.fi\n", roffLines(c.Description))
		}
		writeFlags(b, own(c, global))
	}
}

// own leaves out what every command takes.
func own(c *cli.Command, global []cli.Flag) []cli.Flag {
	everywhere := append([]cli.Flag{cli.HelpFlag}, global...)
	return slices.DeleteFunc(slices.Clone(c.Flags), func(f cli.Flag) bool {
		return slices.ContainsFunc(everywhere, func(g cli.Flag) bool { return g.Names()[0] == f.Names()[0] })
	})
}

func writeFlags(b *strings.Builder, flags []cli.Flag) {
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
