package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"
	"time"

	"bowlwright/cmd/bowlwright/internal/terminal"
	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/safefile"
	"bowlwright/report/text"
)

// output is the standard output; it remembers the first error, and writes nothing
// after it, so that what was read is a beginning without gaps.
type output struct {
	to  io.Writer
	err error
}

func (o *output) Write(b []byte) (int, error) {
	if o.err != nil {
		return 0, o.err
	}
	n, err := o.to.Write(b)
	o.err = err
	return n, err
}

// outputError says that what the command printed did not get through.
type outputError struct{ err error }

func (e *outputError) Error() string {
	return fmt.Sprintf("the output could not be written: %v", withoutOp(e.err))
}

// ExitCode is that of a failure.
func (e *outputError) ExitCode() int { return diag.ExitFailed }

// Hint says what to do.
func (e *outputError) Hint() diag.Hint {
	return diag.Hint{Text: "make room where the output goes; what the command recorded stands, so look with bowlwright history before you run it again"}
}

// printJSON writes one indented object.
func (p *program) printJSON(v any) error {
	enc := json.NewEncoder(p.verbatim)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(v)
}

// say writes what is left out with --quiet and --json.
func (p *program) say(format string, args ...any) {
	if !p.quiet && !p.json {
		io.WriteString(p.env.stdout, fmt.Sprintf(format, args...))
	}
}

func (p *program) textOptions() text.Options {
	return text.Options{Width: min(p.columns(), 100), Color: p.color(p.colorChoice)}
}

// petNamed finds a pet or names the nearest.
func petNamed(h *household.Household, name string) (*household.Pet, error) {
	if pet, ok := h.Pet(name); ok {
		return pet, nil
	}
	if pet, away := h.AwayPet(name); away {
		d := pet.Dates
		if !d.Left.IsZero() {
			return nil, badInput(fmt.Sprintf("%s left on %s and is no longer planned for", pet.Name, d.Left), "its plans are kept", "history", pet.Name)
		}
		return nil, badInput(fmt.Sprintf("%s arrives on %s", pet.Name, d.Arrived), "correct arrived in household.toml when it is here")
	}
	var known []string
	for _, pet := range h.Pets {
		known = append(known, pet.Name)
	}
	hint := "the pets are: " + strings.Join(known, ", ")
	if near, ok := diag.Nearest(name, known); ok {
		hint = "did you mean " + near + "?"
	}
	return nil, badInput(fmt.Sprintf("no pet is named %q", name), hint)
}

// showFindings writes what the records have to say about themselves.
func (p *program) showFindings(findings []household.Finding) {
	for _, f := range findings {
		fmt.Fprintf(p.env.stderr, "%s: %s\n", shownSeverity(f.Severity), f.Message)
		if hint := p.advice(f); hint != "" {
			fmt.Fprintf(p.env.stderr, "hint: %s\n", hint)
		}
	}
}

// file is something to write.
type file struct {
	name string
	data []byte
}

// writeFiles writes files into a folder as one set, all or none, and makes the folder
// with those within that the names ask for. A failed command leaves the folder as it
// was.
func writeFiles(dir string, files []file) error {
	set := make([]safefile.File, len(files))
	for i, f := range files {
		set[i] = safefile.File{Name: filepath.ToSlash(f.name), Data: f.data}
	}
	return safefile.Replace(dir, set)
}

// withoutOp takes the path off an error of the file system, which the message names
// already.
func withoutOp(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

// progress says on a terminal what is being done when it takes longer than the delay.
// Without a terminal nothing is ever written.
func (p *program) progress(what string, delay time.Duration) (done func()) {
	if !p.env.progress {
		return func() {}
	}
	return terminal.Progress(p.env.stderr, what, delay)
}
