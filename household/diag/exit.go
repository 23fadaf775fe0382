package diag

// The exit codes of the program. An error type names its own with a method
// ExitCode() int; an error without one is ExitFailed.
const (
	ExitDone      = 0
	ExitFailed    = 1
	ExitInput     = 2
	ExitNotMet    = 3
	ExitRefused   = 4
	ExitLocked    = 5
	ExitOutOfDate = 6
)

// InputError is a fault in something that a person typed.
type InputError struct {
	// Code is stable and kebab-case.
	Code string
	// Summary says what is wrong, Advice what to type instead.
	Summary string
	Advice  Hint
}

// BadInput returns an *InputError with a hint in words and, where there is one, the
// command that helps.
func BadInput(code, summary, hint string, command ...string) *InputError {
	return &InputError{code, summary, Hint{hint, command}}
}

func (e *InputError) Error() string { return e.Summary }

// ExitCode is that of bad input.
func (e *InputError) ExitCode() int { return ExitInput }

// Hint says what to type instead.
func (e *InputError) Hint() Hint { return e.Advice }
