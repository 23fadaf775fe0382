package report

import (
	"io"

	"bowlwright/household"
)

// TextOptions say what the terminal can do.
type TextOptions struct {
	// Width in columns; 80 when zero.
	Width int
	Color bool
}

// PaperOptions say what the printer can do.
type PaperOptions struct {
	// Paper is "a4" or "letter".
	Paper string
}

// CardText writes one daily card.
func CardText(w io.Writer, p household.Paired, o TextOptions) error {
	panic("report: CardText is being built")
}

// PlanText writes the plan as the `plan` command shows it: amounts, every
// nutrient with amount, limits, coverage and state, what decides, cautions. For
// a plan that is not printable it shows why and no amounts.
func PlanText(w io.Writer, p household.Paired, o TextOptions) error {
	panic("report: PlanText is being built")
}

// CardsPDF writes one page a pet.
func CardsPDF(w io.Writer, ps []household.Paired, o PaperOptions) error {
	panic("report: CardsPDF is being built")
}
