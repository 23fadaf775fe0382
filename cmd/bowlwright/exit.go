package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
	"syscall"

	"bowlwright/household"
	"bowlwright/household/diag"
)

// inputError is bad input, with what to type instead.
type inputError struct {
	message string
	hints   []diag.Hint
}

// badInput returns an *inputError with a hint in words and, where there is one, the
// command that helps.
func badInput(message, hint string, command ...string) *inputError {
	return withHint(message, diag.Command(hint, command...))
}

func withHint(message string, hint diag.Hint) *inputError {
	return &inputError{message, []diag.Hint{hint}}
}

// or adds another way out.
func (e *inputError) or(hint string, command ...string) *inputError {
	e.hints = append(e.hints, diag.Command(hint, command...))
	return e
}

func (e *inputError) Error() string      { return e.message }
func (e *inputError) ExitCode() int      { return diag.ExitInput }
func (e *inputError) Hints() []diag.Hint { return e.hints }

// notMetError says that everything was computed, and that something which is fed
// or was about to be is not right.
type notMetError struct{ inputError }

// unmet returns a *notMetError with what to do about it.
func unmet(message, hint string, command ...string) *notMetError {
	return &notMetError{*badInput(message, hint, command...)}
}

func (e *notMetError) ExitCode() int { return diag.ExitNotMet }

// or adds another way out.
func (e *notMetError) or(hint string, command ...string) *notMetError {
	e.inputError.or(hint, command...)
	return e
}

// outOfDateError says that nothing is wrong but that something has to be renewed.
type outOfDateError struct{ inputError }

func (e *outOfDateError) ExitCode() int { return diag.ExitOutOfDate }

// refusedError wraps what the guard says, for any number of pets.
type refusedError struct{ causes []error }

func (e *refusedError) Error() string {
	parts := make([]string, len(e.causes))
	for i, c := range e.causes {
		parts[i] = c.Error()
	}
	return strings.Join(parts, "\n")
}

func (e *refusedError) Unwrap() []error { return e.causes }
func (e *refusedError) ExitCode() int   { return diag.ExitRefused }

// diagnosticsError carries the faults of the user's files.
type diagnosticsError struct{ list diag.List }

func (e *diagnosticsError) Error() string {
	return fmt.Sprintf("%d faults in the household's files", len(e.list))
}

func (e *diagnosticsError) ExitCode() int { return diag.ExitInput }

// noAmountsError says that a card was asked for where no amounts may be fed.
type noAmountsError struct {
	*household.NotPrintableError
	hints []diag.Hint
}

func (e *noAmountsError) Hints() []diag.Hint { return e.hints }

// byWeight is the order in which exit codes outweigh each other where several apply:
// what must not be fed stands before what is only out of date.
var byWeight = []int{diag.ExitFailed, diag.ExitInput, diag.ExitRefused, diag.ExitLocked, diag.ExitNotMet, diag.ExitOutOfDate}

// heaviest returns the code of those given that outweighs the others.
func heaviest(codes ...int) int {
	for _, code := range byWeight {
		if slices.Contains(codes, code) {
			return code
		}
	}
	return diag.ExitDone
}

// exitCode returns the exit code that an error names; of several joined errors the
// one that outweighs the others.
func exitCode(err error) int {
	switch e := err.(type) {
	case nil:
		return diag.ExitDone
	case interface{ ExitCode() int }:
		return e.ExitCode()
	case interface{ Unwrap() []error }:
		var codes []int
		for _, one := range e.Unwrap() {
			codes = append(codes, exitCode(one))
		}
		return heaviest(codes...)
	case interface{ Unwrap() error }:
		if inner := e.Unwrap(); inner != nil && !folderFault(err) {
			return exitCode(inner)
		}
	}
	if folderFault(err) {
		return diag.ExitInput
	}
	return diag.ExitFailed
}

