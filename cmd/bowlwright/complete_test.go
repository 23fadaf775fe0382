package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"bowlwright/household/diag"
)

// TestComplete: what may follow a command line, by what was typed so far.
func TestComplete(t *testing.T) {
	dir := demoFolder(t)
	for _, c := range []struct{ typed, want, not string }{
		{"|", "plan check card cook weigh help", "complete"},
		{"pl|", "plan", "check"},
		{"plan |", "Marlow Tansy Pip Juno", "carrot-raw"},
		{"plan Pip |", "Marlow Juno", "Pip"},
		{"plan --dry-run p|", "Pip", "Marlow"},
		{"plan --|", "--dry-run --compare --json --today", "--paper"},
		{"card --format |", "pdf html text", "Pip"},
		{"card --format=|", "", "nothing"},
		{"card --paper l|", "letter", "a4"},
		{"--color |", "auto always never", ""},
		{"foods |", "find show import", "Pip"},
		{"foods show turkey-thigh-s|", "turkey-thigh-skinless-raw", "carrot-raw"},
		{"explain |", "Pip", "calcium"},
		{"explain Pip calc|", "calcium", "iron"},
		{"targets Pip |", "", "Marlow"},
		{"check-code |", "M2P-N20-5", ""},
		{"restore |", "0003-pip M2P-N20-5", ""},
		{"diff |", "Pip turkey-heart-oats 0001-marlow", ""},
		{"help |", "files units exit-codes plan", ""},
		{"completion |", "bash zsh fish", ""},
		{"--household nowhere plan |", "", "Marlow"},
		{"nothing |", "", "plan"},
	} {
		before, _, _ := strings.Cut(c.typed, "|")
		words := strings.Split(before, " ")
		code, stdout, stderr := inProcess(dir, append([]string{"complete", "--"}, words...)...)
		got := map[string]bool{}
		for _, line := range strings.Split(stdout, "\n") {
			word, _, _ := strings.Cut(line, "\t")
			got[word] = true
		}
		if code != diag.ExitDone || stderr != "" {
			t.Errorf("%q: exit %d, %s", c.typed, code, stderr)
		}
		for _, w := range strings.Fields(c.want) {
			if !got[w] {
				t.Errorf("%q does not offer %q but %q", c.typed, w, stdout)
			}
		}
		if c.not != "" && got[c.not] {
			t.Errorf("%q offers %q", c.typed, c.not)
		}
	}
}

// TestCompletionInShells loads each script into its shell and asks it, as a key
// press would.
func TestCompletionInShells(t *testing.T) {
	bin, err := exec.LookPath("bowlwright")
	if err != nil {
		t.Fatal(err)
	}
	dir := demoFolder(t)
	text, err := os.ReadFile(filepath.Join(dir, "household.toml"))
	if err != nil {
		t.Fatal(err)
	}
	text = []byte(strings.NewReplacer(`name      = "Tansy"`, `name      = "Old Tansy"`).Replace(string(text)))
	if err := os.WriteFile(filepath.Join(dir, "household.toml"), text, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(dir, "weights.csv")); err != nil {
		t.Fatal(err)
	}
	bash := func(words string) string {
		return `source <(bowlwright completion bash); COMP_WORDS=(` + words + `); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _bowlwright; printf '%s\n' "${COMPREPLY[@]}"`
	}
	for _, c := range []struct {
		shell  string
		script string
		want   []string
	}{
		{"bash", bash(`bowlwright pla`), []string{"plan"}},
		{"bash", bash(`bowlwright plan ''`), []string{"Marlow", `Old\ Tansy`, "Pip", "Juno"}},
		{"bash", bash(`bowlwright plan '"Old'`), []string{"Old Tansy"}},
		{"bash", bash(`bowlwright plan 'Old\ T'`), []string{`Old\ Tansy`}},
		{"bash", bash(`bowlwright card --format = ht`), []string{"html"}},
		{"bash", bash(`bowlwright foods show carrot-r`), []string{"carrot-raw"}},
		{"fish", `bowlwright completion fish | source; complete -C "bowlwright plan "`, []string{"Pip\tcat, 4.3 kg"}},
		{"fish", `bowlwright completion fish | source; complete -C "bowlwright foods show carrot-r"`, []string{"carrot-raw\t"}},
		{"zsh", `autoload -U compinit; compinit -u -D; source <(bowlwright completion zsh); _describe() { print -l "${(@P)@[-1]}" }; words=(bowlwright plan ''); CURRENT=3; _bowlwright`, []string{"Pip:cat, 4.3 kg", "Old Tansy:dog, 8.4 kg"}},
	} {
		t.Run(c.shell+" "+c.want[0], func(t *testing.T) {
			if _, err := exec.LookPath(c.shell); err != nil {
				if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
					t.Fatalf("%s is not installed", c.shell)
				}
				t.Skipf("%s is not installed: its completion is not tried", c.shell)
			}
			cmd := exec.Command(c.shell, "-c", c.script)
			cmd.Dir = dir
			cmd.Env = append(os.Environ(), "PATH="+filepath.Dir(bin)+string(filepath.ListSeparator)+os.Getenv("PATH"), "LC_ALL=C.UTF-8", "HOME="+t.TempDir())
			out, err := cmd.CombinedOutput()
			if err != nil {
				t.Errorf("%v\n%s", err, out)
			}
			for _, w := range c.want {
				if !strings.Contains("\n"+string(out), "\n"+w) {
					t.Errorf("%s\ndoes not offer %q but\n%s", c.script, w, out)
				}
			}
		})
	}
}
