package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"bowlwright/household/diag"
)

var update = flag.Bool("update", false, "rewrite what the README shows")

// consoleBlock is a block of commands and what they print.
var consoleBlock = regexp.MustCompile("(?s)```console\n(.*?)```")

// TestReadmeCommands runs every command line of the README's console blocks, in
// order, beginning in one empty folder, and compares what it prints with what the
// README shows. A line "…" in the README stands for any lines left out. A command of
// the newcomer's two (go run, go test) is the gate's to run.
func TestReadmeCommands(t *testing.T) {
	path := filepath.Join("..", "..", "README.md")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	ran := 0
	renewed := consoleBlock.ReplaceAllStringFunc(string(text), func(block string) string {
		inner := consoleBlock.FindStringSubmatch(block)[1]
		out := "```console"
		for _, part := range strings.Split("\n"+inner, "\n$ ")[1:] {
			command, want, _ := strings.Cut(part, "\n")
			want = strings.TrimSuffix(want, "\n")
			switch {
			case strings.HasPrefix(command, "cd "):
				dir = filepath.Join(dir, strings.TrimPrefix(command, "cd "))
				if info, err := os.Stat(dir); err != nil || !info.IsDir() {
					t.Errorf("$ %s: there is no such folder", command)
				}
			case strings.HasPrefix(command, "bowlwright "):
				ran++
				got := strings.TrimRight(runLine(t, dir, command), "\n ")
				if !matches(got, want) && *update {
					want = renewedText(t, got, want)
				} else if !matches(got, want) {
					t.Errorf("$ %s\nprinted:\n%s\nthe README shows:\n%s", command, got, want)
				}
			}
			out += "\n$ " + command
			if want != "" {
				out += "\n" + want
			}
		}
		return out + "\n```"
	})
	if ran < 10 {
		t.Errorf("only %d commands of the README were run", ran)
	}
	if *update {
		if err := os.WriteFile(path, []byte(renewed), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if renewed != string(text) {
		t.Error("the README's blocks have blank lines at their ends, or text before the first command")
	}
}

// renewedText puts what was printed in the place of what the README shows, with the
// same lines left out: each line shown is found again by how it begins.
func renewedText(t *testing.T, got, want string) string {
	t.Helper()
	if !strings.Contains("\n"+want+"\n", "\n…\n") {
		return got
	}
	printed := strings.Split(got, "\n")
	var lines []string
	for _, w := range strings.Split(want, "\n") {
		if w == "…" {
			lines = append(lines, w)
			continue
		}
		best, most := -1, 0
		for i, g := range printed {
			same := 0
			for same < min(len(g), len(w)) && g[same] == w[same] {
				same++
			}
			if same > most || g == w {
				best, most = i, same
			}
			if g == w {
				break
			}
		}
		if best < 0 && w != "" {
			t.Fatalf("no line is printed that begins like %q", w)
		}
		if best >= 0 {
			w, printed = printed[best], printed[best+1:]
		}
		lines = append(lines, w)
	}
	return strings.Join(lines, "\n")
}

// runLine runs one command line.
func runLine(t *testing.T, dir, line string) string {
	t.Helper()
	var out bytes.Buffer
	args := splitLine(line)
	code := run(environment{args: args, stdin: strings.NewReader(""), stdout: &out, stderr: &out, workDir: dir,
		now: func() time.Time { return testDay }, getenv: func(string) string { return "" }})
	if code != diag.ExitDone && code != diag.ExitNotMet && code != diag.ExitRefused && code != diag.ExitInput && code != diag.ExitOutOfDate {
		t.Errorf("$ %s: exit %d", line, code)
	}
	return out.String()
}

// splitLine splits a command line at spaces outside double quotes.
func splitLine(line string) []string {
	var args []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			args = append(args, part)
			continue
		}
		args = append(args, strings.Fields(part)...)
	}
	return args
}

// matches compares line by line; "…" skips any number of lines.
func matches(got, want string) bool {
	g := strings.Split(strings.TrimRight(got, "\n "), "\n")
	w := strings.Split(strings.TrimRight(want, "\n "), "\n")
	i := 0
	for k := 0; k < len(w); k++ {
		if strings.TrimSpace(w[k]) == "…" {
			if k == len(w)-1 {
				return true
			}
			for i < len(g) && strings.TrimRight(g[i], " ") != strings.TrimRight(w[k+1], " ") {
				i++
			}
			continue
		}
		if i >= len(g) || strings.TrimRight(g[i], " ") != strings.TrimRight(w[k], " ") {
			return false
		}
		i++
	}
	return i == len(g)
}

func TestMatches(t *testing.T) {
	for _, c := range []struct {
		got, want string
		ok        bool
	}{
		{"a\nb\nc\n", "a\nb\nc\n", true}, {"a\nb\nc\n", "a\n…\nc\n", true}, {"a\nb\n", "a\n…\n", true},
		{"a\nb\n", "a\n", false}, {"a\n", "a\nb\n", false}, {"a\nx\n", "a\n…\nc\n", false},
	} {
		if matches(c.got, c.want) != c.ok {
			t.Errorf("%q against %q: want %v", c.got, c.want, c.ok)
		}
	}
}
