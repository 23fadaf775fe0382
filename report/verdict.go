package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// none begins a sentence that says something of none of so many.
func none(n int, what string) string {
	if n == 1 {
		return "The one " + what + " is not"
	}
	return "None of the " + plural(n, what) + " is"
}

// A nutrient is to be watched from this share of its maximum on, or when less than the
// other share of the food has a figure for it.
const (
	nearMaximum = 0.95
	littleKnown = 0.80
)

// verdict says in one or two sentences whether the day is enough and not too much. Only
// maximums that were fully checked are counted.
func verdict(pet *household.PetPlan) string {
	var below, above, unknown []string
	maximums, checked, minimums := 0, 0, 0
	for _, n := range pet.Nutrients {
		name := nutrients.InSentence(n.Name)
		if n.Lower != nil {
			minimums++
			switch {
			case n.Amount == nil:
				unknown = append(unknown, name)
			case n.State == household.StateLow:
				below = append(below, name)
			}
		}
		if n.Upper != nil {
			maximums++
			if n.UpperChecked {
				checked++
			}
			if n.State == household.StateHigh {
				above = append(above, name)
			}
		}
	}
	var s []string
	switch missed := len(below) + len(unknown); {
	case missed == 0:
		s = append(s, fmt.Sprintf("All %d nutrients reach their minimum.", minimums))
	default:
		s = append(s, fmt.Sprintf("%d of %d nutrients reach their minimum.", minimums-missed, minimums))
		if len(below) > 0 {
			s = append(s, "Below minimum: "+strings.Join(below, ", ")+".")
		}
		if len(unknown) > 0 {
			s = append(s, "Nothing is known of "+strings.Join(unknown, ", ")+".")
		}
	}
	switch {
	case len(above) > 0:
		s = append(s, "Above maximum: "+strings.Join(above, ", ")+".")
	case checked > 0 && checked < maximums:
		s = append(s, fmt.Sprintf("%s exceeded; %d could not be fully checked.", none(checked, "fully checked maximum"), maximums-checked))
	case checked > 0:
		s = append(s, none(checked, "maximum")+" exceeded.")
	case maximums > 0:
		s = append(s, "The "+plural(maximums, "maximum")+" could not be fully checked.")
	}
	for _, r := range pet.Ratios {
		if r.State != household.StateMet {
			s = append(s, nutrients.Capital(ratioText(r))+".")
		}
	}
	return strings.Join(s, " ")
}

// Watch is a nutrient that needs attention, or several for the same reason.
type Watch struct {
	Name, Reason string
	// Bar is that of the first.
	Bar Bar
	// Failed says that it misses a limit or that nothing is known of it.
	Failed bool
}

// watched lists what misses a limit, then what is near its maximum, then what little is
// known of. Of the last, those of one group that are known alike stand in one line.
func watched(pet *household.PetPlan, bars []Bar) []Watch {
	var failed, near, thin []Watch
	var names [][]string
	at := map[string]int{}
	for i, n := range pet.Nutrients {
		b := bars[i]
		switch {
		case n.State != household.StateMet:
			failed = append(failed, Watch{b.Label(), b.State, b, true})
		case n.Upper != nil && high(n) >= nearMaximum**n.Upper:
			near = append(near, Watch{b.Label(), fmt.Sprintf("%.0f %% of its maximum", math.Floor(100*high(n) / *n.Upper)), b, false})
		case b.LittleKnown:
			key := b.Group + b.Coverage
			if k, ok := at[key]; ok {
				names[k] = append(names[k], nutrients.InSentence(b.Label()))
				continue
			}
			at[key] = len(thin)
			names = append(names, []string{b.Label()})
			thin = append(thin, Watch{Reason: "known for " + b.Coverage + " of the food", Bar: b})
		}
	}
	for i := range thin {
		thin[i].Name = strings.Join(names[i], ", ")
		if len(names[i]) > mostNamed {
			thin[i].Name = fmt.Sprintf("%d %s", len(names[i]), groupWords[thin[i].Bar.Group])
		}
	}
	return slices.Concat(failed, near, thin)
}

// mostNamed is up to how many nutrients are named one by one.
const mostNamed = 2

// high is the amount that counts toward the maximum.
func high(n household.NutrientLine) float64 {
	switch {
	case n.High != nil:
		return *n.High
	case n.Amount != nil:
		return *n.Amount
	}
	return 0
}

// Groups of nutrients, in the order of documents.
const (
	aminoGroup   = "Protein and amino acids"
	fatGroup     = "Fats"
	mineralGroup = "Minerals"
	vitaminGroup = "Vitamins"
)

// Groups are the heads of the table of nutrients.
var Groups = []string{aminoGroup, fatGroup, mineralGroup, vitaminGroup}

// groupWords count members of a group: "9 amino acids".
var groupWords = map[string]string{aminoGroup: "amino acids", fatGroup: "fats", mineralGroup: "minerals", vitaminGroup: "vitamins"}

// groupOf is the group that a nutrient stands in.
func groupOf(id nutrients.ID) string {
	switch id {
	case nutrients.MethionineCystine, nutrients.PhenylalanineTyrosine:
		return aminoGroup
	case nutrients.EPADHA:
		return fatGroup
	case nutrients.VitaminA, nutrients.VitaminK:
		return vitaminGroup
	}
	switch {
	case id < nutrients.Fat:
		return aminoGroup
	case id < nutrients.Calcium:
		return fatGroup
	case id < nutrients.VitaminARAE:
		return mineralGroup
	}
	return vitaminGroup
}
