package report

import "bowlwright/household"

// OwnLimitsTitle heads the limits that the household set.
const OwnLimitsTitle = "Limits set by the household"

// OwnLimit is one of them in a sentence. Loosened says that the day may hold more than
// the standard calls safe: it is drawn in red, and the sentence says so as well.
type OwnLimit struct {
	Text     string
	Loosened bool
}

func ownLimits(pet *household.PetPlan) []OwnLimit {
	var all []OwnLimit
	for _, o := range pet.OwnLimits {
		all = append(all, OwnLimit{o.Text, o.LoosensMaximum})
	}
	return all
}
