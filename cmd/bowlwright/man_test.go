package main

import (
	"strings"
	"testing"

	"github.com/urfave/cli/v2"
)

// TestManPage: every command, every option and every topic stands in the manual.
func TestManPage(t *testing.T) {
	app := (&program{}).app()
	page := manPage(app)
	want := []string{}
	forEachCommand(app.Commands, "", func(name string, c *cli.Command) {
		want = append(want, ".SS "+roff(name))
		for _, f := range ownFlags(c) {
			want = append(want, `.B \-\-`+roff(f.Names()[0]))
		}
	})
	for _, f := range globalFlags() {
		want = append(want, `.B \-\-`+roff(f.Names()[0]))
	}
	for _, topic := range topics() {
		want = append(want, ".SH "+strings.ToUpper(strings.ReplaceAll(topic.name, "-", " ")))
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