// folderFault says whether the disk refused for a reason that the user can mend.
func folderFault(err error) bool {
	for _, reason := range []error{fs.ErrPermission, fs.ErrNotExist, fs.ErrExist, syscall.ENOTDIR, syscall.EISDIR, syscall.ENOSPC, syscall.EROFS, syscall.ENAMETOOLONG} {
		if errors.Is(err, reason) {
			return true
		}
	}
	return false
}

// explainError writes the error and its hints, in lower case, for a person.
func (p *program) explainError(w io.Writer, err error, width int, color bool) {
	var (
		faults *diagnosticsError
		mixUp  *household.MixUpError
		many   *refusedError
	)
	if joined, ok := err.(interface{ Unwrap() []error }); ok && !errors.As(err, &many) {
		for _, one := range joined.Unwrap() {
			p.explainError(w, one, width, color)
		}
		return
	}
	switch {
	case errors.As(err, &faults):
		io.WriteString(w, faults.list.Text(width, color, p.commandLine))
	case errors.As(err, &many):
		p.explainRefusals(w, many.causes, width, color)
	case errors.As(err, &mixUp):
		p.explainRefusals(w, []error{mixUp}, width, color)
	default:
		fmt.Fprintf(w, "error: %v\n", err)
		for _, hint := range hintsOf(err) {
			fmt.Fprintf(w, "hint: %s\n", p.hint(hint))
		}
	}
}

// explainRefusals tells of each pair of bases once, with all the pets it concerns:
// both bases, each ingredient that differs, and the ways out.
func (p *program) explainRefusals(w io.Writer, causes []error, width int, color bool) {
	type pair struct{ plan, now string }
	var order []pair
	pets, sample := map[pair][]string{}, map[pair]*household.MixUpError{}
	causes = p.explainJarRefusals(w, causes)
	for _, cause := range causes {
		var m *household.MixUpError
		if !errors.As(cause, &m) {
			p.explainError(w, cause, width, color)
			continue
		}
		key := pair{m.PlanBase.Code, m.Now.Code}
		if sample[key] == nil {
			order = append(order, key)
			sample[key] = m
		}
		pets[key] = append(pets[key], m.Pet)
	}
	for i, key := range order {
		m := sample[key]
		if i > 0 {
			fmt.Fprintln(w)
		}
		fmt.Fprintf(w, "error: refused: add-on and base do not belong together\n")
		fmt.Fprintf(w, "  add-ons of %s: made for base %s, %s\n", someOf(pets[key]), m.PlanBase.Code, m.PlanBase.Name)
		fmt.Fprintf(w, "  base in use: %s, %s\n", m.Now.Code, m.Now.Name)
		for _, d := range m.Differences {
			fmt.Fprintf(w, "  - %s\n", d)
		}
		ways := slices.Clone(m.Ways)
		if len(pets[key]) > 1 {
			// All of them need a new plan, so the command names none.
			ways[0].Command = ways[0].Command[:1]
		}
		for _, way := range ways {
			fmt.Fprintf(w, "hint: %s\n", p.hint(way))
		}
	}
}

// hintsOf finds the hints that an error carries.
func hintsOf(err error) []diag.Hint {
	var (
		several interface{ Hints() []diag.Hint }
		one     interface{ Hint() diag.Hint }
		words   interface{ Hint() string }
	)
	switch {
	case errors.As(err, &several):
		return several.Hints()
	case errors.As(err, &one):
		return onlyHint(one.Hint())
	case errors.As(err, &words):
		return onlyHint(diag.Hint{Text: words.Hint()})
	case errors.Is(err, syscall.ENOSPC):
		return onlyHint(diag.Hint{Text: "make room on the disk and run it again"})
	case folderFault(err):
		return onlyHint(diag.Hint{Text: "check that the folder exists, that no file is in its place, and that it may be read and written"})
	}
	return nil
}

// onlyHint is the hint as a list, none when there is none.
func onlyHint(h diag.Hint) []diag.Hint {
	if h.IsZero() {
		return nil
	}
	return []diag.Hint{h}
}
