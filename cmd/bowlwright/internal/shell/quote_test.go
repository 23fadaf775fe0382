package shell

import (
	"os/exec"
	"strings"
	"testing"
)

// The words of a shell's grammar: POSIX.1-2017, Shell Command Language, 2.2 (quoting)
// and 2.10 (reserved words), with = and ! as zsh and bash read them.
var awkward = []string{
	"", "Old Tom", "a'b", "''", `back\slash`, "$HOME", "`id`", "a;b", "a&b", "a|b", "(a)", "<a>", "*", "?", "[ab]", "{a,b}", "a=b", "=ls", "!x", "#x", "~", "~root",
	"two\nlines", "tab\there", `"quoted"`, "^x", "%1",
}

func TestQuoteIsReadBackByAShell(t *testing.T) {
	shells := 0
	for _, name := range []string{"sh", "bash", "zsh"} {
		path, err := exec.LookPath(name)
		if err != nil {
			continue
		}
		shells++
		for _, word := range append(awkward, "plain", "31.5", "a-b_c", "Żółw", "名前") {
			// The x keeps a newline at the end.
			out, err := exec.Command(path, "-c", "printf '%s' "+Quote(word)+"x").Output()
			if got := strings.TrimSuffix(string(out), "x"); err != nil || got != word {
				t.Errorf("%s reads %s as %q (%v)", name, Quote(word), got, err)
			}
		}
	}
	if shells == 0 {
		t.Skip("no shell on this machine: that a shell reads quoted words back is not checked")
	}
}

func TestQuoteLeavesPlainWordsAlone(t *testing.T) {
	for _, word := range []string{"Marlow", "turkey-thigh-raw", "31.5", "--all", "K7Q-2MX-K", "bases/pot.toml", "Żółw", "…"} {
		if got := Quote(word); got != word {
			t.Errorf("%q is written %s", word, got)
		}
	}
	for _, word := range awkward {
		if got := Quote(word); got == word && word != "%1" {
			t.Errorf("%q is not quoted", word)
		}
	}
	if got := Line([]string{"weigh", "Old Tom", "4.5 kg"}); got != "weigh 'Old Tom' '4.5 kg'" {
		t.Errorf("Line writes %s", got)
	}
}
