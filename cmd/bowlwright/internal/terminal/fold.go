// Package terminal is what a person at a terminal sees: whole lines, and what goes on.
package terminal

import (
	"io"
	"strings"

	"bowlwright/report/text"
)

// Folder breaks the lines written to a terminal at words instead of leaving that to
// the terminal, which breaks numbers. A line is held back until it is whole.
type Folder struct {
	To    io.Writer
	Width int
	piece string
}

func (f *Folder) Write(b []byte) (int, error) {
	lines := strings.Split(f.piece+string(b), "\n")
	f.piece = lines[len(lines)-1]
	var out strings.Builder
	for _, line := range lines[:len(lines)-1] {
		out.WriteString(strings.Join(text.Fold(line, f.Width), "\n") + "\n")
	}
	if _, err := io.WriteString(f.To, out.String()); err != nil {
		return 0, err
	}
	return len(b), nil
}

// Rest writes what was held back and did not end in a line's end.
func (f *Folder) Rest() {
	io.WriteString(f.To, f.piece)
	f.piece = ""
}
