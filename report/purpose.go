package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// An add-on is said to be for a nutrient when it brings at least this share of what
// the base and the extras leave missing; not more than so many are named, those with
// the largest gaps first.
const (
	leastPurpose = 0.20
	mostPurposes = 3
)

// Purposes say what each add-on is for. Plans without a program give none.
func Purposes(pet *household.PetPlan) []Item {
	var all []Item
	for _, a := range pet.Addons {
		if s := purpose(pet, a); s != "" {
			amount := dose(a)
			if a.EveryDays > 1 {
				amount += ", " + rhythm(a)
			}
			all = append(all, Item{amount, a.Name, s})
		}
	}
	return all
}

// purpose names the nutrients whose gap an add-on closes, by the program recorded
// with the plan; it is empty when the program does not hold the add-on.
func purpose(pet *household.PetPlan, a household.AddonAmount) string {
	if pet.Certificate == nil || pet.Certificate.Program == nil {
		return ""
	}
	program := pet.Certificate.Program
	column := slices.IndexFunc(program.Columns, func(c household.ProgramColumn) bool { return c.Food == a.Food })
	if column < 0 {
		return ""
	}
	type share struct {
		name string
		// closes and brings are shares of the lower limit: what of the gap the add-on
		// closes, and all that it brings.
		closes, brings float64
	}
	var shares []share
	for _, n := range pet.Nutrients {
		if n.Lower == nil {
			continue
		}
		gap := *n.Lower - n.From.Base - n.From.Extras
		row := slices.IndexFunc(program.Rows, func(r household.ProgramRow) bool { return r.Limit == nutrients.MinimumOf(n.ID) })
		if gap <= 0 || row < 0 || column >= program.Rows[row].A.Columns {
			continue
		}
		if brings := program.Rows[row].A.At(column) * a.G; brings >= leastPurpose*gap {
			shares = append(shares, share{n.Name, min(brings, gap) / *n.Lower, brings / *n.Lower})
		}
	}
	if len(shares) == 0 {
		return "balances the others within their limits"
	}
	slices.SortStableFunc(shares, func(a, b share) int { return cmp.Compare(b.closes, a.closes) })
	var words []string
	for _, s := range shares[:min(len(shares), mostPurposes)] {
		part := "under 1 %"
		if s.brings >= 0.01 {
			part = fmt.Sprintf("%.0f %%", 100*s.brings)
		}
		words = append(words, s.name+" "+part)
	}
	return strings.Join(words, ", ")
}
