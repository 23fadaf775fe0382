package household

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household/diag"
)

// MealShares divide a day's base over the meals in whole scale steps; what does
// not divide evenly goes to the first meals. A step of 0 stands for one gram, and
// there is one meal at least.
func MealShares(dailyG float64, meals int, step float64) []float64 {
	if step <= 0 {
		step = 1
	}
	meals = max(1, meals)
	steps := int(math.Round(dailyG / step))
	shares := make([]float64, meals)
	for i := range shares {
		n := steps / meals
		if i < steps%meals {
			n++
		}
		shares[i] = float64(n) * step
	}
	return shares
}

// NotPrintableError says that a plan has no amounts that may be printed.
type NotPrintableError struct {
	Pet    string
	Status Status
	Why    []string
}

func (e *NotPrintableError) Error() string {
	return fmt.Sprintf("no card for %s: the plan is %s: %s", e.Pet, e.Status, strings.Join(e.Why, "; "))
}

// ExitCode is that of a plan that does not meet its targets.
func (e *NotPrintableError) ExitCode() int { return diag.ExitNotMet }

// Hint says how to see what stands in the way.
func (e *NotPrintableError) Hint() diag.Hint { return diag.Command("", "explain", e.Pet) }
