package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"
	"syscall"

	"bowlwright/fixtures"
	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/safefile"
	"bowlwright/nutrients"
)

// Exit codes.
const (
	exitDone    = 0
	exitFailed  = 1
	exitInput   = 2
	exitNotMet  = 3
	exitRefused = 4
	exitLocked  = 5
)

// exitMeanings are shown by `help` and in the README.
var exitMeanings = []string{
	"0  done",
	"1  the program failed",
	"2  bad input: a file or an option",
	"3  a plan does not meet its targets",
	"4  refused: add-on and base do not belong together",
	"5  locked by another run",
}

// inputError is bad input, with a hint that can be typed.
type inputError struct{ message, hint string }

func (e *inputError) Error() string { return e.message }

// notMetError says that everything was computed, and that something which is fed
// or was about to be is not right.
type notMetError struct{ message, hint string }

func (e *notMetError) Error() string { return e.message }

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

// diagnosticsError carries the faults of the user's files.
type diagnosticsError struct{ list diag.List }

func (e *diagnosticsError) Error() string {
	return fmt.Sprintf("%d faults in the household's files", len(e.list))
}

// noAmountsError says that a card was asked for where no amounts may be fed.
type noAmountsError struct {
	*household.NotPrintableError
	hint string
}

// exitCode maps an error to its exit code. It is the only place that does.
func exitCode(err error) int {
	var (
		refused  *refusedError
		mixUp    *household.MixUpError
		locked   *safefile.LockedError
		notMet   *notMetError
		input    *inputError
		faults   *diagnosticsError
		usage    *household.InputError
		record   *household.RecordError
		outRange *nutrients.RangeError
		full     *fixtures.NotEmptyError
		unwrit   *safefile.CannotWriteError
		empty    *noAmountsError
		noCard   *household.NotPrintableError
	)
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &refused), errors.As(err, &mixUp):
		return exitRefused
	case errors.As(err, &locked):
		return exitLocked
	case errors.As(err, &notMet), errors.As(err, &empty), errors.As(err, &noCard):
		return exitNotMet
	case errors.As(err, &input), errors.As(err, &faults), errors.As(err, &usage), errors.As(err, &record), errors.As(err, &outRange),
		errors.As(err, &full), errors.As(err, &unwrit), folderFault(err):
		return exitInput
	}
	return exitFailed
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

// explainError writes the error and its hint, in lower case, for a person.
func (p *program) explainError(w io.Writer, err error, width int, color bool) {
	var (
		faults *diagnosticsError
		mixUp  *household.MixUpError
		many   *refusedError
	)
	switch {
	case errors.As(err, &faults):
		io.WriteString(w, faults.list.Text(width, color))
	case errors.As(err, &many):
		p.explainRefusals(w, many.causes, width, color)
	case errors.As(err, &mixUp):
		p.explainRefusals(w, []error{mixUp}, width, color)
	default:
		fmt.Fprintf(w, "error: %v\n", err)
		if hint := hintOf(err); hint != "" {
			fmt.Fprintf(w, "hint: %s\n", p.withFolder(hint))
		}
	}
}

// explainRefusals tells of each pair of bases once, with all the pets it concerns:
// both bases, each ingredient that differs, and the ways out.
func (p *program) explainRefusals(w io.Writer, causes []error, width int, color bool) {
	type pair struct{ plan, now string }
	var order []pair
	pets, sample := map[pair][]string{}, map[pair]*household.MixUpError{}
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
		for _, way := range m.Ways {
			if len(pets[key]) > 1 {
				way = strings.Replace(way, "bowlwright plan "+m.Pet, "bowlwright plan", 1)
			}
			fmt.Fprintf(w, "hint: %s\n", p.withFolder(way))
		}
	}
}

// hintOf finds the hint that an error carries.
func hintOf(err error) string {
	var (
		input    *inputError
		locked   *safefile.LockedError
		outRange *nutrients.RangeError
		full     *fixtures.NotEmptyError
		unwrit   *safefile.CannotWriteError
		usage    *household.InputError
		notMet   *notMetError
		record   *household.RecordError
		empty    *noAmountsError
	)
	switch {
	case errors.Is(err, syscall.ENOSPC):
		return "make room on the disk and run it again"
	case errors.As(err, &input):
		return input.hint
	case errors.As(err, &empty):
		return empty.hint
	case errors.As(err, &record):
		return record.Finding.Hint
	case errors.As(err, &notMet):
		return notMet.hint
	case errors.As(err, &locked):
		return locked.Hint()
	case errors.As(err, &outRange):
		return outRange.Hint
	case errors.As(err, &full):
		return "name a folder that does not exist yet: bowlwright demo ./another-folder"
	case errors.As(err, &unwrit):
		if errors.Is(unwrit, fs.ErrPermission) {
			return "whose it is, and who may write there, shows: ls -ld " + quotedName(filepath.Dir(unwrit.Path))
		}
		return "check that the folder is there and may be written to"
	case errors.As(err, &usage):
		return usage.Hint
	case folderFault(err):
		return "check that the folder is there, that no file stands in its way, and that it may be read and written"
	}
	return ""
}
