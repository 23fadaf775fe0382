package main

import (
	"errors"
	"fmt"
	"io/fs"
	"testing"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/safefile"
	"bowlwright/nutrients"
)

// TestExitCodeOfSeveral: what must not be fed outweighs what is only out of date, and
// bad input outweighs both.
func TestExitCodeOfSeveral(t *testing.T) {
	mixUp, locked, missed := &household.MixUpError{}, &safefile.LockedError{}, unmet("x", "y")
	input, broken := badInput("x", "y"), errors.New("x")
	for _, c := range []struct {
		err  error
		want int
	}{
		{nil, diag.ExitDone},
		{broken, diag.ExitFailed},
		{input, diag.ExitInput},
		{diag.BadInput("a-code", "x", "y"), diag.ExitInput},
		{fmt.Errorf("x: %w", &nutrients.RangeError{}), diag.ExitInput},
		{&fs.PathError{Op: "open", Path: "x", Err: fs.ErrPermission}, diag.ExitInput},
		{&refusedError{[]error{mixUp, mixUp}}, diag.ExitRefused},
		{errors.Join(missed, mixUp), diag.ExitRefused},
		{errors.Join(missed, locked), diag.ExitLocked},
		{errors.Join(locked, mixUp), diag.ExitRefused},
		{errors.Join(mixUp, input), diag.ExitInput},
		{errors.Join(input, broken), diag.ExitFailed},
	} {
		if got := exitCode(c.err); got != c.want {
			t.Errorf("%v: exit code %d, want %d", c.err, got, c.want)
		}
	}
	if got := heaviest(diag.ExitOutOfDate, diag.ExitNotMet); got != diag.ExitNotMet {
		t.Errorf("out of date outweighs a plan that is not met: %d", got)
	}
	if got := heaviest(diag.ExitDone, diag.ExitOutOfDate); got != diag.ExitOutOfDate {
		t.Errorf("done outweighs out of date: %d", got)
	}
}
