package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"bowlwright/cmd/bowlwright/internal/manual"
)

// TestHelpNamesEveryWord: what the reader of the files accepts is what `help files`
// tells of.
func TestHelpNamesEveryWord(t *testing.T) {
	var sources []string
	for _, pattern := range []string{"*.go", "*/*.go"} {
		found, err := filepath.Glob(filepath.Join("..", "..", "household", pattern))
		if err != nil || len(found) == 0 {
			t.Fatal("no sources", err)
		}
		sources = append(sources, found...)
	}
	call := regexp.MustCompile(`(?s)\.[oO]nly\(("[^)]*)\)`)
	quoted := regexp.MustCompile(`"([a-z_]+)"`)
	files, _ := manual.Find("files")
	told := map[string]bool{}
	for _, w := range regexp.MustCompile(`[a-z_]+`).FindAllString(files.Text, -1) {
		told[w] = true
	}
	found := 0
	for _, path := range sources {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		for _, m := range call.FindAllStringSubmatch(string(text), -1) {
			for _, w := range quoted.FindAllStringSubmatch(m[1], -1) {
				found++
				if !told[w[1]] {
					t.Errorf("%s accepts %q, of which help files does not tell", filepath.Base(path), w[1])
				}
			}
		}
	}
	if found < 40 {
		t.Errorf("only %d words were found in the reader", found)
	}
}

// TestTopicsFitATerminal: text that was set by hand is not broken a second time.
func TestTopicsFitATerminal(t *testing.T) {
	for _, topic := range manual.Topics() {
		for _, line := range strings.Split(topic.Text, "\n") {
			if n := utf8.RuneCountInString(line); n > defaultColumns {
				t.Errorf("%s: %d columns: %s", topic.Name, n, line)
			}
		}
	}
}
