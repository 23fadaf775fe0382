package main

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// fits asks the reader of the files whether it would take what was answered so far
// with one more answer: a question is asked again at once, not after the last.
func (q *interviewer) fits(with func(*newHousehold)) error {
	n := q.made
	if n.base == "" {
		n.base = "Base"
	}
	with(&n)
	if len(n.pets) == 0 {
		n.pets = []newPet{{name: "Animal", species: "dog", weight: "10 kg"}}
	}
	if len(n.ingredients) == 0 {
		n.ingredients = []newIngredient{{"oats-rolled-dry", "1 kg", "boiled"}}
	}
	files, err := n.files()
	if err != nil {
		return err
	}
	fault, err := firstFault(files, q.today)
	if err != nil || fault == nil {
		return err
	}
	return withHint(fault.Summary, fault.Hint)
}

// newName takes a name that no other animal has. The first animal must have one.
func (q *interviewer) newName(first bool) func(string) (string, error) {
	return func(s string) (string, error) {
		if slices.ContainsFunc(q.made.pets, func(other newPet) bool { return strings.EqualFold(other.name, s) }) {
			return "", fmt.Errorf("there is a %s already; give the other one another name", s)
		}
		if s == "" && first {
			return something(s)
		}
		if s == "" {
			return "", nil
		}
		return s, q.fits(func(h *newHousehold) {
			h.pets = append(slices.Clone(h.pets), newPet{name: s, species: "dog", weight: "10 kg"})
		})
	}
}

// animalWeight is what is wrong with the weight of an animal, with its hint.
func animalWeight(s string) error {
	if _, err := strconv.ParseFloat(s, 64); err == nil {
		return badInput(s+" has no unit", fmt.Sprintf(`write "%s kg" or "%s lb"`, s, s))
	}
	return weightFault(s)
}

// petWeight takes what an animal of its species can weigh.
func (q *interviewer) petWeight(pet *newPet) func(string) (string, error) {
	return func(s string) (string, error) {
		if err := animalWeight(s); err != nil {
			return "", err
		}
		return s, q.fits(func(h *newHousehold) {
			h.pets = []newPet{{name: pet.name, species: pet.species, weight: s}}
		})
	}
}

// adultWeight takes what a growing animal can come to weigh.
func (q *interviewer) adultWeight(pet newPet) func(string) (string, error) {
	return func(s string) (string, error) {
		if err := animalWeight(s); err != nil {
			return "", err
		}
		pet.adultWeight = s
		return s, q.fits(func(h *newHousehold) { h.pets = []newPet{pet} })
	}
}

// yearOrMonth is a birthday of which less than the day is known.
var yearOrMonth = regexp.MustCompile(`^([0-9]{4})(-[0-9]{2})?$`)

// born takes a birthday, or the year or month of it, for which the middle stands.
func (q *interviewer) born(pet *newPet) func(string) (string, error) {
	return func(s string) (string, error) {
		pet.bornAbout = false
		if s == "" {
			return "", nil
		}
		if m := yearOrMonth.FindStringSubmatch(s); m != nil {
			early, middle := s+"-01", s+"-15"
			if m[2] == "" {
				early, middle = s+"-01-01", s+"-07-01"
			}
			s = middle
			if day, err := household.ParseDate(middle); err == nil && q.today.Before(day) {
				s = early
			}
			pet.bornAbout = true
		}
		day, err := household.ParseDate(s)
		if err != nil {
			return "", fmt.Errorf("%w; write it like 2019-05-12, or only the year", err)
		}
		if q.today.Before(day) {
			return "", fmt.Errorf("%s lies in the future", day)
		}
		if pet.bornAbout {
			fmt.Fprintf(q.out, "  taken as about %s\n", day)
		}
		return day.String(), nil
	}
}

// surelyCooked is a method for a food of which the way of cooking is not known yet.
func surelyCooked(f *nutrients.Food) string {
	if cookedRank(f) == 0 {
		return "simmered"
	}
	return ""
}

func (q *interviewer) fitsCooked(in newIngredient) error {
	return q.fits(func(h *newHousehold) { h.ingredients = []newIngredient{in} })
}

// mayBeCooked refuses what harms however it is cooked.
func (q *interviewer) mayBeCooked(f *nutrients.Food) error {
	return q.fitsCooked(newIngredient{f.ID, "100 g", surelyCooked(f)})
}

func (q *interviewer) mayStandOnShelf(f *nutrients.Food) error {
	return q.fits(func(h *newHousehold) { h.shelf = []string{f.ID} })
}

// askedColumns is the width of what is shown between the questions.
const askedColumns = 76

// wrapped breaks a list of words into lines that stand two columns in.
func wrapped(words string) string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(words) {
		if line != "" && len(line)+1+len(w) > askedColumns {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimSpace(line + " " + w)
	}
	return strings.Join(append(lines, line), "\n  ")
}

// answerHint is the hint of an error for somebody who answers questions: words to
// look for are typed as an answer, without the command in front of them.
func answerHint(err error) string {
	var parts []string
	for _, hint := range hintsOf(err) {
		parts = append(parts, hint.Render(func(words []string) string {
			if len(words) > 2 && words[0] == "foods" && words[1] == "find" {
				words = words[2:]
			} else {
				words = append([]string{"bowlwright"}, words...)
			}
			return strings.Join(words, " ")
		}))
	}
	return strings.Join(parts, "; ")
}
