package main

import (
	"strings"
	"testing"

	"github.com/urfave/cli/v2"

	"bowlwright/cmd/bowlwright/internal/manual"
)

// TestManPage: every command, every option and every topic stands in the manual.
func TestManPage(t *testing.T) {
	app := (&program{}).app()
	page := manual.Page(app, globalFlags())
	want := []string{}
	forEachCommand(app.Commands, "", func(name string, c *cli.Command) {
		want = append(want, ".SS "+roff(name))
		for _, f := range c.Flags {
			want = append(want, `.B \-\-`+roff(f.Names()[0]))
		}
	})
	for _, topic := range manual.Topics() {
		want = append(want, ".SH "+strings.ToUpper(strings.ReplaceAll(topic.Name, "-", " ")))
	}
	for _, w := range want {
		if !strings.Contains(page, w) {
			t.Errorf("the manual has no %q", w)
		}
	}
	if strings.Contains(page, "complete \\-\\- WORDS") {
		t.Error("the manual tells of a command that is not for people")
	}
}

// roff escapes the hyphen that is to be typed.
func roff(s string) string { return strings.ReplaceAll(s, "-", `\-`) }
