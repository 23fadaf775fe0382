package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// TestReadmeCommands runs every command line of the README's console blocks, in
// order, in one empty folder, and compares what it prints with what the README
// shows. A line "…" in the README stands for any lines left out. A command of the
// newcomer's two (go run, go test) is the gate's to run.
func TestReadmeCommands(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	ran := 0
	for _, block := range regexp.MustCompile("(?s)```console\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		for _, part := range strings.Split("\n"+block[1], "\n$ ")[1:] {
			command, want, _ := strings.Cut(part, "\n")
			if !strings.HasPrefix(command, "bowlwright ") {
				continue
			}
			ran++
			got := runLine(t, dir, command)
			if !matches(got, want) {
				t.Errorf("$ %s\nprinted:\n%s\nthe README shows:\n%s", command, got, want)
			}
		}
	}
	if ran < 4 {
		t.Errorf("only %d commands of the README were run", ran)
	}
}

// runLine runs one command line; `cd` is spelled --household in the README.
func runLine(t *testing.T, dir, line string) string {
	t.Helper()
	var out bytes.Buffer
	args := splitLine(line)
	code := run(environment{args: args, stdin: strings.NewReader(""), stdout: &out, stderr: &out, workDir: dir,
		now: func() time.Time { return time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC) }, getenv: func(string) string { return "" }})
	if code != exitDone && code != exitNotMet && code != exitRefused && code != exitInput {
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
