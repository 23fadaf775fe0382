package main

import (
	"io"
	"strings"

	"bowlwright/report/text"
)

// folder breaks the lines written to a terminal at words instead of leaving that to
// the terminal, which breaks numbers. A line is held back until it is whole.
type folder struct {
	to    io.Writer
	width int
	piece string
}

func (f *folder) Write(b []byte) (int, error) {
	lines := strings.Split(f.piece+string(b), "\n")
	f.piece = lines[len(lines)-1]
	var out strings.Builder
	for _, line := range lines[:len(lines)-1] {
		out.WriteString(strings.Join(text.Fold(line, f.width), "\n") + "\n")
	}
	if _, err := io.WriteString(f.to, out.String()); err != nil {
		return 0, err
	}
	return len(b), nil
}

// rest writes what was held back and did not end in a line's end.
func (f *folder) rest() {
	io.WriteString(f.to, f.piece)
	f.piece = ""
}
