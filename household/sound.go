package household

import (
	"fmt"

	"bowlwright/household/diag"
)

// Sound is a plan whose own numbers hold. Only Examine makes one, and Pair takes
// nothing else, so that no command can print or restore a plan that nobody looked at.
type Sound struct{ plan *Plan }

// Plan returns the plan.
func (s Sound) Plan() *Plan { return s.plan }

// Unexamined passes a plan by Examine, for tests of what is drawn from plans that no
// household has. Its first argument is a *testing.T, which the program does not have.
func Unexamined(_ interface{ Helper() }, plan *Plan) Sound { return Sound{plan} }

// UnsoundError says that the numbers of a record contradict each other: it was forged,
// or edited together with its name.
type UnsoundError struct {
	// What is "the plan of Pip" or "the cooking of Turkey pot", Why what does not hold.
	What, Why string
	// Pet is the pet of a plan.
	Pet string
}

func (e *UnsoundError) Error() string {
	return fmt.Sprintf("the numbers of %s do not agree: %s", e.What, e.Why)
}

// ExitCode is that of bad input.
func (e *UnsoundError) ExitCode() int { return diag.ExitInput }

// Hint says what to do instead.
func (e *UnsoundError) Hint() diag.Hint {
	if e.Pet == "" {
		return diag.Hint{Text: "move the record out of records/"}
	}
	return diag.Command("do not feed by it; make a new plan with", "plan", e.Pet)
}
