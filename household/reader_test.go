package household_test

import (
	"bowlwright/household"
	"bowlwright/household/reading"
)

func init() { household.LoadForTests = reading.Load }
