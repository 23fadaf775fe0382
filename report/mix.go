package report

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// Mix is what a mixing sheet shows, worked out once for every renderer.
type Mix struct {
	Title, Code string
	// For says how much for whom, Scale the scale that it is made for.
	For, Scale string
	// Good is how long the mix is good.
	Good     string
	Sections []MixSection
	// Total is the weight of the mix, GoodFrom and GoodTo the range that counts as right.
	Total, Range string
	Doses        []MixDose
	Taken        string
	Buy          []Item
	Notes        []string
	// InHand says that a mix of this jar is in hand, "" for none.
	InHand string
	Foot   string
	Date   household.Date
}

// MixSection is a part of the mixing with its weighings.
type MixSection struct {
	Head, About string
	Lines       []MixLine
	// After is what to do when all of it is in.
	After string
}

// MixLine is one weighing.
type MixLine struct {
	Number               int
	Amount, Name, Remark string
	// Shows is what the scale then shows, without its unit.
	Shows string
}

// MixDose is a pet's dose on the sheet.
type MixDose struct{ Pet, Kind, Dose, Days, InAll string }

// NewMix gathers what a mixing sheet shows.
func NewMix(s *household.MixSheet) *Mix {
	j := &s.Jar
	places := placesOf(j.StepG)
	amount := func(g float64) string { return fmt.Sprintf("%.*f", places, g) }
	m := &Mix{Title: nutrients.Capital(j.Name), Code: j.Code, Date: s.Date,
		For: fmt.Sprintf("%s g for %s", amount(j.MakesG), listed(j.Pets)), Scale: "scale: " + number.Short(j.StepG) + " g",
		Good: Days(j.Days), Total: amount(j.MakesG) + " g"}
	from, to := j.Good()
	m.Range = fmt.Sprintf("between %s and %s is good", amount(from), amount(to))
	heads := map[household.MixPart]MixSection{
		household.MixTraces:   {Head: "Traces first", About: "in a small dry bowl, weighed twice", After: "Stir 1 minute."},
		household.MixDoubling: {Head: "Double it", About: "so that the traces spread evenly; stir 1 minute after each", After: "Empty jar on the scale, tare, pour the bowl in."},
		household.MixRest:     {Head: "The rest", About: "into the jar, small to large"},
	}
	if len(s.Steps) > 0 && s.Steps[0].Part == household.MixTraces && !hasPart(s, household.MixDoubling) {
		traces := heads[household.MixTraces]
		traces.After = "Stir 1 minute. Empty jar on the scale, tare, pour the bowl in."
		heads[household.MixTraces] = traces
	}
	for i, step := range s.Steps {
		if i == 0 || step.Part != s.Steps[i-1].Part {
			section := heads[step.Part]
			section.Head = fmt.Sprintf("%c %s", 'A'+len(m.Sections), section.Head)
			m.Sections = append(m.Sections, section)
		}
		line := MixLine{Number: i + 1, Amount: amount(step.G) + " g", Name: step.Name, Shows: amount(step.TotalG)}
		if step.Rest {
			line.Remark = "the rest of it"
		}
		last := &m.Sections[len(m.Sections)-1]
		last.Lines = append(last.Lines, line)
	}
	if j.RateG > 0 {
		m.Notes = append(m.Notes, fmt.Sprintf("Into every bowl: %s g to 100 g of base.", number.Decimals(j.RateG, 3)))
	}
	if j.ScoopG > 0 {
		m.Notes = append(m.Notes, fmt.Sprintf("A level scoop holds %s g: weigh ten of them to see that yours does.", number.Short(j.ScoopG)))
	}
	for _, d := range s.Doses {
		dose := amount(d.DoseG) + " g"
		if j.ScoopG > 0 {
			dose = plural(int(math.Round(d.DoseG/j.ScoopG)), "scoop")
		}
		m.Doses = append(m.Doses, MixDose{d.Pet, kindWord(d), dose, fmt.Sprint(j.Days), amount(d.DaysG) + " g"})
		if !d.Again.IsZero() {
			m.Notes = append(m.Notes, fmt.Sprintf("%s gets a new dose by %s, from the same jar.", d.Pet, DayText(d.Again)))
		}
	}
	m.Taken = fmt.Sprintf("together %s g", amount(s.TakenG))
	if more := j.MakesG - s.TakenG; more > 0 {
		m.Taken += fmt.Sprintf(", and %s g to spare, for what sticks", amount(more))
	}
	m.doseNotes(s)
	m.Notes = append(m.Notes, "The scale stops at 200 or 500 g, or the bowl is full? Press tare and go on by the left column.",
		"Close the jar and turn it over 30 times. Storage: dry, dark, closed.")
	m.Notes = append(m.Notes, s.Cautions...)
	for _, b := range s.Beside {
		m.Buy = append(m.Buy, Item{Amount: PotGrams(b.G), Name: b.Name})
	}
	if h := s.InHand; h != nil {
		m.InHand = fmt.Sprintf("This jar is in hand: %s g mixed on %s, good until %s.", amount(h.MixedG), DayText(h.Date), DayText(h.UseBy))
	}
	m.Foot = fmt.Sprintf("%s. Doses for base %s, plans of %s", s.Household, s.Base, DayText(s.Date))
	return m
}

// doseNotes warns where one pet's dose is many times another's.
func (m *Mix) doseNotes(s *household.MixSheet) {
	if len(s.Doses) < 2 {
		return
	}
	least, most := s.Doses[0], s.Doses[0]
	for _, d := range s.Doses[1:] {
		if d.DoseG < least.DoseG {
			least = d
		}
		if d.DoseG > most.DoseG {
			most = d
		}
	}
	note := "Each pet has its own dose: check the name."
	if times := most.DoseG / least.DoseG; times >= 2 {
		note = fmt.Sprintf("Each pet has its own dose: %s's is %.0f times %s's. Check the name.", most.Pet, times, least.Pet)
	}
	m.Notes = append([]string{note}, m.Notes...)
}

func hasPart(s *household.MixSheet, part household.MixPart) bool {
	for _, step := range s.Steps {
		if step.Part == part {
			return true
		}
	}
	return false
}

// kindWord tells an animal on the sheet: "dog", "puppy".
func kindWord(d household.MixDose) string {
	if d.Stage == nutrients.Growth {
		return "young " + string(d.Species)
	}
	return string(d.Species)
}

// listed writes names as a sentence has them.
func listed(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// placesOf is how many decimals a scale shows.
func placesOf(step float64) int {
	for places := range 3 {
		if step >= 1 {
			return places
		}
		step *= 10
	}
	return 3
}
